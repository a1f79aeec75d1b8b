"""The engines: sums that do not depend on what else is in the record, within bounds."""

from pathlib import Path

import pyarrow.parquet as pq
import pytest

from loftwright.errors import InputError, StoreError
from loftwright.shop import engine
from loftwright.shop.columns import KEYS
from loftwright.shop.engine import bytes_of, sum_lots, sums_in, write_sums
from loftwright.shop.record import erase, files, keep
from shop_samples import a_fitting, shaft_effects

FITTINGS = 24


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("record")
    effects = shaft_effects(3)
    for seed in range(FITTINGS):
        keep(made, a_fitting(seed, effects))
    return made


@pytest.fixture
def small_lots(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have lots of a few files each, so that a small record has many."""
    monkeypatch.setattr(engine, "LOT", 100)


def by_key(rows: engine.Sums) -> dict[tuple[str, ...], dict[str, object]]:
    return {tuple(str(row[name]) for name in KEYS): dict(row) for row in rows}


@pytest.mark.usefixtures("small_lots")
def test_sums_are_the_same_to_the_last_digit_however_many_threads_there_are(folder: Path) -> None:
    assert len(list(sum_lots(folder))) > 5
    one, three = sums_in(folder), sums_in(folder, threads=3)
    assert list(one) == list(three)


def test_sums_are_the_same_to_the_last_digit_in_lots_and_at_once(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = by_key(sums_in(folder))
    monkeypatch.setattr(engine, "LOT", 1)
    assert len(list(sum_lots(folder))) == len(files(folder))
    assert by_key(sums_in(folder)) == whole


def test_a_golfer_taken_out_leaves_the_sums_of_a_record_that_never_had_the_balls(
    tmp_path: Path,
) -> None:
    effects = shaft_effects(3)
    fittings = [a_fitting(seed, effects) for seed in range(FITTINGS)]
    gone = fittings[7]
    for one in fittings:
        keep(tmp_path / "had", one)
        if one is not gone:
            keep(tmp_path / "never", one)
    erase(tmp_path / "had", gone.golfer)
    assert list(sums_in(tmp_path / "had")) == list(sums_in(tmp_path / "never"))


def test_rows_are_told_like_a_sequence(folder: Path) -> None:
    rows = sums_in(folder)
    assert len(rows) == len(list(rows)) == 4 * FITTINGS
    assert rows[0] == next(iter(rows))
    assert rows[-1] == rows[len(rows) - 1]
    assert rows[:2] == [rows[0], rows[1]]
    with pytest.raises(IndexError):
        rows[len(rows)]


def test_sums_on_disk_are_those_in_memory(folder: Path, tmp_path: Path) -> None:
    place = tmp_path / "sums.parquet"
    assert write_sums(folder, place, memory="500MB") == 4 * FITTINGS
    assert pq.read_table(place).to_pylist() == list(sums_in(folder))


def test_an_empty_record_has_no_sums(tmp_path: Path) -> None:
    rows = sums_in(tmp_path)
    assert len(rows) == 0
    assert list(rows) == []
    assert list(sum_lots(tmp_path)) == []


@pytest.mark.parametrize(
    ("size", "bytes_"), [("2GB", 2_000_000_000), ("512 MiB", 2**29), ("1.5gb", 1_500_000_000)]
)
def test_a_size_of_memory_is_read(size: str, bytes_: int) -> None:
    assert bytes_of(size) == bytes_


@pytest.mark.parametrize("size", ["2", "GB", "-1GB", "0MB", "2TB'; DROP"])
def test_what_is_no_size_is_refused(size: str, folder: Path) -> None:
    with pytest.raises(InputError, match="is no size of memory"):
        sums_in(folder, memory=size)


def test_too_little_memory_is_said_and_how_to_mend_it(folder: Path) -> None:
    with pytest.raises(InputError, match="do not hold the sums") as refused:
        sums_in(folder, memory="1MB")
    assert "fewer threads" in refused.value.mend


def test_no_threads_are_refused(folder: Path) -> None:
    with pytest.raises(InputError, match="0 threads"):
        sums_in(folder, threads=0)


def test_a_file_that_is_no_record_is_named(tmp_path: Path) -> None:
    keep(tmp_path, a_fitting(1, shaft_effects(3)))
    (file,) = files(tmp_path)
    file.write_bytes(b"not parquet")
    with pytest.raises(StoreError, match="cannot be read") as refused:
        sums_in(tmp_path)
    assert refused.value.place == str(file)
    assert "loftwright shop record" in refused.value.mend


def test_a_folder_with_a_quote_in_its_name_is_read(tmp_path: Path) -> None:
    folder = tmp_path / "the shop's"
    keep(folder, a_fitting(1, shaft_effects(3)))
    assert len(sums_in(folder)) == 4

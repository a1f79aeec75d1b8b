"""The shop record on disk: written again it is the same, and a golfer can be taken out."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pyarrow.parquet as pq
import pytest

from loftwright.arrays import frozen_array, frozen_index
from loftwright.errors import StoreError
from loftwright.evidence.balls import Balls
from loftwright.shop.levels import Belongs
from loftwright.shop.record import (
    COLUMNS,
    Recorded,
    drop_all,
    erase,
    files,
    keep,
    part_of,
    standing,
    table_of,
)

LAUNCH = (61.0, 1.0, 251.0, 1.0, 1.0)
DELIVERY = (45.0, 0.0, 0.0, 0.0)


def recorded(fitting: str, golfer: str, *, left: bool = False, count: int = 6) -> Recorded:
    """Return an invented fitting of two clubs."""
    rng = np.random.default_rng(len(fitting) + ord(golfer[-1]))
    return Recorded(
        fitting=fitting,
        golfer=golfer,
        left_handed=left,
        bays=("Bay 1",),
        devices=("Radar",),
        balls=Balls(
            clubs=("Own", "Ash"),
            own=0,
            club=frozen_index(np.arange(count) % 2),
            row=frozen_index(np.arange(count)),
            order=frozen_array(np.arange(count, dtype=float)),
            launch=frozen_array(rng.normal(LAUNCH, 0.1, (count, 5))),
            delivery=frozen_array(rng.normal(DELIVERY, 0.01, (count, 4))),
            marks=frozen_array(rng.normal(0.0, 0.005, (count, 2))),
            mark_set=frozen_index(np.full(count, -1)),
            carry=frozen_array(np.full(count, np.nan)),
        ),
        belongs={"Own": Belongs(head="h", piece="p1"), "Ash": Belongs(head="h", piece="p2")},
    )


def read(folder: Path) -> list[dict[str, object]]:
    return [
        row for file in files(folder) for row in pq.read_table(file, partitioning=None).to_pylist()
    ]


def test_a_fitting_written_again_is_there_once(tmp_path: Path) -> None:
    keep(tmp_path, recorded("f1", "g1"))
    before = read(tmp_path)
    keep(tmp_path, recorded("f1", "g1"))
    assert read(tmp_path) == before
    assert len(before) == 6
    assert tuple(before[0]) == COLUMNS


def test_a_golfer_taken_out_leaves_the_others_as_they_were(tmp_path: Path) -> None:
    golfers = [f"g{one}" for one in range(300)]
    for golfer in golfers:
        keep(tmp_path, recorded(f"f-{golfer}", golfer, count=2))
    shared = next(one for one in golfers[1:] if part_of(one) == part_of(golfers[0]) or one)
    others = [row for row in read(tmp_path) if row["golfer"] != shared]
    assert erase(tmp_path, shared) == 2
    assert read(tmp_path) == others
    assert erase(tmp_path, shared) == 0


def test_a_left_handers_balls_are_those_of_a_mirrored_right_hander() -> None:
    right, left = table_of(recorded("f1", "g1")), table_of(recorded("f1", "g1", left=True))
    for name in ("axis", "direction", "path", "face", "strike_toe"):
        assert np.allclose(right[name].to_numpy(), -left[name].to_numpy())
    for name in ("ball_speed", "launch", "spin", "attack", "strike_high"):
        assert right[name] == left[name]


def test_the_last_golfer_of_a_part_leaves_no_file(tmp_path: Path) -> None:
    keep(tmp_path, recorded("f1", "g1"))
    erase(tmp_path, "g1")
    assert files(tmp_path) == []


def test_a_record_that_is_none_is_refused_and_left(tmp_path: Path) -> None:
    keep(tmp_path, recorded("f1", "g1"))
    file = files(tmp_path)[0]
    file.write_bytes(b"not parquet")
    with pytest.raises(StoreError, match="cannot be written"):
        keep(tmp_path, recorded("f2", "g1"))
    assert file.read_bytes() == b"not parquet"
    assert [one.name for one in file.parent.iterdir()] == [file.name]


def test_a_mark_of_a_set_of_unknown_order_is_no_balls_mark() -> None:
    one = recorded("f1", "g1")
    balls = replace(one.balls, mark_set=frozen_index(np.array([0, 0, 0, -1, -1, -1])))
    table = table_of(replace(one, balls=balls))
    assert table["strike_toe"].null_count == table["strike_high"].null_count == 3


def test_fittings_taken_out_leave_the_others_of_their_golfers(tmp_path: Path) -> None:
    for fitting, golfer in (("f1", "g1"), ("f2", "g1"), ("f3", "g2"), ("f4", "g3")):
        keep(tmp_path, recorded(fitting, golfer))
    assert standing(tmp_path) == {
        ("f1", "g1"): 6,
        ("f2", "g1"): 6,
        ("f3", "g2"): 6,
        ("f4", "g3"): 6,
    }
    assert drop_all(tmp_path, {("f1", "g1"), ("f3", "g2"), ("f9", "g9")}) == 12
    assert set(standing(tmp_path)) == {("f2", "g1"), ("f4", "g3")}
    assert drop_all(tmp_path, {("f1", "g1"), ("f3", "g2")}) == 0


def test_what_is_not_there_is_not_written_again(tmp_path: Path) -> None:
    keep(tmp_path, recorded("f1", "g1"))
    (file,) = files(tmp_path)
    before = file.stat().st_ino
    assert drop_all(tmp_path, {("f2", "g1")}) == 0
    assert file.stat().st_ino == before


def test_a_damaged_file_is_named_when_the_record_is_looked_through(tmp_path: Path) -> None:
    keep(tmp_path, recorded("f1", "g1"))
    (file,) = files(tmp_path)
    file.write_bytes(b"not parquet")
    with pytest.raises(StoreError, match="cannot be read") as refused:
        standing(tmp_path)
    assert refused.value.place == str(file)

"""A copy for the golfer holds all of the golfer, nothing of another one and nothing on health."""

import csv
import io
import json
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import Closed, Felt, NotOurs, PainSaid
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import NotFoundError, StoreError
from loftwright.services.export_cells import table
from loftwright.services.export_marker import golfers_in, marked_folders
from loftwright.services.exporting import export_golfer, export_shop, zipped
from loftwright.services.fittings import open_fitting
from loftwright.services.golfer_named import golfer_named
from loftwright.services.golfers import add_golfer, set_limits_today
from loftwright.services.merging import merge
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio
from records import numbers


@pytest.fixture
def couple() -> Bay:
    """Return a bay in which two golfers took turns, each with words of their own."""
    bay = a_bay()
    studio = bay.studio
    bay.do(Felt(club="Own", place=0.7, word="=SUM(oakum)"))
    bay.ball()
    other = add_golfer(studio, Golfer(id="", goal="osprey"), Identity(name="Hob Noughtley"))
    theirs = open_fitting(studio, other.id, bay="Bay 1", partner=bay.fitting)
    stray = Incoming(numbers=numbers(), line="hit by Noughtley", key="stray", device="meter")
    take(studio, bay.fitting, stray, source="feed")
    bay.do(NotOurs(ball=studio.record(bay.fitting)[-1].sequence))
    set_limits_today(studio, bay.golfer.id, "sore wrist")
    bay.do(PainSaid())
    bay.do(Closed())
    assert theirs.partner == bay.fitting
    return bay


def whole(folder: Path) -> str:
    """Return every file of a folder and its name, as text."""
    return "\n".join(
        f"{file.relative_to(folder)}\n{file.read_bytes().decode('latin-1')}"
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    )


def test_a_copy_holds_the_golfer_and_nothing_of_the_one_who_took_turns(
    couple: Bay, tmp_path: Path
) -> None:
    to = tmp_path / "copy"
    done = export_golfer(couple.studio, couple.golfer.id, to)
    there = whole(to)
    assert "Ottoline Brambleby" in there
    assert "oakum" in there
    assert done.files == len([one for one in to.rglob("*") if one.is_file()])
    assert {one.name for one in (to / "fittings").glob("*/*")} >= {
        "fitting.json",
        "shots.csv",
        "acts.json",
    }
    (told,) = (to / "fittings").glob("*/fitting.json")
    assert json.loads(told.read_text())["took_turns"] is True
    for word in ("Noughtley", "osprey"):
        assert word not in there
    other = next(one for one in couple.studio.store.golfer_ids() if one != couple.golfer.id)
    assert other not in there
    assert couple.golfer.id not in there


def test_no_note_on_health_is_in_any_copy(couple: Bay, tmp_path: Path) -> None:
    export_golfer(couple.studio, couple.golfer.id, tmp_path / "one")
    export_shop(couple.studio, tmp_path / "all", results=True)
    for folder in ("one", "all"):
        there = whole(tmp_path / folder)
        assert "sore wrist" not in there
        assert "pain_said" not in there


def test_balls_come_back_from_the_copy_as_they_stand(couple: Bay, tmp_path: Path) -> None:
    export_golfer(couple.studio, couple.golfer.id, tmp_path / "copy")
    (shots,) = (tmp_path / "copy" / "fittings").glob("*/shots.csv")
    rows = list(csv.DictReader(io.StringIO(shots.read_text())))
    assert len(rows) == len(couple.now.balls) == 1
    (acts,) = (tmp_path / "copy" / "fittings").glob("*/acts.json")
    told = {one["sequence"]: one for one in json.loads(acts.read_text())}
    for entry in couple.studio.record(couple.fitting):
        if not isinstance(entry.act, PainSaid) and entry.sequence in told:
            assert told[entry.sequence]["at"] == entry.at.isoformat()
    first = couple.now.balls[0]
    assert first.numbers is not None
    assert told[first.sequence]["told"]["numbers"]["ball_speed"] == first.numbers.ball_speed


def test_a_merged_golfer_is_copied_whole_by_any_of_the_records(
    couple: Bay, tmp_path: Path
) -> None:
    studio = couple.studio
    second = add_golfer(studio, replace(couple.golfer, id="", own=None), Identity(name="O. B."))
    again = open_fitting(studio, second.id, bay="Bay 1")
    assert again.golfer == second.id
    couple.clock.forward(60.0)
    merge(studio, second.id, couple.golfer.id)
    for name, golfer in (("first", couple.golfer.id), ("second", second.id)):
        export_golfer(studio, golfer, tmp_path / name)
    assert whole(tmp_path / "first") == whole(tmp_path / "second")
    assert len(list((tmp_path / "first" / "fittings").iterdir())) == 2


def test_a_folder_that_holds_something_is_left_as_it_is(couple: Bay, tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    with pytest.raises(StoreError, match="something already"):
        export_golfer(couple.studio, couple.golfer.id, tmp_path)
    with pytest.raises(NotFoundError):
        export_golfer(couple.studio, "nobody", tmp_path / "copy")
    assert [one.name for one in tmp_path.iterdir()] == ["mine.txt"]


@pytest.mark.parametrize("to", [".", "..", "/", ""])
def test_the_folder_in_which_one_works_is_no_place_for_a_copy(
    couple: Bay, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, to: str
) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    with pytest.raises(StoreError, match="a folder of its own"):
        export_golfer(couple.studio, couple.golfer.id, Path(to))
    assert [one.name for one in tmp_path.rglob("*")] == ["here"]


def test_a_copy_that_cannot_be_written_leaves_nothing(
    couple: Bay, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(StoreError, match="No space left"):
        export_golfer(couple.studio, couple.golfer.id, tmp_path / "copy")
    assert list(tmp_path.iterdir()) == []


def test_a_whole_shop_is_copied_without_any_key(couple: Bay, tmp_path: Path) -> None:
    export_shop(couple.studio, tmp_path / "all")
    there = tmp_path / "all"
    assert len(list((there / "golfers").iterdir())) == 2
    for name in ("README.txt", "rack.json", "settings.json", "devices.csv", "places.csv"):
        assert (there / name).stat().st_size
    assert "key" not in (there / "devices.csv").read_text()
    assert list(marked_folders(tmp_path)) == [there]
    assert len(golfers_in(there)) == 2


def test_the_zip_holds_the_same_files_below_one_folder(couple: Bay, tmp_path: Path) -> None:
    export_golfer(couple.studio, couple.golfer.id, tmp_path / "copy")
    archive = zipfile.ZipFile(io.BytesIO(zipped(couple.studio, couple.golfer.id)))
    names = {str(one.relative_to(tmp_path)) for one in tmp_path.rglob("*") if one.is_file()}
    assert set(archive.namelist()) == names
    assert archive.testzip() is None


@pytest.mark.parametrize("text", ["=1+1", "+a", "-a", "@x", "\t=1"])
def test_no_cell_is_taken_for_a_formula(text: str) -> None:
    (_, row) = csv.reader(io.StringIO(table(("a",), [[text]]).decode(), newline=""))
    assert row[0] == f"'{text}"


def test_a_golfer_is_found_by_name_or_id_and_never_guessed(couple: Bay) -> None:
    studio: Studio = couple.studio
    assert golfer_named(studio, "ottoline  BRAMBLEBY").golfer.id == couple.golfer.id
    assert golfer_named(studio, couple.golfer.id).identity.name == "Ottoline Brambleby"
    with pytest.raises(NotFoundError, match="no golfer here"):
        golfer_named(studio, "Nobody")
    add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    with pytest.raises(Exception, match="2 golfers") as caught:
        golfer_named(studio, "Ottoline Brambleby")
    assert couple.golfer.id in str(getattr(caught.value, "mend", ""))

"""`loftwright shortlist`: a golfer from a file, shafts from the studio's rack or a rack file."""

from pathlib import Path

import pytest

from commands import Cli
from loftwright.services.demo_rack import fill_rack
from loftwright.services.opening import open_studio
from loftwright.services.rack_out import rack_csv, rack_json
from studios import studio_in_memory

GOLFER = """\
hand = "right"
head_speed_mph = 75
goal = "higher"

[own]
shaft = "Linnet"
length_inch = 45.25
loft_deg = 12
"""


@pytest.fixture
def golfer(tmp_path: Path) -> Path:
    path = tmp_path / "golfer.toml"
    path.write_text(GOLFER, encoding="utf-8")
    return path


def test_the_studio_and_a_rack_file_name_the_same_shafts(
    cli: Cli, golfer: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "data"
    studio = open_studio(folder)
    fill_rack(studio)
    files = {"rack.json": rack_json(studio), "rack.csv": rack_csv(studio)}
    studio.store.close()
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(folder))
    own = cli("shortlist", "--golfer", golfer, "--json").record
    assert len(own["shafts"]) == 3
    assert own["levers"][0]["lever"] == "length"
    for name, text in files.items():
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        assert cli("shortlist", "--golfer", golfer, "--rack", path, "--json").record == own


def test_words_are_for_people(cli: Cli, golfer: Path, tmp_path: Path) -> None:
    studio = studio_in_memory()
    fill_rack(studio)
    rack = tmp_path / "rack.json"
    rack.write_text(rack_json(studio), encoding="utf-8")
    outcome = cli("shortlist", "--golfer", golfer, "--rack", rack)
    assert outcome.code == 0
    assert outcome.out.startswith("Big levers first")
    assert "75.0 mph" in outcome.out


def test_a_studio_that_is_not_there_is_not_made(
    cli: Cli, golfer: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path / "nowhere"))
    outcome = cli("shortlist", "--golfer", golfer)
    assert outcome.code == 6
    assert not (tmp_path / "nowhere").exists()


def test_a_shaft_that_the_rack_does_not_know_leaves_the_levers(
    cli: Cli, golfer: Path, tmp_path: Path
) -> None:
    studio = studio_in_memory()
    fill_rack(studio)
    rack = tmp_path / "rack.json"
    rack.write_text(rack_json(studio), encoding="utf-8")
    golfer.write_text(GOLFER.replace("Linnet", "Linnit"), encoding="utf-8")
    record = cli("shortlist", "--golfer", golfer, "--rack", rack, "--json").record
    assert record["shafts"] == []
    assert len(record["levers"]) == 5
    assert any("Linnit" in warning for warning in record["warnings"])


def test_a_rack_file_that_cannot_be_is_refused(cli: Cli, golfer: Path, tmp_path: Path) -> None:
    rack = tmp_path / "rack.csv"
    rack.write_text("kind,id,name\nshaft,a,\n", encoding="utf-8")
    outcome = cli("shortlist", "--golfer", golfer, "--rack", rack)
    assert outcome.code == 3
    assert "row" in outcome.err
    missing = cli("shortlist", "--golfer", golfer, "--rack", tmp_path / "none.json")
    assert missing.code == 4

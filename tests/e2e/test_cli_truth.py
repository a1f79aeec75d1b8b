"""`loftwright truth` reads the studio's own proof and makes nothing."""

from pathlib import Path

from commands import Cli
from proved import predicted_balls


def test_it_says_how_many_balls_fell_in_their_range(cli: Cli, tmp_path: Path) -> None:
    predicted_balls(tmp_path / "data", outside=6)
    said = cli("truth")
    assert said.code == 0, said.err
    lines = said.out.splitlines()
    assert lines[0] == "Of 60 balls 80 % fell in the 80 % range of ball speed."
    assert lines[1].startswith("Standard error 0.0 %, over 2 fittings")
    assert any(line.startswith("Harrow 460, Reedmace Ash, middle") for line in lines)


def test_the_same_as_one_object(cli: Cli, tmp_path: Path) -> None:
    predicted_balls(tmp_path / "other", outside=3)
    record = cli("truth", "--data", tmp_path / "other", "--json").record
    assert (record["balls"], record["fittings"], record["not_predicted"]) == (60, 2, 0)
    (speed,) = record["quantities"]
    assert (speed["in_50"], speed["in_80"], speed["in_95"]) == (0.9, 0.9, 1.0)
    assert {group["by"] for group in record["groups"]} == {"bay", "device", "club", "rests"}


def test_invented_golfers_are_counted_apart(cli: Cli, tmp_path: Path) -> None:
    predicted_balls(tmp_path / "data", outside=6)
    assert cli("truth", "--invented").out.startswith("No ball of invented golfers was predicted")


def test_a_folder_without_a_studio_is_named_and_stays_as_it_is(cli: Cli, tmp_path: Path) -> None:
    said = cli("truth", "--data", tmp_path / "nothing", "--json")
    assert said.code == 6
    assert said.error["kind"] == "not_found"
    assert not (tmp_path / "nothing").exists()

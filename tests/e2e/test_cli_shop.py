"""`loftwright shop`: the record is brought up to date, taught and listed from the command line."""

from pathlib import Path

from commands import Cli
from shop_studios import a_shop_on_disk, a_taught_shop


def test_the_record_holds_who_agreed_and_says_who_is_left_out(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    said = cli("shop", "record")
    assert said.code == 0, said.err
    assert said.out.splitlines()[0] == "The record holds 1 fitting."
    assert cli("shop", "record", "--json").record == {"fittings": 1, "left_out": 1}


def test_a_shop_learns_versions_and_lists_them(cli: Cli, tmp_path: Path) -> None:
    a_taught_shop(tmp_path / "data")
    first = cli("shop", "learn", "--json").record
    assert (first["version"], first["fittings"], first["balls"]) == (1, 60, 2400)
    assert cli("shop", "learn").out.startswith("Version 2 was learned from 60 fittings")
    kept = cli("shop", "versions", "--json").record["versions"]
    assert [one["version"] for one in kept] == [2, 1]
    assert cli("shop", "versions").out.startswith("2 versions; new visits begin under version 2.")


def test_nothing_learned_is_said_and_how_to_begin(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    said = cli("shop", "versions")
    assert said.code == 0
    assert "physics alone" in said.out
    assert "loftwright shop learn" in said.out


def test_an_unknown_engine_is_refused_with_those_there_are(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    said = cli("shop", "learn", "--engine", "abacus", "--json")
    assert said.code == 3
    assert "duckdb or spark" in said.error["mend"]


def test_a_damaged_version_is_named(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    place = tmp_path / "data" / "shop" / "learned" / "0001.json"
    place.parent.mkdir(parents=True)
    place.write_text("[]", encoding="utf-8")
    said = cli("shop", "versions", "--json")
    assert said.code == 6
    assert said.error["place"] == str(place)

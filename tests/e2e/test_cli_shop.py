"""`loftwright shop`: the record is brought up to date, taught and listed from the command line."""

import re
from collections.abc import Iterator
from pathlib import Path

import pyarrow.parquet as pq

from commands import Cli
from loftwright.services.opening import open_studio
from loftwright.services.shop_folder import note_trouble
from pages import ROOT
from shop_studios import a_shop_on_disk, a_taught_shop


def test_the_record_holds_who_agreed_and_says_who_is_left_out(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    said = cli("shop", "record")
    assert said.code == 0, said.err
    assert said.out.splitlines()[0] == "In the record from this studio: 1 fitting."
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


def test_what_could_not_be_written_is_told_with_its_mend(cli: Cli, tmp_path: Path) -> None:
    fitting = a_shop_on_disk(tmp_path / "data")
    studio = open_studio(tmp_path / "data")
    note_trouble(studio, fitting, "the disk is full.")
    studio.store.close()
    assert (
        "the disk is full. When that is mended: loftwright shop record"
        in cli("shop", "versions").out
    )
    told = cli("shop", "versions", "--json").record["trouble"]
    assert told == [{"of": fitting, "why": "the disk is full."}]
    assert cli("shop", "record").code == 0
    assert cli("shop", "versions", "--json").record["trouble"] == []


def test_a_damaged_version_is_named(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    place = tmp_path / "data" / "shop" / "learned" / "0001.json"
    place.parent.mkdir(parents=True)
    place.write_text("[]", encoding="utf-8")
    said = cli("shop", "versions", "--json")
    assert said.code == 6
    assert said.error["place"] == str(place)


def test_what_was_learned_is_shown_with_ranges(cli: Cli, tmp_path: Path) -> None:
    a_taught_shop(tmp_path / "data")
    assert cli("shop", "learn").code == 0
    record = cli("shop", "show", "--json").record
    assert (record["version"], record["fittings"], record["balls"]) == (1, 60, 2400)
    assert 0.0 < record["physics_share"] < 1.0
    models = [one for one in record["effects"] if one["level"] == "model"]
    assert {one["id"] for one in models} == {f"S{number}" for number in range(8)}
    for one in models:
        assert one["spin_rpm"]["low80"] < one["spin_rpm"]["mean"] < one["spin_rpm"]["high80"]
    lines = cli("shop", "show").out.splitlines()
    assert lines[0].startswith("Version 1 of ")
    assert "from 60 fittings of 60 golfers (2400 balls)" in lines[0]
    assert any(line.strip().startswith("model S3") for line in lines)


def test_one_thing_is_shown_alone_and_what_was_not_hit_is_refused(
    cli: Cli, tmp_path: Path
) -> None:
    a_taught_shop(tmp_path / "data")
    cli("shop", "learn", "--threads", 2)
    record = cli("shop", "show", "s3", "--version", 1, "--json").record
    assert {one["id"] for one in record["effects"] if one["level"] == "model"} == {"S3"}
    said = cli("shop", "show", "Nowhere", "--json")
    assert said.code == 6
    assert "Leave it out" in said.error["mend"]
    assert cli("shop", "show", "--version", 7).code == 6


def test_without_anything_learned_there_is_nothing_to_show(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    assert "physics alone" in cli("shop", "show").out
    assert cli("shop", "show", "--json").out.strip() == "null"


def test_the_record_is_copied_with_a_page_and_nothing_is_overwritten(
    cli: Cli, tmp_path: Path
) -> None:
    a_taught_shop(tmp_path / "data", fittings=12)
    told = cli("shop", "export", tmp_path / "copy", "--json").record
    assert (told["fittings"], told["balls"]) == (12, 480)
    assert "`strike_toe`" in (tmp_path / "copy" / "README.md").read_text(encoding="utf-8")
    copied = sorted((tmp_path / "copy" / "balls").iterdir())
    assert len(copied) == told["files"]
    assert sum(pq.read_table(one).num_rows for one in copied) == 480
    again = cli("shop", "export", tmp_path / "copy", "--json")
    assert again.code == 6
    assert "left as it is" in again.error["message"]


def test_an_empty_record_is_not_copied(cli: Cli, tmp_path: Path) -> None:
    a_shop_on_disk(tmp_path / "data")
    said = cli("shop", "export", tmp_path / "copy", "--json")
    assert said.code == 5
    assert "loftwright shop record" in said.error["mend"]
    assert not (tmp_path / "copy").exists()


def test_every_key_that_the_commands_print_is_documented(cli: Cli, tmp_path: Path) -> None:
    a_taught_shop(tmp_path / "data", fittings=12)
    page = (ROOT / "docs" / "reference" / "json.md").read_text(encoding="utf-8")
    for command, more in (
        ("record", ()),
        ("learn", ()),
        ("show", ()),
        ("versions", ()),
        ("export", (tmp_path / "copy",)),
    ):
        record = cli("shop", command, *more, "--json").record
        part = page.partition(f"\n## shop {command}\n")[2].partition("\n## ")[0]
        unknown = set(keys_in(record)) - set(re.findall(r"`([a-z0-9_]+)`", part))
        assert unknown == set(), command


def keys_in(record: object) -> Iterator[str]:
    if isinstance(record, dict):
        for key, value in record.items():
            yield key
            yield from keys_in(value)
    elif isinstance(record, list):
        for value in record:
            yield from keys_in(value)

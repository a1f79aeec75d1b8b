"""`loftwright diagnose` writes a bundle, also of a studio that does not open."""

import json
import sqlite3
import zipfile
from pathlib import Path

from commands import Cli
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store


def a_studio(tmp_path: Path) -> Path:
    folder = tmp_path / "data"
    store = open_store(folder)
    store.add_golfer(Golfer(id="g", hand=Hand.RIGHT), Identity(name="Zephyrine Quillfeather"))
    store.close()
    return folder


def held(file: Path) -> dict[str, str]:
    with zipfile.ZipFile(file) as made:
        return {name: made.read(name).decode() for name in made.namelist()}


def test_it_writes_what_it_says_and_names_nobody(cli: Cli, tmp_path: Path) -> None:
    folder = a_studio(tmp_path)
    said = cli("diagnose", "--to", tmp_path / "help.zip")
    assert (said.code, said.err) == (0, "")
    parts = held(tmp_path / "help.zip")
    assert f"holds {len(parts)} files and nobody's data" in said.out
    assert all(name in said.out for name in parts)
    assert json.loads(parts["rows.json"])["golfers"] == 1
    assert "quillfeather" not in "".join(parts.values()).lower()
    assert str(folder) not in "".join(parts.values())


def test_its_keys_are_those_of_the_reference(cli: Cli, tmp_path: Path) -> None:
    a_studio(tmp_path)
    told = cli("diagnose", "--to", tmp_path / "help.zip", "--json").record
    assert set(told) == {"to", "parts", "cannot_be_opened"}
    assert told["cannot_be_opened"] is None
    assert [one["name"] for one in told["parts"]] == list(held(tmp_path / "help.zip"))


def test_a_studio_of_a_newer_version_is_told_of_and_left_as_it_is(
    cli: Cli, tmp_path: Path
) -> None:
    folder = a_studio(tmp_path)
    with sqlite3.connect(folder / FILE) as door:
        door.execute("UPDATE alembic_version SET version_num = '9999'")
    before = (folder / FILE).read_bytes()
    said = cli("diagnose", "--to", tmp_path / "help.zip")
    assert said.code == 0
    assert "The studio cannot be opened: " in said.out
    told = json.loads(held(tmp_path / "help.zip")["installation.json"])
    assert (told["cannot_be_opened"], told["schema"]) == ("schema", "9999")
    assert (folder / FILE).read_bytes() == before


def test_no_studio_at_all_still_gives_a_bundle(cli: Cli, tmp_path: Path) -> None:
    assert cli("diagnose", "--to", tmp_path / "help.zip").code == 0
    told = json.loads(held(tmp_path / "help.zip")["installation.json"])
    assert told["cannot_be_opened"] == "not_found"


def test_a_file_that_is_there_is_left_as_it_is(cli: Cli, tmp_path: Path) -> None:
    file = tmp_path / "help.zip"
    file.write_text("mine")
    said = cli("diagnose", "--to", file)
    assert said.code == 4
    assert "Name a new one with --to." in said.err
    assert file.read_text() == "mine"
    assert cli("diagnose", "--to", tmp_path / "none" / "help.zip").code == 4

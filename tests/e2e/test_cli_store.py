"""`loftwright store copy` copies a studio whole, or not at all."""

from pathlib import Path

from commands import Cli
from loftwright.store.sqlite import open_store
from store_samples import with_fitting, with_rack


def studio_in(folder: Path) -> None:
    """Make a studio with a golfer, a fitting and a rack."""
    store = open_store(folder)
    with_fitting(store)
    with_rack(store)
    store.close()


def test_a_studio_is_copied_with_counts_checksums_and_keys(cli: Cli, tmp_path: Path) -> None:
    studio_in(tmp_path / "data")
    record = cli("store", "copy", tmp_path / "copy", "--json").record
    rows = {one["table"]: one["rows"] for one in record["tables"]}
    assert (rows["golfers"], rows["fittings"]) == (1, 1)
    assert all(len(one["sha256"]) == 64 for one in record["tables"])
    copy = open_store(tmp_path / "copy")
    assert copy.identity("g1").name
    copy.close()


def test_the_words_say_how_much_was_copied(cli: Cli, tmp_path: Path) -> None:
    studio_in(tmp_path / "data")
    said = cli("store", "copy", tmp_path / "copy")
    assert said.code == 0, said.err
    assert said.out.startswith("Copied ")
    assert "the same checksums" in said.out.splitlines()[0]


def test_a_store_that_holds_something_stays_as_it_is(cli: Cli, tmp_path: Path) -> None:
    studio_in(tmp_path / "data")
    studio_in(tmp_path / "other")
    said = cli("store", "copy", tmp_path / "other", "--json")
    assert said.code == 6
    assert said.error["kind"] == "conflict"


def test_a_folder_without_a_studio_is_named(cli: Cli, tmp_path: Path) -> None:
    said = cli("store", "copy", tmp_path / "copy", "--from", tmp_path / "none", "--json")
    assert said.code == 6
    assert said.error["kind"] == "not_found"

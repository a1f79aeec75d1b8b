"""`loftwright export` copies and `loftwright erase` erases, each whole or not at all."""

from pathlib import Path

from commands import Cli
from loftwright.services.opening import open_studio
from loftwright.store.sqlite import open_store
from store_samples import WHO, with_fitting, with_rack


def studio_in(folder: Path) -> None:
    """Make a studio with a golfer, a fitting and a rack."""
    store = open_store(folder)
    with_fitting(store)
    with_rack(store)
    store.close()


def test_a_golfer_is_copied_by_name_and_the_shop_without(cli: Cli, tmp_path: Path) -> None:
    studio_in(tmp_path / "data")
    one = cli("export", WHO.name, "--to", tmp_path / "one", "--json")
    assert one.code == 0, one.err
    assert one.record["files"] == len([x for x in (tmp_path / "one").rglob("*") if x.is_file()])
    every = cli("export", "--to", tmp_path / "all")
    assert every.code == 0, every.err
    assert every.out.startswith("Copied ")
    assert (tmp_path / "all" / "golfers" / "00001" / "golfer.json").exists()
    again = cli("export", "--to", tmp_path / "all", "--json")
    assert (again.code, again.error["kind"]) == (6, "store")


def test_nobody_is_erased_where_nobody_can_say_yes(cli: Cli, tmp_path: Path) -> None:
    studio_in(tmp_path / "data")
    said = cli("erase", WHO.name, "--json")
    assert (said.code, said.error["place"]) == (2, "--yes")
    other = cli("erase", "Nobody", "--yes", "--json")
    assert (other.code, other.error["kind"]) == (6, "not_found")
    store = open_store(tmp_path / "data")
    assert store.identity("g1") == WHO
    store.close()


def test_a_golfer_is_erased_and_stays_erased(cli: Cli, tmp_path: Path) -> None:
    studio_in(tmp_path / "data")
    done = cli("erase", WHO.name, "--yes", "--json")
    assert done.code == 0, done.err
    assert (done.record["records"], done.record["fittings"]) == (1, 1)
    assert not (tmp_path / "data" / "keys" / "g1.key").exists()
    studio = open_studio(tmp_path / "data")
    assert studio.store.golfer_ids() == ()
    studio.store.close()

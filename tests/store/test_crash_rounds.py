"""A studio whose program or database dies while it works keeps what was answered for, once."""

from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random

import pytest

import crashes
from crashes import Kills
from crashes_keeping import kill_backing_up, kill_restoring
from databases import Cluster, running
from doomed import Doomed, doomed
from old_studios import OldStudio, old_studios

KILLS = Kills(count=5, most=8)
FEW = Kills(count=3, most=4)
OLD = old_studios()
DATABASES = ("SQLite", "PostgreSQL")


@pytest.fixture(scope="module")
def program() -> Iterator[Doomed]:
    """Return the program that is to be killed."""
    with doomed() as made:
        yield made


@pytest.fixture(params=DATABASES)
def address(request: pytest.FixtureRequest) -> str:
    """Return where a studio is kept: nothing for a file."""
    if request.param == "SQLite":
        return ""
    found: str = request.getfixturevalue("cluster").fresh()
    return found


@pytest.mark.parametrize("job", ["marking", "balls"])
def test_what_was_answered_for_is_there_once_and_nothing_half(
    program: Doomed, tmp_path: Path, address: str, job: str, say: Callable[[str], None]
) -> None:
    found = crashes.kill_writing(program, job, tmp_path, address, Random(1), KILLS)
    assert found.answered > 0
    assert found.whole, found
    # A kill may fall between the disk's answer and the word of it, once a kill.
    assert found.kept - found.answered <= KILLS.count
    say(f"{job} in {found.database}, {found.kills} kills: {found.answered} answered, none lost")


def test_a_table_that_grows_in_a_watched_folder_is_taken_whole_and_once(
    program: Doomed, tmp_path: Path, address: str
) -> None:
    found = crashes.kill_watching(program, tmp_path, address, Random(2), KILLS)
    assert found.whole, found
    assert found.kept == found.answered == 20 * KILLS.count


def test_golfers_are_written_down_with_a_name_that_can_be_read(
    program: Doomed, tmp_path: Path, address: str
) -> None:
    found = crashes.kill_golfers(program, tmp_path, address, Random(3), KILLS)
    assert found.answered > 0
    assert found.whole, found


@pytest.mark.parametrize("old", OLD, ids=lambda one: one.name)
def test_a_file_whose_bringing_up_was_killed_is_brought_up_at_the_next_opening(
    program: Doomed, tmp_path: Path, old: OldStudio
) -> None:
    chance = Random(old.name)
    assert crashes.kill_bringing_up(program, old, tmp_path, "", chance, FEW).whole


@pytest.mark.parametrize(
    "old", [one for one in OLD if one.in_postgresql], ids=lambda one: one.name
)
def test_a_database_whose_bringing_up_was_killed_is_brought_up_at_the_next_opening(
    program: Doomed, tmp_path: Path, cluster: Cluster, old: OldStudio
) -> None:
    chance = Random(old.name)
    found = crashes.kill_bringing_up(program, old, tmp_path, cluster.fresh(), chance, FEW)
    assert found.whole


def test_a_backup_that_was_named_is_whole_and_has_the_balls_before_it(
    program: Doomed, tmp_path: Path, address: str
) -> None:
    found = kill_backing_up(program, tmp_path / "data", address, Random(7), FEW)
    assert found.answered > 0
    assert found.whole, found


def test_a_studio_whose_restore_was_killed_is_wholly_the_one_or_the_other(
    program: Doomed, tmp_path: Path
) -> None:
    assert kill_restoring(program, tmp_path / "data", Random(8), KILLS).whole


def test_the_shop_record_has_every_fitting_it_answered_for(tmp_path: Path) -> None:
    with doomed("shop_samples", "pyarrow.parquet", "loftwright.shop.record") as recording:
        found = crashes.kill_recording(recording, tmp_path, Random(4), FEW)
    assert found.answered > 0
    assert found.whole, found


def test_a_database_that_ends_its_connections_loses_nothing(
    program: Doomed, tmp_path: Path, cluster: Cluster
) -> None:
    address = cluster.fresh()
    found = crashes.kill_connections(program, "marking", tmp_path, address, Random(5), KILLS)
    assert found.answered > 0
    assert found.whole, found


def test_a_database_that_is_stopped_at_once_loses_nothing(program: Doomed, tmp_path: Path) -> None:
    with running() as own:
        found = crashes.kill_server(program, "balls", tmp_path, own, Random(6), FEW)
    assert found.answered > 0
    assert found.whole, found

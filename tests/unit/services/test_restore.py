"""A studio comes back whole; who was erased since does not; a kill loses nothing."""

import os
import shutil
import signal
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from kept_studios import LEARNED, NAME, NOW, a_backup, a_studio, everything_in, opened, rows_of
from loftwright.domain.acts import NotRead
from loftwright.errors import ConflictError, NotFoundError, StoreError
from loftwright.services.backup import make_backup
from loftwright.services.backup_content import source_in
from loftwright.services.erasing_files import forget_keys
from loftwright.services.key_copies import copies_of
from loftwright.services.opening import open_studio
from loftwright.services.restore import restore
from loftwright.services.restore_swap import FORMER, FRESH, PLAN
from loftwright.services.summaries import keep_parts, kept_parts
from loftwright.store.engine import FILE
from loftwright.store.golfers import ERASED
from loftwright.store.keys import FOLDER as KEYS
from loftwright.store.sqlite import open_store
from loftwright.store.tombstones import digest_of

MOST = 20
"""More moves than a restore makes."""


def test_every_row_and_file_comes_back_into_another_folder(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    done = restore(made.path, tmp_path / "new", NOW)
    assert rows_of(tmp_path / "new") == rows_of(data)
    assert (tmp_path / "new" / LEARNED).read_text() == "{}"
    assert (tmp_path / "new" / "mappings.toml").exists()
    assert (done.tried.golfers, done.tried.fittings, done.tried.balls) == (2, 2, 6)
    assert (done.keys, done.tried.sealed, done.former) == (2, 0, None)
    store = open_store(tmp_path / "new")
    assert store.identity("g1").name == f"{NAME} 1"
    store.close()
    assert not list((tmp_path / "new").glob(f"{FRESH}*"))


def test_a_backup_alone_names_nobody_and_says_how_many(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    alone = tmp_path / "drive" / made.path.name
    alone.parent.mkdir()
    made.path.rename(alone)
    done = restore(alone, tmp_path / "new", NOW)
    assert (done.tried.sealed, done.keys) == (2, 0)
    assert not list((tmp_path / "new").rglob("*.key"))
    again = restore(alone, tmp_path / "named", NOW, keys=data / KEYS)
    assert (again.tried.sealed, again.keys) == (0, 2)


def test_what_stood_is_put_aside_and_only_when_told(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    store = open_store(data)
    store.append("f0", [NotRead()], at=NOW.replace(hour=1), by="later")
    store.close()
    later = rows_of(data)
    with pytest.raises(ConflictError, match="a studio stands there"):
        restore(made.path, data, NOW)
    done = restore(made.path, data, NOW, over=True)
    assert done.former is not None
    assert done.former.name.startswith(FORMER)
    assert rows_of(done.former) == later
    assert rows_of(data) != later
    assert (done.former / LEARNED).exists()
    assert made.path.exists()


def test_who_was_erased_since_stays_erased_though_a_copy_of_the_key_is_found(
    tmp_path: Path,
) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    kept = {one.name: one.read_bytes() for one in copies_of(data).glob("*.key")}
    store = open_store(data)
    store.forget_golfer("g0")
    store.close()
    assert forget_keys(data, [digest_of("g0")]) == 1
    # As from a drive that nobody remembered.
    (tmp_path / "old").mkdir()
    for name, raw in kept.items():
        (tmp_path / "old" / name).write_bytes(raw)
    done = restore(made.path, data, NOW, keys=tmp_path / "old", over=True)
    assert (done.tried.erased, done.tried.sealed) == (1, 0)
    store = open_store(data)
    assert store.identity("g0") == ERASED
    assert store.identity("g1").name == f"{NAME} 1"
    store.close()
    assert not (data / KEYS / "g0.key").exists()


def test_a_consent_that_was_taken_back_since_stays_taken_back(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    store = open_store(data)
    kept = store.golfer("g0")
    less = replace(kept.value.consents, shop_record=False, contact=False)
    store.change_golfer(replace(kept.value, consents=less), version=kept.version)
    store.close()
    done = restore(made.path, data, NOW, over=True)
    assert done.taken_back == 1
    store = open_store(data)
    assert store.golfer("g0").value.consents == less
    assert store.golfer("g1").value.consents.shop_record
    store.close()


def test_nothing_is_restored_over_a_studio_that_is_open(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    studio = opened(data)
    studio.store.golfers()
    before = rows_of(data)
    with pytest.raises(ConflictError, match="open"):
        restore(made.path, data, NOW, over=True)
    assert rows_of(data) == before
    assert not list(data.glob(f"{FRESH}*"))
    studio.store.close()


def test_nothing_is_restored_while_a_fitting_runs(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    store = open_store(data)
    store.append("f0", [NotRead()], at=NOW, by="Ann")
    store.close()
    before = rows_of(data)
    with pytest.raises(ConflictError, match="a fitting runs in"):
        restore(made.path, data, NOW, over=True)
    assert rows_of(data) == before


def test_acts_from_a_clock_that_ran_ahead_do_not_hold_a_restore_up(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    store = open_store(data)
    store.append("f0", [NotRead()], at=NOW + timedelta(minutes=20), by="Ann")
    store.close()
    with pytest.raises(ConflictError, match="a fitting runs in"):
        restore(made.path, data, NOW, over=True)
    store = open_store(data)
    store.append("f0", [NotRead()], at=NOW + timedelta(days=400), by="Ann")
    store.close()
    assert restore(made.path, data, NOW, over=True).former is not None


def test_who_was_erased_is_known_from_the_drive_on_which_the_backups_lie(tmp_path: Path) -> None:
    data, drive = a_studio(tmp_path / "data"), tmp_path / "drive"
    drive.mkdir()
    made = make_backup(source_in(data), NOW, to=drive)
    store = open_store(data)
    store.forget_golfer("g0")
    store.close()
    make_backup(source_in(data), NOW + timedelta(days=1), to=drive)
    done = restore(made.path, tmp_path / "new", NOW)
    assert (done.tried.erased, done.tried.sealed) == (1, 1)
    assert (tmp_path / "new" / "erased" / digest_of("g0")).exists()


def test_who_was_erased_is_known_from_beside_the_keys_that_are_named(tmp_path: Path) -> None:
    data, drive = a_studio(tmp_path / "data"), tmp_path / "drive"
    drive.mkdir()
    made = make_backup(source_in(data), NOW, to=drive)
    store = open_store(data)
    store.forget_golfer("g0")
    store.close()
    done = restore(made.path, tmp_path / "new", NOW, keys=data / KEYS)
    assert (done.tried.erased, done.tried.sealed, done.keys) == (1, 0, 1)


def test_a_folder_of_keys_that_is_not_there_is_named_before_anything_is_done(
    tmp_path: Path,
) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    with pytest.raises(NotFoundError, match="not there") as told:
        restore(made.path, tmp_path / "new", NOW, keys=tmp_path / "pulled out")
    assert told.value.place == str(tmp_path / "pulled out")
    assert not (tmp_path / "new").exists()


def test_without_room_no_folder_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = a_backup(a_studio(tmp_path / "data"))
    full = shutil.disk_usage(tmp_path)._replace(free=0)
    monkeypatch.setattr(shutil, "disk_usage", lambda _: full)
    with pytest.raises(StoreError, match="0 MB are free"):
        restore(made.path, tmp_path / "new", NOW)
    assert not (tmp_path / "new").exists()


def test_sums_of_the_studio_that_stood_are_not_those_of_the_one_that_comes(
    tmp_path: Path,
) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    keep_parts(data, "balls", {"f0": (6, b"of six acts that came after the backup")})
    restore(made.path, data, NOW, over=True)
    assert kept_parts(data, "balls", {"f0": 6}) == {}


def test_what_lay_beside_a_store_that_is_gone_is_put_aside(tmp_path: Path) -> None:
    made = a_backup(a_studio(tmp_path / "data"))
    new = tmp_path / "new"
    new.mkdir()
    (new / f"{FILE}-wal").write_bytes(b"of another store")
    done = restore(made.path, new, NOW)
    assert done.former is not None
    assert (done.former / f"{FILE}-wal").read_bytes() == b"of another store"
    assert rows_of(new) == rows_of(tmp_path / "data")


def test_consents_that_cannot_be_read_in_what_stood_are_not_called_none(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    for one in data.glob(f"{FILE}*"):
        one.write_bytes(b"no store" * 1000)
    assert restore(made.path, data, NOW, over=True).taken_back is None


def dying(file: Path, data: Path, moves: int) -> bool:
    """Restore in a process that is killed at one of its moves; return whether it was."""
    child = os.fork()
    if child == 0:
        left = iter(range(moves))
        rename = os.rename

        def dies(what: Path, to: Path) -> None:
            if next(left, None) is None:
                os.kill(os.getpid(), signal.SIGKILL)
            rename(what, to)

        os.rename = dies  # type: ignore[assignment]
        code = 1
        try:
            restore(file, data, NOW, over=True)
            code = 0
        finally:
            os._exit(code)
    ended = os.waitpid(child, 0)[1]
    assert ended in {0, signal.SIGKILL}
    return ended == signal.SIGKILL


@pytest.mark.parametrize("moves", [*range(8), MOST])
def test_a_restore_that_is_killed_at_any_move_is_finished_by_who_opens_next(
    tmp_path: Path, moves: int
) -> None:
    data = a_studio(tmp_path / "data", golfers=1, balls=1)
    made = a_backup(data)
    wanted = rows_of(data)
    store = open_store(data)
    store.append("f0", [NotRead()], at=NOW.replace(hour=1), by="later")
    store.close()
    later = rows_of(data)
    killed = dying(made.path, data, moves)
    # Three names that go and come, and what the database laid beside the store meanwhile.
    assert killed == (moves < MOST)
    assert (data / PLAN).exists() == killed
    studio = open_studio(data)
    studio.store.close()
    assert rows_of(data) == wanted
    assert not (data / PLAN).exists()
    assert not list(data.glob(f"{FRESH}*"))
    (former,) = data.glob(f"{FORMER}*")
    assert rows_of(former) == later
    assert {LEARNED, "mappings.toml", FILE} <= set(everything_in(data))
    assert {LEARNED, "mappings.toml", FILE} <= set(everything_in(former))

"""A look over the studio finds what is wrong, names place and mend, and changes nothing."""

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from kept_studios import LEARNED, NOW, a_backup, a_studio, everything_in, opened
from loftwright.domain.acts import NotRead
from loftwright.errors import NotFoundError
from loftwright.services.backup_files import DRAFT
from loftwright.services.backup_state import note_trouble
from loftwright.services.doctor import look_over, repair
from loftwright.services.key_copies import copies_of
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return the folder of a studio with nothing wrong but what was learned by no program."""
    data = a_studio(tmp_path / "data")
    (data / LEARNED).unlink()
    a_backup(data)
    open_store(data).close()
    return data


def found(data: Path, at: timedelta = timedelta()) -> list[tuple[str, str]]:
    """Look a studio over, see that nothing changed, and return what was found by check."""
    before = everything_in(data)
    looked = look_over(data, NOW + at)
    assert everything_in(data) == before
    for one in looked.findings:
        assert one.place
        assert one.mend
    return [(one.check, one.message) for one in looked.findings]


def sql(*lines: str) -> Callable[[Path], None]:
    def change(data: Path) -> None:
        with closing(sqlite3.connect(data / FILE)) as door:
            for line in lines:
                door.execute(line)
            door.commit()

    return change


def broken_page(data: Path) -> None:
    raw = bytearray((data / FILE).read_bytes())
    middle = len(raw) // 2 // 4096 * 4096
    raw[middle : middle + 4096] = bytes(4096)
    (data / FILE).write_bytes(raw)


def lost_key(data: Path) -> None:
    (data / "keys" / "g0.key").unlink()


def lost_key_and_copy(data: Path) -> None:
    lost_key(data)
    (copies_of(data) / "g0.key").unlink()


def nobodys_key(data: Path) -> None:
    (data / "keys" / "g9.key").write_bytes(b"x")
    (data / "keys" / "g9.key").chmod(0o600)


def open_rights(data: Path) -> None:
    (data / "keys" / "g0.key").chmod(0o644)


def flipped_backup(data: Path) -> None:
    (file,) = (data / "backups").glob("*.gz")
    raw = bytearray(file.read_bytes())
    raw[len(raw) // 2] ^= 1
    file.write_bytes(raw)


def no_backup(data: Path) -> None:
    for file in (data / "backups").glob("*.gz"):
        file.unlink()


def trouble(data: Path) -> None:
    note_trouble(data, NOW, "No space left on device")


def leftovers(data: Path) -> None:
    (data / "backups" / f"{DRAFT}abc").mkdir()


def half_restored(data: Path) -> None:
    (data / "restoring.json").write_text("{}")


def learned_by_nobody(data: Path) -> None:
    (data / LEARNED).write_text("{}")


FAULTS: dict[str, tuple[Callable[[Path], None], str, str]] = {
    "a page": (broken_page, "file", ""),
    "a row that names none": (
        sql("UPDATE fittings SET golfer = 'nobody' WHERE id = 'f0'"),
        "file",
        "names one of golfers",
    ),
    "a gap": (
        sql("DELETE FROM acts WHERE fitting = 'f0' AND sequence = 4"),
        "records",
        "without gaps",
    ),
    "an act": (sql("UPDATE acts SET told = '{' WHERE fitting = 'f1'"), "records", "not what was"),
    "a newer schema": (sql("UPDATE alembic_version SET version_num = '0999'"), "schema", "0999"),
    "a key": (lost_key, "keys", "a copy of it is still there"),
    "a key and its copy": (lost_key_and_copy, "keys", "nothing says"),
    "nobody's key": (nobodys_key, "keys", "no golfer"),
    "rights": (open_rights, "rights", "mode 644"),
    "a damaged backup": (flipped_backup, "backups", "damaged"),
    "no backup": (no_backup, "backups", "no backup yet"),
    "trouble": (trouble, "backups", "No space left"),
    "leftovers": (leftovers, "leftovers", "broken off"),
    "half a restore": (half_restored, "leftovers", "broken off"),
    "what was learned": (learned_by_nobody, "shop record", ""),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_each_fault_is_found_by_its_check(data: Path, fault: str) -> None:
    assert found(data) == []
    make, check, words = FAULTS[fault]
    make(data)
    told = found(data)
    assert check in {one for one, _ in told}
    assert any(words in message for one, message in told if one == check)


def test_an_erased_golfer_is_no_finding(data: Path) -> None:
    store = open_store(data)
    store.forget_golfer("g0")
    store.close()
    assert found(data) == []


def test_an_old_backup_and_a_clock_set_back_are_told(data: Path) -> None:
    assert [check for check, _ in found(data, timedelta(days=10))] == ["backups"]
    store = open_store(data)
    store.append("f0", [NotRead()], at=NOW + timedelta(days=1), by="Ann")
    store.close()
    assert "clock" in {check for check, _ in found(data)}


def test_two_programs_on_one_file_are_told(data: Path) -> None:
    studio = opened(data)
    studio.store.golfers()
    child = os.fork()
    if child == 0:
        # A child holds what its parent has open, as a second program would.
        os.read(os.pipe()[0], 1)
        os._exit(0)
    try:
        told = look_over(data, NOW).findings
    finally:
        os.kill(child, 9)
        os.waitpid(child, 0)
        studio.store.close()
    assert [one.check for one in told] == ["programs"]


def test_only_rights_and_leftovers_are_put_right(data: Path) -> None:
    open_rights(data)
    leftovers(data)
    left = data / "backups" / f"{DRAFT}abc"
    done = repair(data)
    assert len(done) == 1
    assert left.exists()
    os.utime(left, (0, 0))
    assert len(repair(data)) == 1
    assert found(data) == []


def test_what_a_restore_put_aside_is_told_until_it_goes_and_more_so_afterwards(
    data: Path,
) -> None:
    (data / "before-restore-20261125-120000").mkdir()
    ((check, told),) = found(data)
    assert (check, "after 2026-12-02 12:00 UTC removes it" in told) == ("leftovers", True)
    late = [told for check, told in found(data, timedelta(days=11)) if check == "leftovers"]
    assert ["should have gone on 2026-12-02" in one for one in late] == [True]
    early = [told for check, told in found(data, -timedelta(days=1)) if check == "leftovers"]
    assert ["still to come" in one for one in early] == [True]


def test_a_folder_without_a_studio_is_named(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError):
        look_over(tmp_path, NOW)
    assert list(tmp_path.iterdir()) == []

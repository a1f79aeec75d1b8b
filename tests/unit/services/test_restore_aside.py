"""What a restore puts aside stays for a week by the clock of then, and nothing else goes."""

from datetime import timedelta
from pathlib import Path

import pytest

from kept_studios import NOW, a_backup, a_studio
from loftwright.services.restore import restore
from loftwright.services.restore_aside import KEPT, aside_name, put_aside_in, remove_put_aside
from loftwright.services.restore_swap import PLAN

NAME = "before-restore-20261125-120000"


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return a data folder with what was put aside twice in one second."""
    for name in (NAME, f"{NAME}-2"):
        (tmp_path / name / "training" / "keys").mkdir(parents=True)
        (tmp_path / name / "training" / "keys" / "g0.key").write_bytes(b"a key")
    return tmp_path


def test_it_stays_for_a_week_and_no_longer(data: Path) -> None:
    assert [one.at for one in put_aside_in(data)] == [NOW, NOW]
    assert remove_put_aside(data, NOW + KEPT - timedelta(seconds=1)) == 0
    assert remove_put_aside(data, NOW - timedelta(days=400)) == 0
    assert len(put_aside_in(data)) == 2
    assert remove_put_aside(data, NOW + KEPT) == 2
    assert list(data.iterdir()) == []


def test_folders_of_other_names_stay(data: Path) -> None:
    others = {"before-restore-by-hand", "before-restore-20261332-990000", "before-restore-"}
    for name in others:
        (data / name).mkdir()
    (data / "before-restore-20261125-130000").write_text("a file")
    assert remove_put_aside(data, NOW + 2 * KEPT) == 2
    assert {one.name for one in data.iterdir()} == {*others, "before-restore-20261125-130000"}


def test_nothing_goes_while_a_restore_waits_to_be_finished(data: Path) -> None:
    (data / PLAN).write_text("{}")
    assert remove_put_aside(data, NOW + 2 * KEPT) == 0
    assert len(put_aside_in(data)) == 2


def test_a_name_is_free_and_tells_the_instant(data: Path) -> None:
    assert aside_name(data, NOW) == f"{NAME}-3"
    assert aside_name(data / "none", NOW) == NAME


def test_the_first_backup_after_a_week_removes_what_a_restore_put_aside(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    former = restore(a_backup(data).path, data, NOW, over=True).former
    assert former is not None
    a_backup(data, NOW + timedelta(days=6))
    assert former.exists()
    a_backup(data, NOW + KEPT)
    assert not former.exists()

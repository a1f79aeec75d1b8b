"""Once a day, when nobody is being fitted; a failure is told and a wrong clock does no harm."""

from datetime import timedelta
from pathlib import Path

import pytest

from kept_studios import NOW, a_studio
from loftwright.domain.acts import NotRead
from loftwright.errors import StoreError
from loftwright.services import daily_backup
from loftwright.services.backup_files import DRAFT, FOLDER, backups_in
from loftwright.services.backup_state import backup_state
from loftwright.services.daily_backup import AGAIN, DailyBackup
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from loftwright.web.views.last_backup import last_backup
from studios import Clock


@pytest.fixture
def clock() -> Clock:
    """Return a clock that stands at noon."""
    return Clock(at=NOW)


@pytest.fixture
def daily(tmp_path: Path, clock: Clock) -> DailyBackup:
    """Return the daily backup of a studio whose last ball was an hour ago."""
    data = a_studio(tmp_path / "data", golfers=1, balls=1)
    return DailyBackup(Studio(store=open_store(data), folder=data, clock=clock))


def count(daily: DailyBackup) -> int:
    return len(backups_in(daily.folder))


def test_one_is_made_a_day_and_no_more(daily: DailyBackup, clock: Clock) -> None:
    assert daily.look() is not None
    assert daily.folder.stat().st_mode & 0o777 == 0o700
    assert daily.look() is None
    clock.forward(11 * 60)
    assert daily.look() is None
    clock.forward(2 * 60)
    assert daily.look() is not None
    assert count(daily) == 2


def test_none_is_made_while_a_fitting_runs(daily: DailyBackup, clock: Clock) -> None:
    studio = daily._studio
    studio.store.append("f0", [NotRead()], at=clock.at, by="Ann")
    assert daily.look() is None
    assert daily.make_if_due() is None
    clock.forward(31)
    assert daily.look() is not None


def test_an_act_from_a_clock_that_ran_ahead_does_not_hold_it_up(
    daily: DailyBackup, clock: Clock
) -> None:
    later = clock.at + timedelta(days=400)
    daily._studio.store.append("f0", [NotRead()], at=later, by="Ann")
    assert daily.look() is not None


def test_what_a_restore_put_aside_goes_after_a_week(daily: DailyBackup, clock: Clock) -> None:
    aside = daily.folder.parent / f"before-restore-{clock.at:%Y%m%d-%H%M%S}"
    aside.mkdir()
    for _ in range(7):
        assert daily.look() is not None
        assert aside.exists()
        clock.forward(24 * 60)
    assert daily.look() is not None
    assert not aside.exists()


def test_a_clock_set_back_neither_deletes_nor_loops(daily: DailyBackup, clock: Clock) -> None:
    for _ in range(12):
        assert daily.look() is not None
        clock.forward(24 * 60)
    before = {one.path for one in backups_in(daily.folder)}
    clock.at -= timedelta(days=400)
    assert daily.look() is not None
    assert [daily.look() for _ in range(5)] == [None] * 5
    assert before < {one.path for one in backups_in(daily.folder)}
    clock.at += timedelta(days=800)
    assert daily.look() is not None
    assert count(daily) <= 17


def test_one_that_fails_is_told_tried_again_after_an_hour_and_leaves_the_last_good_one(
    daily: DailyBackup, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = daily.folder.parent
    assert daily.look() is not None
    good = {one.path: one.path.read_bytes() for one in backups_in(daily.folder)}
    clock.forward(24 * 60)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr("loftwright.services.backup.pack", full)
        assert daily.look() is None
        assert [daily.look() for _ in range(AGAIN)] == [None] * AGAIN
        told = last_backup(data, clock.at, None)
        assert "The daily backup fails since" in told.trouble
        assert "No space left on device" in told.trouble
        assert "yesterday" in told.sentence
    assert {one.path: one.path.read_bytes() for one in backups_in(daily.folder)} == good
    assert not list(daily.folder.glob(f"{DRAFT}*"))
    assert daily.look() is not None
    assert backup_state(data).trouble is None
    assert "today" in last_backup(data, clock.at, None).sentence


def test_a_failure_that_cannot_be_written_down_ends_nothing(
    daily: DailyBackup, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise StoreError("the disk is full", place="backups", mend="Free some space.")

    monkeypatch.setattr(daily_backup, "make_backup", full)
    (daily.folder.parent / FOLDER).write_text("a file in the place of the folder")
    assert daily.look() is None


def test_before_the_first_one_the_page_says_when_it_comes(tmp_path: Path) -> None:
    told = last_backup(tmp_path, NOW, None)
    assert told.sentence.startswith("No backup yet")
    assert told.trouble == ""

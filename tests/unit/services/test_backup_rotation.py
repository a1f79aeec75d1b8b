"""Seven days, four weeks and six months of backups stay, and a clock set back takes none."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from loftwright.services.backup_files import BackupFile, backup_name, backups_in
from loftwright.services.rotation import DAYS, MONTHS, WEEKS, outdated

NOW = datetime(2026, 11, 25, 18, tzinfo=UTC)


def backups(*instants: datetime, before: bool = False) -> list[BackupFile]:
    return [
        BackupFile(path=Path(backup_name(at, "0009" if before else "")), at=at, before=before)
        for at in instants
    ]


def left(all_of_them: list[BackupFile], now: datetime = NOW) -> list[datetime]:
    gone = outdated(all_of_them, now, UTC)
    return sorted((one.at for one in all_of_them if one not in gone), reverse=True)


def test_of_two_years_of_days_the_newest_days_weeks_and_months_stay() -> None:
    days = [NOW - timedelta(days=day) for day in range(730)]
    stay = left(backups(*days))
    assert stay[:DAYS] == days[:DAYS]
    weeks = {one.isocalendar()[:2] for one in stay}
    months = {(one.year, one.month) for one in stay}
    assert len(months) == MONTHS
    assert len(stay) <= DAYS + WEEKS + MONTHS
    newest = {one.isocalendar()[:2] for one in days[: 7 * WEEKS]}
    assert len(weeks & newest) >= WEEKS


def test_day_after_day_no_more_stay_than_said_and_the_newest_always_does() -> None:
    kept: list[BackupFile] = []
    for day in range(400):
        now = NOW + timedelta(days=day)
        kept += backups(now)
        gone = outdated(kept, now, UTC)
        kept = [one for one in kept if one not in gone]
        assert kept[-1].at == now
        assert len(kept) <= DAYS + WEEKS + MONTHS
    spans = [NOW + timedelta(days=399) - one.at for one in kept]
    assert max(spans) >= timedelta(days=140)


def test_of_one_day_the_last_backup_stays() -> None:
    morning, noon, night = (NOW.replace(hour=hour) for hour in (8, 12, 17))
    assert left(backups(morning, noon, night)) == [night]


def test_a_studio_that_was_closed_for_a_year_loses_none_by_it() -> None:
    week = [NOW - timedelta(days=365 + day) for day in range(7)]
    assert set(left(backups(NOW, *week))) >= {NOW, *week[:6]}


def test_a_clock_that_was_set_back_takes_nothing() -> None:
    many = backups(*(NOW + timedelta(days=day) for day in range(40)))
    assert outdated(many, NOW + timedelta(days=5), UTC) == ()


def test_days_are_those_of_the_shop() -> None:
    # 23:30 and 00:30 in Vienna are one day in UTC.
    late = datetime(2026, 11, 23, 22, 30, tzinfo=UTC)
    two = backups(late, late + timedelta(hours=1))
    assert outdated(two, NOW, ZoneInfo("Europe/Vienna")) == ()
    assert [one.at for one in outdated(two, NOW, UTC)] == [late]


def test_what_was_made_before_tables_changed_stays_beside_the_days() -> None:
    before = backups(*(NOW - timedelta(hours=hour) for hour in (1, 2, 3)), before=True)
    daily = backups(NOW)
    assert [one.at for one in outdated([*daily, *before], NOW, UTC)] == [before[2].at]


def test_only_names_of_backups_are_backups(tmp_path: Path) -> None:
    good = tmp_path / backup_name(NOW)
    other = tmp_path / backup_name(NOW, "0009")
    for name in (
        good.name,
        other.name,
        "loftwright-1.tar.gz",
        "loftwright-20261399-250000.tar.gz",
    ):
        (tmp_path / name).touch()
    assert {one.path for one in backups_in(tmp_path)} == {good, other}
    assert {one.before for one in backups_in(tmp_path)} == {True, False}
    assert backups_in(tmp_path / "none") == ()

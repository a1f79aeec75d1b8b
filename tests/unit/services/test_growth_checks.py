"""A growth check is due on its day, is moved or ended, and goes with the golfer."""

import json
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.erasing import erase_everywhere
from loftwright.services.exporting import export_golfer
from loftwright.services.golfers import add_golfer
from loftwright.services.growth_checks import (
    growth_checks,
    how_many_growth_checks,
    move_growth_check,
    proposed_check,
)
from loftwright.services.merging import merge
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from studios import Clock

TODAY = Clock()().date()


@pytest.fixture
def studio(tmp_path: Path) -> Studio:
    return Studio(store=open_store(tmp_path), folder=tmp_path, clock=Clock())


def young(studio: Studio, name: str, day: date | None, *, minor: bool = True) -> str:
    who = Identity(name=name, guardian="Hedda Plover", growth_check=day)
    return add_golfer(studio, Golfer(id="", minor=minor), who).id


def test_days_that_have_come_are_due_and_the_first_comes_first(studio: Studio) -> None:
    young(studio, "Later", TODAY + timedelta(days=1))
    young(studio, "Today", TODAY)
    young(studio, "Past", TODAY - timedelta(days=9))
    young(studio, "None", None)
    young(studio, "Grown", TODAY, minor=False)
    told = growth_checks(studio)
    assert [one.golfer.identity.name for one in told.shown] == ["Past", "Today", "Later"]
    assert (told.due, told.later) == (2, 1)
    assert how_many_growth_checks(studio) == 2
    assert len(growth_checks(studio, most=1).shown) == 1


def test_a_check_is_moved_to_a_later_day_or_ended(studio: Studio) -> None:
    golfer = young(studio, "Ida", TODAY)
    to = TODAY + timedelta(days=100)
    with pytest.raises(InputError, match="no later day"):
        move_growth_check(studio, golfer, TODAY, was=TODAY)
    move_growth_check(studio, golfer, to, was=TODAY)
    assert studio.store.identity(golfer).growth_check == to
    assert studio.store.identity(golfer).guardian == "Hedda Plover"
    assert how_many_growth_checks(studio) == 0
    with pytest.raises(ConflictError, match="meanwhile"):
        move_growth_check(studio, golfer, None, was=TODAY)
    move_growth_check(studio, golfer, None, was=to)
    assert growth_checks(studio).shown == ()


def test_nobody_but_a_minor_who_is_there_has_one(studio: Studio) -> None:
    grown = young(studio, "Otto", None, minor=False)
    with pytest.raises(InputError, match="no minor"):
        move_growth_check(studio, grown, TODAY + timedelta(days=1), was=None)
    with pytest.raises(NotFoundError):
        move_growth_check(studio, "nobody", None, was=None)


def test_six_months_on_is_proposed_however_long_the_month_is() -> None:
    assert proposed_check(date(2026, 11, 26)) == date(2027, 5, 26)
    assert proposed_check(date(2026, 8, 31)) == date(2027, 2, 28)
    assert proposed_check(date(2026, 6, 1)) == date(2026, 12, 1)


def test_an_identity_of_an_earlier_version_has_none(studio: Studio) -> None:
    golfer = young(studio, "Ida", TODAY)
    store = studio.store
    sealed = store.keys.seal(golfer, json.dumps({"name": "Ida", "contact": "", "guardian": "H"}))  # type: ignore[attr-defined]
    with store.writing() as connection:  # type: ignore[attr-defined]
        connection.exec_driver_sql("UPDATE identities SET sealed = ?", (sealed,))
    assert store.identity(golfer) == Identity(name="Ida", guardian="H")
    assert store.growth_checks() == {}
    assert store.names() == {golfer: "Ida"}


def test_the_day_is_sealed_exported_and_gone_with_the_golfer(
    studio: Studio, tmp_path: Path
) -> None:
    golfer = young(studio, "Ida", date(2031, 3, 14))
    assert b"2031-03-14" not in b"".join(one.read_bytes() for one in tmp_path.glob("*.sqlite*"))
    export_golfer(studio, golfer, tmp_path / "copy")
    (told,) = json.loads((tmp_path / "copy" / "golfer.json").read_text())
    assert told["growth_check"] == "2031-03-14"
    erase_everywhere(studio, golfer)
    assert studio.store.growth_checks() == {}
    with pytest.raises(NotFoundError):
        move_growth_check(studio, golfer, None, was=date(2031, 3, 14))


def test_of_two_records_of_one_minor_the_first_tells_the_day(studio: Studio) -> None:
    first, second = young(studio, "Ida", TODAY), young(studio, "I.", TODAY - timedelta(days=5))
    merge(studio, second, first)
    assert studio.store.growth_checks() == {first: TODAY}
    move_growth_check(studio, second, TODAY + timedelta(days=5), was=TODAY)
    assert studio.store.growth_checks() == {first: TODAY + timedelta(days=5)}


def test_a_merged_minor_keeps_the_day_that_only_the_second_record_had(studio: Studio) -> None:
    first, second = young(studio, "Ida", None), young(studio, "I.", TODAY)
    merge(studio, second, first)
    assert studio.store.growth_checks() == {first: TODAY}


def test_who_is_no_minor_any_more_is_not_looked_at(studio: Studio) -> None:
    golfer = young(studio, "Ida", TODAY)
    assert how_many_growth_checks(studio) == 1
    kept = studio.store.golfer(golfer)
    studio.store.change_golfer(replace(kept.value, minor=False), version=kept.version)
    assert how_many_growth_checks(studio) == 0

"""The weekly check: ten balls a bay, due in time, told in words, and in nobody's list."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.bay.now import FittingNow
from loftwright.constants import MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError, InputError
from loftwright.report.screen_numbers import Show
from loftwright.services.bay_check import (
    BALLS,
    Due,
    add_person,
    checked_bays,
    end_check,
    found_offsets,
    name_club,
    read_house,
    start_check,
)
from loftwright.services.bay_check_words import bay_line, bays_sentence, due_words, offset_words
from loftwright.services.day import fittings_done, fittings_in_progress, fittings_today
from loftwright.services.evidence import Desk
from loftwright.services.proof import proof_of
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio, new_id
from studios import Clock, a_club, a_head, studio_in_memory

METER = DeviceCard(name="meter")
DAY = 24 * 60.0


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    made = studio_in_memory(clock)
    kept = read_settings(made)
    three = replace(kept.settings, bays=("Bay 1", "Bay 2", "Bay 3"), devices=(METER,))
    change_settings(made, three, version=kept.version)
    return made


@pytest.fixture
def ann(studio: Studio) -> Golfer:
    """Return who hits the check club, which is named."""
    club = a_club(studio, a_head(studio), "Reedmace", 60.0, 45.0)
    name_club(studio, club.id, version=0)
    return add_person(studio, "Ann Reed", Hand.RIGHT, version=1)


def hit(studio: Studio, fitting: str, spin: float, rng: np.random.Generator) -> None:
    for _ in range(BALLS):
        numbers = ShotNumbers(
            ball_speed=rng.normal(145.0, 1.5) * MILE_PER_HOUR,
            launch=0.2,
            spin=rng.normal(spin, 120.0) * REVOLUTION_PER_MINUTE,
        )
        take(studio, fitting, Incoming(numbers=numbers, key=new_id()), source="feed")


def check(studio: Studio, ann: Golfer, bay: str, spin: float, rng: np.random.Generator) -> str:
    fitting = start_check(studio, bay, ann.id, METER).id
    hit(studio, fitting, spin, rng)
    end_check(studio, fitting)
    return fitting


def test_a_bay_is_never_checked_then_running_done_due_and_overdue(
    studio: Studio, ann: Golfer, clock: Clock
) -> None:
    def due() -> Due:
        return checked_bays(studio)[1].due

    assert due() is Due.NEVER
    fitting = start_check(studio, "Bay 2", ann.id, METER).id
    hit(studio, fitting, 2700.0, np.random.default_rng(1))
    assert due() is Due.RUNNING
    assert checked_bays(studio)[1].hit == BALLS
    end_check(studio, fitting)
    assert due() is Due.DONE
    assert (checked_bays(studio)[1].days, checked_bays(studio)[1].device) == (0, "meter")
    clock.forward(7 * DAY)
    assert due() is Due.DUE
    clock.forward(8 * DAY)
    assert due() is Due.OVERDUE
    assert due_words(checked_bays(studio)) == "Bay 1, Bay 3: never checked; Bay 2: overdue."


def test_a_bay_that_reads_more_spin_is_said_with_its_range(
    studio: Studio, ann: Golfer, clock: Clock
) -> None:
    rng = np.random.default_rng(7)
    for _ in range(4):
        for bay, spin in (("Bay 1", 2700.0), ("Bay 2", 3000.0), ("Bay 3", 2690.0)):
            check(studio, ann, bay, spin, rng)
        clock.forward(7 * DAY)
    offsets = found_offsets(studio)
    worst = next(one for one in offsets if one.bay == "Bay 2" and one.quantity == "spin")
    assert worst.off
    say, under = bays_sentence(offsets, checked_bays(studio), Show())
    assert say.startswith("Bay 2 reads ")
    assert " rpm more spin than the others (" in say
    assert say.endswith("); compare clubs within a bay.")
    assert "due this week" in under
    amount = float(say.split()[3])
    assert 200.0 < amount < 400.0
    assert offset_words(worst, Show()) in say
    assert "more spin" in bay_line(studio, "Bay 2", "meter")
    assert bay_line(studio, "Bay 2", "another meter") == ""
    assert bay_line(studio, "Bay 1", "meter") == ""


def test_an_overdue_bay_says_so_in_its_bay(studio: Studio, ann: Golfer, clock: Clock) -> None:
    check(studio, ann, "Bay 1", 2700.0, np.random.default_rng(1))
    assert bay_line(studio, "Bay 1", "meter") == ""
    clock.forward(15 * DAY)
    assert bay_line(studio, "Bay 1", "meter") == (
        "Bay 1 was last checked 15 days ago; ten balls of the check club are due."
    )
    # A bay that was never checked nags nobody: the house may not use checks at all.
    assert bay_line(studio, "Bay 2", "meter") == ""


def test_bays_that_read_alike_are_said_to(studio: Studio, ann: Golfer) -> None:
    rng = np.random.default_rng(3)
    for bay in ("Bay 1", "Bay 2", "Bay 3"):
        check(studio, ann, bay, 2700.0, rng)
    say, under = bays_sentence(found_offsets(studio), checked_bays(studio), Show())
    assert say == "The bays read alike, as far as 3 checks can tell."
    assert under == "Every bay was checked this week."


def test_before_the_first_check_nobody_knows(studio: Studio) -> None:
    say, under = bays_sentence((), checked_bays(studio), Show())
    assert say == "Nobody knows yet whether the bays read alike."
    assert under == "Bay 1, Bay 2, Bay 3: never checked."


def test_a_check_takes_balls_as_a_fitting_does_and_stands_in_no_list(
    studio: Studio, ann: Golfer
) -> None:
    fitting = start_check(studio, "Bay 1", ann.id, METER).id
    assert [one.id for one in fittings_in_progress(studio)] == [fitting]
    assert fittings_today(studio, Desk()) == ()
    hit(studio, fitting, 2700.0, np.random.default_rng(1))
    end_check(studio, fitting)
    assert fittings_done(studio, 12).fittings == ()
    assert proof_of(studio).balls == 0
    assert not ann.consents.shop_record


def test_a_new_device_in_a_bay_begins_anew(studio: Studio, ann: Golfer, clock: Clock) -> None:
    rng = np.random.default_rng(5)
    for bay in ("Bay 1", "Bay 2"):
        check(studio, ann, bay, 2700.0, rng)
    clock.forward(7 * DAY)
    fitting = start_check(studio, "Bay 2", ann.id, DeviceCard(name="new meter")).id
    hit(studio, fitting, 2700.0, rng)
    end_check(studio, fitting)
    found = {(one.bay, one.quantity): one for one in found_offsets(studio)}
    assert found["Bay 2", "spin"].checks == 1


def test_what_cannot_be_checked_is_refused_with_the_mend(studio: Studio) -> None:
    with pytest.raises(InputError, match="no club of the shop"):
        name_club(studio, "nothing", version=0)
    ann = add_person(studio, "Ann Reed", Hand.LEFT, version=0)
    assert studio.store.golfer(ann.id).value.hand is Hand.LEFT
    with pytest.raises(InputError, match="no check club"):
        start_check(studio, "Bay 1", ann.id, METER)
    club = a_club(studio, a_head(studio), "Reedmace", 60.0, 45.0)
    name_club(studio, club.id, version=read_house(studio).version)
    with pytest.raises(InputError, match="nobody is chosen"):
        start_check(studio, "Bay 1", "somebody", METER)
    with pytest.raises(InputError, match="no 'Bay 9'"):
        start_check(studio, "Bay 9", ann.id, METER)
    start_check(studio, "Bay 1", ann.id, METER)
    with pytest.raises(ConflictError, match="under way"):
        start_check(studio, "Bay 1", ann.id, METER)
    with pytest.raises(ConflictError):
        add_person(studio, "Bo Marsh", Hand.RIGHT, version=0)
    assert len(studio.store.golfers()) == 1


def test_checks_of_earlier_weeks_are_not_replayed_for_every_page(
    studio: Studio, ann: Golfer, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    rng = np.random.default_rng(3)
    for _ in range(3):
        check = start_check(studio, "Bay 1", ann.id, METER).id
        hit(studio, check, 2700.0, rng)
        end_check(studio, check)
        clock.forward(8 * DAY)
    before = checked_bays(studio)
    now = start_check(studio, "Bay 1", ann.id, METER).id
    replayed: list[str] = []
    standing = Studio.standing

    def seen(self: Studio, fitting: str) -> FittingNow:
        replayed.append(fitting)
        return standing(self, fitting)

    monkeypatch.setattr(Studio, "standing", seen)
    after = checked_bays(studio)
    assert set(replayed) <= {now}
    assert (before[0].due, after[0].due) == (Due.DUE, Due.RUNNING)
    assert after[0].last == before[0].last

"""A fitting that was repaired says what the one without the fault says, to the last digit."""

from collections.abc import Callable, Sequence
from datetime import timedelta

import pytest

from bays import Bay, a_bay, drive
from loftwright.bay.mends import not_read
from loftwright.constants import MILLIMETRE
from loftwright.domain.acts import (
    Act,
    HandedOver,
    Marked,
    NotOurs,
    NotRead,
    OddBall,
    RunMoved,
    RunSet,
    SetMarked,
    SettingSeen,
    Undone,
    Vetoed,
)
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.evidence.budget import Budget
from loftwright.physics.sleeve import Convention
from loftwright.report.records import decision_record
from loftwright.services.evidence import Desk, Evidence, weigh
from loftwright.services.shots import Incoming, take

SETS = ("Own", "Ash", "Birch", "Own", "Ash", "Birch")
EACH = 3


def evidence(bay: Bay, desk: Desk | None = None) -> Evidence:
    now = bay.studio.standing(bay.fitting)
    found = (desk or Desk()).compared(bay.fitting, now, bay.golfer, Convention.A)
    return weigh(found, bay.golfer, Budget())


def came_out(bay: Bay, desk: Desk | None = None) -> object:
    found = evidence(bay, desk)
    assert found.decision is not None
    return decision_record(found.decision, found.table.table)


def mark_of(number: int) -> Mark:
    return Mark(toe=(3.0 * (number % 7) - 9.0) * MILLIMETRE, high=(number % 5 - 2.0) * MILLIMETRE)


class Hour:
    """An hour played ball by ball; `before` and `after` say what else happens around a ball."""

    def __init__(self, hand: Hand = Hand.RIGHT) -> None:
        self.bay = a_bay(hand=hand)
        self.hit: list[int] = []

    def play(
        self,
        *,
        before: dict[int, Callable[["Hour"], None]] | None = None,
        after: dict[int, Callable[["Hour"], None]] | None = None,
        unread: Sequence[int] = (),
        unmarked: Sequence[int] = (),
        hand_over: bool = True,
    ) -> "Hour":
        for number in range(len(SETS) * EACH):
            club = SETS[number // EACH]
            if hand_over and number % EACH == 0:
                self.bay.hand(club)
            if before and number in before:
                before[number](self)
            numbers = drive(self.bay.rng, club)
            if number in unread:
                self.bay.do(NotRead(), wait=30.0)
                self.hit.append(self.bay.now.swings[-1].sequence)
            else:
                self.hit.append(self.bay.ball(numbers).sequence)
            if number not in unmarked:
                self.bay.do(Marked(mark=mark_of(number)))
            if after and number in after:
                after[number](self)
        return self

    def do(self, *acts: Act) -> "Hour":
        self.bay.do(*acts)
        return self


@pytest.fixture(scope="module")
def clean() -> object:
    return came_out(Hour().play().bay)


def test_the_same_hour_gives_the_same_to_the_last_digit(clean: object) -> None:
    assert came_out(Hour().play().bay) == clean


def test_what_was_asked_before_leaves_no_trace(clean: object) -> None:
    desk = Desk()
    hour = Hour()
    hour.play(after=dict.fromkeys((5, 9, 13), lambda one: came_out(one.bay, desk)))  # type: ignore[arg-type]
    assert came_out(hour.bay, desk) == came_out(hour.bay) == clean


def test_two_pages_of_one_state_share_the_work() -> None:
    desk, bay = Desk(), Hour().play().bay
    now = bay.studio.standing(bay.fitting)
    first, second = (desk.compared(bay.fitting, now, bay.golfer, Convention.A) for _ in range(2))
    assert first is second
    other = desk.compared(bay.fitting, now, bay.golfer, Convention.B)
    assert other is not first


def test_a_dropped_ball_mended_late(clean: object) -> None:
    """The eighth ball is not read; its mark waits through two more balls, then it is said."""
    right = Hour().play(unread=[7])
    hour = Hour()

    def say_it(one: Hour) -> None:
        acts = not_read(one.bay.now, len(one.bay.studio.record(one.bay.fitting)) + 1)
        one.do(*acts)

    for number in range(len(SETS) * EACH):
        club = SETS[number // EACH]
        if number % EACH == 0:
            hour.bay.hand(club)
        numbers = drive(hour.bay.rng, club)
        if number != 7:
            hour.bay.ball(numbers)
        else:
            hour.bay.clock.at += timedelta(seconds=30)
        hour.do(Marked(mark=mark_of(number)))
        if number == 9:
            faulty = came_out(hour.bay)
            say_it(hour)
            assert came_out(hour.bay) != faulty
    assert came_out(hour.bay) == came_out(right.bay) != clean


def test_ghosts_are_taken_out(clean: object) -> None:
    def ghost(one: Hour) -> None:
        one.bay.ball(ShotNumbers(ball_speed=30.0, launch=0.5, spin=100.0))

    hour = Hour().play(before={4: ghost, 10: ghost})
    assert came_out(hour.bay) != clean
    ghosts = [one for one in hour.bay.now.swings if one.sequence not in hour.hit]
    hour.do(*(NotOurs(ball=one.sequence) for one in ghosts))
    assert came_out(hour.bay) == clean


def test_a_run_that_was_hit_with_another_club_is_moved(clean: object) -> None:
    """Nobody said that Ash was handed over for the fifth set."""
    hour = Hour()

    def right_hand(one: Hour) -> None:
        one.do(HandedOver(club="Own"))

    hour.play(before={12: right_hand})
    assert came_out(hour.bay) != clean
    hour.do(RunMoved(first=hour.hit[12], last=hour.hit[14], club="Ash"))
    assert came_out(hour.bay) == clean


def test_a_setting_that_sat_wrong_is_corrected() -> None:
    def turned(one: Hour) -> None:
        one.do(SettingSeen(setting="one up"))

    right = Hour().play(before={12: turned})
    hour = Hour().play()
    assert came_out(hour.bay) != came_out(right.bay)
    hour.do(RunSet(first=hour.hit[12], last=hour.hit[14], setting="one up"))
    assert came_out(hour.bay) == came_out(right.bay)


def test_a_set_of_unknown_order_is_undone_and_marked_again() -> None:
    balls = range(3, 6)

    def marked(one: Hour, shift: int) -> None:
        marks = tuple(mark_of(number + shift) for number in balls)
        one.do(SetMarked(balls=tuple(one.hit[number] for number in balls), marks=marks))

    right = Hour().play(unmarked=balls)
    marked(right, 0)
    hour = Hour().play(unmarked=balls)
    marked(hour, 2)
    assert came_out(hour.bay) != came_out(right.bay)
    hour.do(Undone(act=hour.bay.now.upto))
    marked(hour, 0)
    assert came_out(hour.bay) == came_out(right.bay)


def test_a_mark_moved_to_the_ball_that_made_it(clean: object) -> None:
    hour = Hour().play(unmarked=[6])
    hour.do(Marked(mark=mark_of(2), ball=hour.hit[6]))
    assert came_out(hour.bay) != clean
    hour.do(Marked(mark=mark_of(6), ball=hour.hit[6]))
    assert came_out(hour.bay) == clean


def test_a_veto_undone(clean: object) -> None:
    hour = Hour().play()
    hour.do(Vetoed(club="Ash"))
    assert came_out(hour.bay) != clean
    hour.do(Undone(act=hour.bay.now.upto))
    assert came_out(hour.bay) == clean


def test_a_ball_set_aside_and_taken_back(clean: object) -> None:
    hour = Hour().play()
    hour.do(OddBall(ball=hour.hit[8]))
    assert came_out(hour.bay) != clean
    hour.do(Undone(act=hour.bay.now.upto))
    assert came_out(hour.bay) == clean


def test_a_ball_that_came_without_a_link_is_typed_in_where_it_was_hit(clean: object) -> None:
    hour = Hour()
    told: list[ShotNumbers] = []
    for number in range(len(SETS) * EACH):
        club = SETS[number // EACH]
        if number % EACH == 0:
            hour.bay.hand(club)
        told.append(drive(hour.bay.rng, club))
        if number == 7:
            hour.hit.append(0)
            continue
        hour.hit.append(hour.bay.ball(told[-1]).sequence)
        hour.do(Marked(mark=mark_of(number)))
    late = Incoming(numbers=told[7], key="typed", after=hour.hit[6])
    taken = take(hour.bay.studio, hour.bay.fitting, late, source="keyboard")
    hour.do(Marked(mark=mark_of(7), ball=taken.sequence))
    assert came_out(hour.bay) == clean


def test_too_few_balls_say_nothing_and_raise_no_doubt() -> None:
    bay = a_bay()
    found = evidence(bay)
    assert (found.decision, found.alarms, found.reading(Hand.RIGHT)) == (None, (), None)
    bay.ball()
    one = evidence(bay)
    assert one.decision is not None
    assert all(club.value is None for club in one.decision.clubs)

"""Balls and minutes left, rests, and the question whose club it is."""

from datetime import timedelta

from loftwright.bay.pace import CAP, CAP_WITH_CARE, REST_EVERY, asks_for_club, pace_of
from loftwright.domain.acts import HandedOver, NotRead, Planned, Rested, WarmUpDone
from loftwright.domain.fitting import PlanCard
from records import Record

PLAN = Planned(plan=PlanCard(sets=(("Own", 3), ("Ash", 3), ("Own", 2)), seconds=1800.0))


def test_balls_and_minutes_count_down_from_the_plan() -> None:
    record = Record().open("Own", "Ash")
    record.add(PLAN)
    record.balls(2)
    record.add(NotRead(), wait=30.0)
    pace = pace_of(record.now, record.clock, care=False)
    assert pace.balls_left == 5
    assert pace.seconds_left == 1800.0 - 90.0


def test_a_new_plan_counts_anew() -> None:
    record = Record().open("Own", "Ash")
    record.add(PLAN)
    record.balls(5)
    record.add(PLAN)
    assert pace_of(record.now, record.clock, care=False).balls_left == 8


def test_without_a_plan_nothing_is_left_to_count() -> None:
    pace = pace_of(Record().open("Own").now, Record().clock, care=False)
    assert (pace.balls_left, pace.seconds_left) == (None, None)


def test_time_never_runs_below_zero() -> None:
    record = Record().open("Own", "Ash")
    record.add(PLAN)
    late = record.clock + timedelta(hours=2)
    assert pace_of(record.now, late, care=False).seconds_left == 0.0


def test_every_swing_counts_for_the_cap_and_care_lowers_it() -> None:
    record = Record().open("Own", "Ash", warm_up=True)
    record.balls(3)
    record.add(WarmUpDone(unseen=50))
    record.add(PLAN)
    assert pace_of(record.now, record.clock, care=False).cap == CAP
    careful = pace_of(record.now, record.clock, care=True)
    assert (careful.swings, careful.cap, careful.balls_left) == (53, CAP_WITH_CARE, 7)


def test_a_rest_is_due_after_so_many_swings_and_then_not() -> None:
    record = Record().open("Own")
    record.balls(REST_EVERY)
    assert pace_of(record.now, record.clock, care=False).rest_in == 0
    record.add(Rested())
    assert pace_of(record.now, record.clock, care=False).rest_in == REST_EVERY


def test_a_long_pause_asks_for_the_club_until_it_is_confirmed() -> None:
    record = Record().open("Own", "Ash")
    record.ball()
    record.ball(wait=35.0)
    assert not asks_for_club(record.now)
    record.ball(wait=45.0)
    assert asks_for_club(record.now)
    record.add(HandedOver(club="Own"))
    assert not asks_for_club(record.now)


def test_a_pause_for_a_hand_over_asks_nothing() -> None:
    record = Record().open("Own", "Ash")
    record.ball()
    record.add(HandedOver(club="Ash"), wait=60.0)
    record.ball(wait=60.0)
    assert not asks_for_club(record.now)

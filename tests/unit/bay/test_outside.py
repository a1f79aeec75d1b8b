"""Clubs of a fitting that are no drivers: plain averages, and what may be told of a ball."""

import pytest

from bays import Bay, drive
from fairway_woods import IRON, WOOD, card_of, with_wood
from loftwright.bay.outside import is_outside, none_compared, not_compared, outside_clubs, rule_of
from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.domain.acts import OddBall, Vetoed
from loftwright.domain.club_kind import Kind, Told


@pytest.fixture
def bay() -> Bay:
    return with_wood("Own", "Cedar")


def test_plain_averages_of_what_the_device_showed(bay: Bay) -> None:
    (wood,) = outside_clubs(bay.now)
    speeds = [
        ball.numbers.ball_speed
        for ball in bay.now.balls
        if ball.club == "Cedar" and ball.numbers and ball.numbers.ball_speed
    ]
    assert (wood.club, wood.kind, wood.balls) == ("Cedar", Kind.FAIRWAY_WOOD, 4)
    assert wood.ball_speed == pytest.approx(sum(speeds) / 4.0)
    assert wood.carry is None


def test_a_carry_is_averaged_over_the_balls_that_have_one(bay: Bay) -> None:
    bay.ball(drive(bay.rng, "Cedar", carry=210.0 * YARD))
    bay.ball(drive(bay.rng, "Cedar", carry=220.0 * YARD))
    (wood,) = outside_clubs(bay.now)
    assert wood.balls == 6
    assert wood.carry == pytest.approx(215.0 * YARD)


def test_an_odd_ball_is_left_out_of_the_average(bay: Bay) -> None:
    taken = bay.ball(drive(bay.rng, "Cedar", ball_speed=60.0 * MILE_PER_HOUR))
    (before,) = outside_clubs(bay.now)
    bay.do(OddBall(ball=bay.now.swings[-1].sequence))
    (after,) = outside_clubs(bay.now)
    assert taken is not None
    assert (before.balls, after.balls) == (5, 4)
    assert (after.ball_speed or 0.0) > (before.ball_speed or 0.0)


def test_a_club_that_was_ended_is_not_listed(bay: Bay) -> None:
    bay.do(Vetoed(club="Cedar"))
    assert outside_clubs(bay.now) == ()


def test_a_ball_of_a_driver_or_of_no_club_may_be_flown_and_one_of_a_wood_not(bay: Bay) -> None:
    now = bay.now
    assert rule_of(now, "Own", Told.FLIGHT).may
    assert rule_of(now, None, Told.FLIGHT).may
    assert not rule_of(now, "Cedar", Told.FLIGHT).may
    assert rule_of(now, "Cedar", Told.AS_READ).may


def test_nothing_is_compared_only_where_every_club_that_was_hit_is_no_driver(bay: Bay) -> None:
    assert not none_compared(bay.now)
    assert none_compared(with_wood("Own", "Cedar", every=True).now)
    assert not none_compared(with_wood(every=True).now)


@pytest.mark.parametrize(
    ("what", "words"),
    [
        (WOOD, "a fairway wood is not compared with drivers"),
        (IRON, "an iron is not compared with drivers"),
    ],
)
def test_why_it_is_not_compared_is_told_in_its_own_word(
    what: tuple[float, float], words: str
) -> None:
    card = card_of("Cedar", what)
    assert is_outside(card)
    assert not_compared(card) == words

"""The last ball as it flies at home, and what is not said without its numbers."""

from dataclasses import replace

import pytest

from loftwright.constants import YARD
from loftwright.domain.acts import NotOurs
from loftwright.domain.home import Hole, Home
from loftwright.evidence.flight_map import conditions_at
from loftwright.physics.flight import Launch, fly_quickly
from loftwright.services.last_ball import (
    earlier_finishes,
    flight_path,
    flown,
    hole_of,
    last_ball,
)
from records import Record, numbers

HOME = Home()


def test_a_ball_flies_at_home_as_the_flight_model_has_it() -> None:
    ball = numbers(150.0)
    found = flown(ball, HOME)
    assert found is not None
    assert ball.ball_speed
    assert ball.launch
    assert ball.spin
    flight = fly_quickly(
        Launch(
            ball_speed=ball.ball_speed,
            launch=ball.launch,
            direction=ball.direction or 0.0,
            spin=ball.spin,
            axis=ball.axis or 0.0,
        ),
        conditions_at(HOME),
    )
    assert (found.carry, found.total) == (flight.carry, flight.total)
    assert found.start_offline + found.curve == pytest.approx(flight.carry_offline)
    assert found.has_side


def test_its_path_ends_where_it_lands() -> None:
    ball = numbers(150.0)
    found, path = flown(ball, HOME), flight_path(ball, HOME)
    assert found is not None
    assert (path[0][0], path[0][2]) == (0.0, 0.0)
    assert path[-1][0] == pytest.approx(found.carry, rel=0.002)
    assert max(y for _, y, _ in path) == pytest.approx(found.peak_height, rel=0.01)


@pytest.mark.parametrize("missing", ["ball_speed", "launch", "spin"])
def test_nothing_is_flown_without_speed_launch_and_spin(missing: str) -> None:
    ball = replace(numbers(150.0), **{missing: None})
    assert flown(ball, HOME) is None
    assert flight_path(ball, HOME) == ()


def test_without_direction_a_ball_has_no_side() -> None:
    found = flown(replace(numbers(150.0), direction=None), HOME)
    assert found is not None
    assert not found.has_side


def test_the_last_ball_is_the_golfers_newest_that_was_read() -> None:
    record = Record().open("Own")
    assert last_ball(record.now) is None
    first, ghost = record.balls(2)
    record.add(NotOurs(ball=ghost))
    newest = last_ball(record.now)
    assert newest is not None
    assert newest.sequence == first
    assert earlier_finishes(record.now, HOME) == ()
    record.ball(160)
    (finish,) = earlier_finishes(record.now, HOME)
    assert 180 * YARD < finish[0] < 300 * YARD


def test_the_golfers_own_hole_is_drawn() -> None:
    own = Hole(length=365 * YARD, fairway=34 * YARD)
    assert hole_of(replace(HOME, holes=(own,)), None) == own
    assert hole_of(HOME, None) == Hole()


def test_a_ball_is_flown_once_for_every_home_in_the_same_air() -> None:
    ball = numbers(150.0)
    first = flown(ball, HOME)
    assert first is not None
    assert flown(ball, Home(holes=(Hole(), Hole()))) is first
    assert flown(ball, Home(altitude=1500.0)) != first

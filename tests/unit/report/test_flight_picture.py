from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from math import atan2

import pytest

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.evidence.flight_map import conditions_at
from loftwright.evidence.result import Decision, Level
from loftwright.physics.flight import Launch, fly
from loftwright.report.flight_picture import flight_curve, flight_side
from loftwright.report.marks import OWN_MARK, deal_marks
from loftwright.report.pictures import Drive

HOME = Home(wind_along=-5.0 * MILE_PER_HOUR)


@pytest.fixture(scope="module")
def level(make_decision: Callable[..., Decision]) -> Level:
    found = make_decision().clubs[0].level
    assert found is not None
    return found


def test_the_drawn_flight_is_the_flight_of_the_launch_numbers_at_home(level: Level) -> None:
    launch = Launch(
        ball_speed=level.ball_speed,
        launch=level.launch,
        direction=level.direction,
        spin=level.spin,
        axis=level.axis,
    )
    flown = fly(launch, conditions_at(HOME))
    curve = flight_curve(level, HOME)
    assert curve[-1][0] == pytest.approx(flown.carry, abs=0.3)
    assert curve[-1][1] == pytest.approx(0.0, abs=0.05)
    assert max(y for _, y in curve) == pytest.approx(flown.peak_height, abs=0.1)
    (x0, y0), (x1, y1) = curve[-2], curve[-1]
    assert atan2(y0 - y1, x1 - x0) == pytest.approx(flown.landing_angle, abs=1.0 * DEGREE)


def test_a_drawn_flight_rises_once_and_falls_once(level: Level) -> None:
    curve = flight_curve(level, HOME)
    rising = [after > before for (_, before), (_, after) in pairwise(curve)]
    assert rising == sorted(rising, reverse=True)


def test_the_gable_is_thirty_feet_at_the_scale_of_the_flight(level: Level) -> None:
    drive = Drive(club="Own", label="Own", mark=OWN_MARK, level=level)
    svg = flight_side([drive], HOME, width=330.0)
    curve = flight_curve(level, HOME)
    scale = (330.0 - 16.0) / curve[-1][0]
    base = max(y for _, y in curve) * scale + 10.0
    assert f"L171.6 {base - 30.0 * FOOT * scale:.1f}L" in svg
    assert ">30 ft<" in svg


def test_the_first_of_two_flights_is_dashed_and_each_has_its_marker(level: Level) -> None:
    marks = deal_marks(["Own", "Ash"], "Own")
    slower = replace(level, ball_speed=0.97 * level.ball_speed)
    svg = flight_side(
        [
            Drive(club="Own", label="Own", mark=marks["Own"], level=slower),
            Drive(club="Ash", label="Ash", mark=marks["Ash"], level=level),
        ],
        HOME,
    )
    assert svg.count("stroke-dasharray") == 1
    assert svg.count("<circle") == 1
    assert svg.count("#0072b2") == 1

"""Peak, landing and rest, from the ends of a step."""

from math import isnan, pi

import pytest

from drives import conditions
from loftwright.constants import BALL_RADIUS, DEGREE, GRAVITY
from loftwright.physics.landing import (
    come_to_rest,
    falls_at_once,
    hermite,
    hermite_rate,
    landing_speeds,
    outcome,
    peak_within,
    touch_down,
)
from loftwright.physics.motion import State, runge_kutta_step
from loftwright.physics.turf import GROUNDS, run_out

BACKSPIN = (0.0, 0.0, 1.0)
VACUUM = conditions(drag_scale=0.0, lift_scale=0.0).medium
LANDING: State = (200.0, 0.0, 10.0, 24.0, -18.0, 7.0, 190.0)


def test_hermite_follows_any_cubic() -> None:
    def cubic(t: float) -> float:
        return 2.0 - 3.0 * t + 0.5 * t**2 + 1.5 * t**3

    def slope(t: float) -> float:
        return -3.0 + t + 4.5 * t**2

    ends = (cubic(0.0), slope(0.0), cubic(1.0), slope(1.0))
    for t in (0.0, 0.2, 0.7, 1.0):
        assert hermite(*ends, t) == pytest.approx(cubic(t))
        assert hermite_rate(*ends, t) == pytest.approx(slope(t))


def test_the_peak_of_a_parabola_is_exact() -> None:
    before: State = (0.0, 10.0, 0.0, 30.0, 1.0, 0.0, 0.0)
    after = runge_kutta_step(before, 0.4, BACKSPIN, VACUUM)
    assert peak_within(before, after, 0.4) == pytest.approx(10.0 + 0.5 / GRAVITY)


@pytest.mark.parametrize("height", [1e-9, 0.5, 2.0])
def test_touch_down_of_a_parabola_is_exact(height: float) -> None:
    before: State = (100.0, height, 0.0, 30.0, -10.0, 2.0, 0.0)
    after = runge_kutta_step(before, 0.3, BACKSPIN, VACUUM)
    landing, took = touch_down(before, after, 0.3, BACKSPIN, VACUUM)
    expected = ((100.0 + 2.0 * GRAVITY * height) ** 0.5 - 10.0) / GRAVITY
    assert took == pytest.approx(expected, abs=1e-12)
    assert landing[0] == pytest.approx(100.0 + 30.0 * took)
    assert landing[1] == 0.0
    assert landing[4] == pytest.approx(-10.0 - GRAVITY * took)


def test_a_short_hop_lands_at_its_far_end_not_on_the_tee() -> None:
    before: State = (0.0, 0.0, 0.0, 3.0, 0.05, 0.0, 0.0)
    after = runge_kutta_step(before, 0.1, BACKSPIN, VACUUM)
    _, took = touch_down(before, after, 0.1, BACKSPIN, VACUUM)
    assert took == pytest.approx(2.0 * 0.05 / GRAVITY)


def test_a_ball_falls_at_once_unless_it_rises_or_lift_raises_it() -> None:
    air = conditions().medium
    rising: State = (0.0, 0.0, 0.0, 50.0, 0.1, 0.0, 100.0)
    assert not falls_at_once(rising, BACKSPIN, air)
    assert falls_at_once((*rising[:4], -0.1, 0.0, 100.0), BACKSPIN, air)
    assert falls_at_once((*rising[:4], 0.0, 0.0, 100.0), BACKSPIN, air)
    assert not falls_at_once((0.0, 0.0, 0.0, 75.0, 0.0, 0.0, 700.0), BACKSPIN, air)


def test_backspin_is_the_spin_across_the_landing_direction() -> None:
    forward, down, backspin = landing_speeds(LANDING, BACKSPIN)
    assert (forward, down) == (25.0, 18.0)
    assert backspin == pytest.approx(BALL_RADIUS * 190.0 * 24.0 / 25.0)


def test_the_ball_runs_on_in_the_direction_it_lands() -> None:
    flown = outcome(LANDING, 6.0, 30.0, 5.0, 9.0, refused=False)
    assert flown.carry == pytest.approx((200.0**2 + 10.0**2) ** 0.5)
    assert flown.carry_offline == 10.0
    assert flown.total_offline == pytest.approx(10.0 + 5.0 * 7.0 / 25.0)
    assert flown.rest_along == pytest.approx(200.0 + 5.0 * 24.0 / 25.0)
    assert flown.landing_angle == pytest.approx(35.7539 * DEGREE, abs=1e-6)


def test_a_refused_shot_has_a_carry_and_no_total() -> None:
    flown = outcome(LANDING, 6.0, 30.0, 5.0, 9.0, refused=True)
    assert flown.carry > 0.0
    assert isnan(flown.total)
    assert isnan(flown.total_offline)


def test_a_vertical_landing_stays_where_it_lands() -> None:
    flown = come_to_rest(
        (50.0, 0.0, 1.0, 0.0, -25.0, 0.0, 500.0), 5.0, 40.0, BACKSPIN, GROUNDS["normal"], False
    )
    assert flown.landing_angle == pytest.approx(0.5 * pi)
    assert flown.total == flown.carry


def test_the_run_is_that_of_the_ground() -> None:
    soft = GROUNDS["soft"]
    run, impacts = run_out(*landing_speeds(LANDING, BACKSPIN), soft)
    flown = come_to_rest(LANDING, 6.0, 30.0, BACKSPIN, soft, False)
    assert flown.bounces == impacts
    assert flown.total_offline == pytest.approx(10.0 + run * 7.0 / 25.0)

"""Bounce and run: energy, grip and slide, mirror, and the end of bouncing."""

from math import atan2

import pytest

from loftwright.constants import DEGREE, GRAVITY
from loftwright.physics.turf import (
    GROUNDS,
    MOST_IMPACTS,
    GroundLaw,
    apparent_tilt,
    bounce,
    hop_length,
    hops,
    roll_length,
    run_out,
)

NORMAL = GROUNDS["normal"]
ICE = GroundLaw(base_tilt=0.0, restitution=0.5, friction=0.0, rolling_resistance=0.1)
LEVEL = GroundLaw(base_tilt=0.0, restitution=0.5, friction=1.0, rolling_resistance=0.1)


def _energy(forward: float, up: float, backspin: float) -> float:
    """Twice the kinetic energy over the mass of a solid sphere."""
    return forward**2 + up**2 + 0.4 * backspin**2


@pytest.mark.parametrize("ground", GROUNDS.values())
@pytest.mark.parametrize("before", [(24.0, 17.0, 4.5), (28.0, 10.0, -9.0), (2.0, 16.0, 18.0)])
def test_no_bounce_gains_energy(ground: GroundLaw, before: tuple[float, float, float]) -> None:
    assert _energy(*bounce(*before, ground)) < _energy(*before)


def test_a_frictionless_level_ground_only_turns_the_downward_speed() -> None:
    assert bounce(20.0, 10.0, 5.0, ICE) == pytest.approx((20.0, 5.0, 5.0))


def test_a_gripping_ball_leaves_rolling_over_the_ground() -> None:
    forward, _, backspin = bounce(10.0, 10.0, 3.0, LEVEL)
    assert backspin == pytest.approx(-forward)
    assert forward == pytest.approx((5.0 * 10.0 - 2.0 * 3.0) / 7.0)


def test_a_sliding_ball_loses_what_friction_takes() -> None:
    slippery = LEVEL._replace(friction=0.1)
    forward, _, backspin = bounce(20.0, 10.0, 5.0, slippery)
    assert forward == pytest.approx(20.0 - 0.1 * 1.5 * 10.0)
    assert backspin == pytest.approx(5.0 - 2.5 * 0.1 * 1.5 * 10.0)


def test_a_ball_that_comes_back_bounces_as_its_mirror_image() -> None:
    forward, up, backspin = bounce(6.0, 8.0, 12.0, NORMAL)
    assert bounce(-6.0, 8.0, -12.0, NORMAL) == pytest.approx((-forward, up, -backspin))


def test_only_flat_landings_see_more_than_the_base_tilt() -> None:
    base = NORMAL.base_tilt
    assert apparent_tilt(10.0, 10.0, base) == pytest.approx(base)
    assert apparent_tilt(0.0, 10.0, base) == pytest.approx(base)
    flat = apparent_tilt(30.0, 10.0, base)
    assert flat == pytest.approx(base * atan2(30.0, 10.0) / (55.0 * DEGREE))
    assert apparent_tilt(10.0, 0.0, base) == pytest.approx(base * 90.0 / 55.0)


def test_hop_and_roll_are_those_of_mechanics() -> None:
    assert hop_length(3.0, 4.0) == pytest.approx(3.0 * 2.0 * 4.0 / GRAVITY)
    assert roll_length(2.0, NORMAL) == pytest.approx(4.0 * 7.0 / (10.0 * 0.25 * GRAVITY))
    assert roll_length(-2.0, NORMAL) == -roll_length(2.0, NORMAL)


def test_bouncing_ends_at_a_hop_of_five_millimetres() -> None:
    speed = (2.0 * GRAVITY * 0.005) ** 0.5
    assert not hops(0.999 * speed)
    assert hops(1.001 * speed)
    assert not hops(-1.0)


def test_the_last_impact_adds_only_roll() -> None:
    level = LEVEL._replace(restitution=0.0)
    run, impacts = run_out(5.0, 3.0, 0.0, level)
    assert impacts == 1
    assert run == pytest.approx(roll_length(5.0 * 5.0 / 7.0, level))


def test_an_endless_bouncer_is_stopped() -> None:
    trampoline = GroundLaw(base_tilt=0.0, restitution=1.0, friction=0.0, rolling_resistance=0.1)
    run, impacts = run_out(1.0, 1.0, 0.0, trampoline)
    assert impacts == MOST_IMPACTS
    assert run == pytest.approx(MOST_IMPACTS * hop_length(1.0, 1.0) + roll_length(1.0, trampoline))


def test_firm_ground_runs_longest_and_soft_ground_shortest() -> None:
    runs = {name: run_out(24.0, 17.0, 4.5, ground)[0] for name, ground in GROUNDS.items()}
    assert runs["firm"] > runs["normal"] > runs["soft"] > 0.0


def test_backspin_shortens_the_run() -> None:
    assert run_out(24.0, 17.0, 8.0, NORMAL)[0] < run_out(24.0, 17.0, 2.0, NORMAL)[0]

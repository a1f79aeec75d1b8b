"""One swing: what is refused, what must be equal, what follows from what."""

from collections.abc import Callable
from dataclasses import replace
from math import degrees, inf, nan

import numpy as np
import pytest

from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft_swing.basis import REFERENCE_SWUNG_HEAD, ShaftBasis, swing_basis
from loftwright.physics.shaft_swing.players import QUICK_LATE, SMOOTH_EARLY, Player, paced
from loftwright.physics.shaft_swing.struck import Swing
from loftwright.physics.shaft_swing.swings import (
    AFTER,
    STEP,
    grip_motion,
    release_anew,
    replay,
    swing,
)
from swung_shafts import beam_shapes, profile_of, shaft

BOTH = pytest.mark.parametrize("player", [QUICK_LATE, SMOOTH_EARLY], ids=["late", "steady"])


def numbers(made: Swing) -> list[float]:
    return [
        *(made.head_speed, made.time, made.delivered_loft, made.bend_loft, made.droop_angle),
        *(made.lead, made.droop, made.kick, made.attack, made.lag),
    ]


def limber(factor: float) -> ShaftBasis:
    stiffness = profile_of("reference")
    return swing_basis(beam_shapes(lambda x: factor * stiffness(x)), REFERENCE_SWUNG_HEAD)


@BOTH
def test_a_motion_replayed_on_its_own_shaft_is_the_swing_itself(player: Player) -> None:
    step = 1e-4
    own = swing(shaft(), player, step=step)
    again = replay(shaft(), grip_motion(shaft(), player, step=step))
    assert numbers(again)[:-1] == pytest.approx(numbers(own)[:-1], rel=1e-4)
    assert degrees(again.bend_loft) == pytest.approx(degrees(own.bend_loft), abs=1e-3)


@BOTH
def test_a_release_for_the_loft_it_has_is_the_swing_itself(player: Player) -> None:
    own = swing(shaft(), player)
    again = release_anew(shaft(), player, own.delivered_loft)
    assert numbers(again) == pytest.approx(numbers(own), rel=1e-4)


@BOTH
def test_a_release_anew_delivers_the_loft_asked_for(player: Player) -> None:
    wanted = swing(shaft(), player).delivered_loft
    made = release_anew(shaft("a"), player, wanted)
    assert degrees(made.delivered_loft) == pytest.approx(degrees(wanted), abs=1e-4)
    assert degrees(swing(shaft("a"), player).delivered_loft) != pytest.approx(
        degrees(wanted), abs=0.01
    )


@BOTH
def test_steps_and_places_are_fine_enough(player: Player) -> None:
    fine = swing(shaft(places=40), player, step=5e-5)
    for step in (4e-4, 2e-4):
        made = swing(shaft(), player, step=step)
        assert degrees(made.bend_loft) == pytest.approx(degrees(fine.bend_loft), abs=0.004)
        assert made.head_speed == pytest.approx(fine.head_speed, abs=0.004)
        assert degrees(made.droop_angle) == pytest.approx(degrees(fine.droop_angle), abs=0.004)


def test_two_modes_and_a_moment_are_shapes_enough() -> None:
    """Self-consistent with 4 modes: 0.006 degrees with the moment, 0.6 without, 1.2 with one."""
    lofts = {
        (modes, moment): degrees(
            swing(
                swing_basis(
                    beam_shapes(profile_of("reference"), modes=modes, moment=moment),
                    REFERENCE_SWUNG_HEAD,
                ),
                QUICK_LATE,
                step=5e-5,
            ).bend_loft
        )
        for modes, moment in ((1, 0), (2, 0), (2, 1), (3, 1))
    }
    assert lofts[2, 1] == pytest.approx(lofts[3, 1], abs=0.01)
    assert lofts[3, 1] - lofts[2, 0] == pytest.approx(0.6, abs=0.1)
    assert lofts[3, 1] - lofts[1, 0] == pytest.approx(1.2, abs=0.1)


def test_a_grip_goes_on_for_twenty_milliseconds() -> None:
    grip = grip_motion(shaft(), QUICK_LATE)
    times = 0.5 * STEP * np.arange(len(grip.rows))
    past = times[-1] - swing(shaft(), QUICK_LATE).time
    assert past == pytest.approx(AFTER, abs=STEP)
    assert grip.rows[0, :2].tolist() == [QUICK_LATE.start, QUICK_LATE.cock]
    rates = np.gradient(grip.rows[:, 0], times)
    assert rates[1:-1] == pytest.approx(grip.rows[1:-1, 2], abs=0.02)
    bends = np.gradient(grip.rows[:, 3], times)
    assert np.median(abs(bends - grip.rows[:, 5])[1:-1]) < 1.0


@BOTH
def test_the_softer_shaft_lags_more_and_droops_more(player: Player) -> None:
    soft, own = swing(shaft("a"), player), swing(shaft(), player)
    assert soft.lag > own.lag
    assert soft.droop < own.droop < 0.0
    assert 0.0 < own.lag_before < own.time


@BOTH
def test_a_shaft_that_hardly_bends_delivers_the_line_of_the_hands(player: Player) -> None:
    made = swing(limber(40.0), player, step=5e-5)
    assert abs(degrees(made.bend_loft)) < 0.3
    assert abs(made.kick) < 0.5


def late(player: Player) -> Player:
    return replace(player, hub_torque=1.0, wrist_torque=0.1)


@pytest.mark.parametrize(
    ("shaft_of", "player", "words"),
    [
        (shaft, late(QUICK_LATE), r"not come through to the ball within 0\.60 s"),
        (
            shaft,
            replace(QUICK_LATE, hub_speed=4.0, wrist_torque=9.9),
            r"comes through at 1\d\.\d m/s, not between 20 and 70",
        ),
        (shaft, paced(QUICK_LATE, 1.5), r"comes through at 7\d\.\d m/s, not between 20 and 70"),
        (lambda: limber(0.2), SMOOTH_EARLY, r"bent by \d\.\d\d rad at impact"),
    ],
)
def test_a_swing_that_cannot_be_is_refused(
    shaft_of: Callable[[], ShaftBasis], player: Player, words: str
) -> None:
    with pytest.raises(ConvergenceError, match=words):
        swing(shaft_of(), player)


def test_a_swing_whose_equations_break_down_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="mass matrix is no longer positive"):
        swing(shaft(), QUICK_LATE, step=0.02)


def test_a_record_that_ends_before_the_ball_is_refused() -> None:
    grip = grip_motion(shaft(), QUICK_LATE)
    short = replace(grip, rows=grip.rows[: len(grip.rows) // 2])
    with pytest.raises(ConvergenceError, match="not come through"):
        replay(shaft(), short)


def test_a_loft_no_release_delivers_is_refused_and_not_neared() -> None:
    own = swing(shaft(), QUICK_LATE)
    with pytest.raises(ConvergenceError, match="no such release"):
        release_anew(shaft(), QUICK_LATE, own.delivered_loft + 0.3)


@pytest.mark.parametrize("step", [0.0, -1e-4, nan, inf, 1.0])
def test_a_step_that_cannot_be_is_refused(step: float) -> None:
    with pytest.raises(InputError, match="step"):
        swing(shaft(), QUICK_LATE, step=step)

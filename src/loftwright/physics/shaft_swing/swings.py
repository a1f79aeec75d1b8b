"""One swing of a club, as a player's torques or a grip's motion drive it."""

from dataclasses import dataclass, replace
from math import ceil
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft_swing._steps import (
    NEVER_STRUCK,
    NOT_POSITIVE,
    Ended,
    swing_through,
)
from loftwright.physics.shaft_swing.basis import ShaftBasis
from loftwright.physics.shaft_swing.players import Player
from loftwright.physics.shaft_swing.struck import Swing, at_impact

STEP: Final = 4e-4
"""Of the integration [s]; a quarter of it changes loft by 0.003 degrees, speed by 0.002 m/s."""
LONGEST: Final = 0.6
"""A swing that has not struck by then is refused [s]."""
AFTER: Final = 0.020
"""How long a grip's motion is kept beyond impact, for shafts that come later [s]."""
IMPACT_LINE: Final = 0.08
"""The ball is this far before the hub, towards the target [m]."""


_WRIST_RANGE: Final = 0.3
_LOFT_ERROR: Final = 1e-5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GripMotion:
    """How a grip moved in a swing, at every half step.

    Attributes
    ----------
    player : Player
        Whose it is.
    step : float
        Whole step [s].
    rows : FloatArray, shape (2 k + 1, 6)
        theta and phi, their rates and their second derivatives.
    """

    player: Player
    step: float
    rows: FloatArray

    def __post_init__(self) -> None:
        object.__setattr__(self, "rows", frozen_array(self.rows))


def swing(shaft: ShaftBasis, player: Player, *, step: float = STEP) -> Swing:
    """Swing a club with a player's torques.

    Parameters
    ----------
    shaft : ShaftBasis
    player : Player
    step : float
        Of the integration [s].

    Returns
    -------
    Swing

    Raises
    ------
    ConvergenceError
        If the head does not come through within 0.6 s, at 20 to 70 m/s, with the shaft's end
        bent by at most 0.25 rad, or the equations break down.
    InputError
        If the step is not above 0.

    References
    ----------
    Kutta 1901: the fourth-order method.
    """
    ended, struck, _ = _run(shaft, player, _NO_GRIP, step, _steps(step), rows=0)
    return at_impact(shaft, player, ended, struck)


def grip_motion(shaft: ShaftBasis, player: Player, *, step: float = STEP) -> GripMotion:
    """Return how the grip moves in a player's swing, and 20 ms beyond impact.

    Parameters
    ----------
    shaft : ShaftBasis
    player : Player
    step : float
        With which another shaft is to be driven [s].

    Returns
    -------
    GripMotion

    Raises
    ------
    ConvergenceError, InputError
        As `swing`.
    """
    half = 0.5 * step
    steps = _steps(half)
    ended, struck, record = _run(shaft, player, _NO_GRIP, half, steps, rows=steps + 1)
    at_impact(shaft, player, ended, struck)
    size = struck.shape[0] // 2
    columns = [first + i for first in (0, size, 2 * size) for i in range(2)]
    rows = record[: ended.steps - (ended.steps + 1) % 2, columns]
    return GripMotion(player=player, step=step, rows=rows)


def replay(shaft: ShaftBasis, grip: GripMotion) -> Swing:
    """Swing a club whose grip moves as recorded, whatever the shaft does.

    Parameters
    ----------
    shaft : ShaftBasis
    grip : GripMotion
        Of another shaft, or the same.

    Returns
    -------
    Swing

    Raises
    ------
    ConvergenceError
        As `swing`; also if the head is not through when the record ends.

    References
    ----------
    McNally 2018, M.A.Sc. thesis, University of Waterloo (abstract): a club driven by the measured
        motion of the grips of ten elite golfers bent as measured.
    """
    # The last stages of a step look half a step and a step ahead.
    steps = (grip.rows.shape[0] - 3) // 2
    ended, struck, _ = _run(shaft, grip.player, grip.rows, grip.step, steps, rows=0)
    return at_impact(shaft, grip.player, ended, struck)


def release_anew(
    shaft: ShaftBasis, player: Player, delivered_loft: float, *, step: float = STEP
) -> Swing:
    """Swing a club with the wrists driving so that a loft is delivered.

    Parameters
    ----------
    shaft : ShaftBasis
    player : Player
        Whose wrist torque is the middle of what is searched, 30 % to each side.
    delivered_loft : float
        In the plane of the swing, as `Swing.delivered_loft` [rad].
    step : float
        [s]

    Returns
    -------
    Swing

    Raises
    ------
    ConvergenceError
        If no wrist torque in that range delivers the loft; otherwise as `swing`.
    InputError
        If the step is not above 0.
    """
    from scipy.optimize import brentq  # noqa: PLC0415 - scipy is slow to import

    def missed(torque: float) -> float:
        made = swing(shaft, replace(player, wrist_torque=torque), step=step)
        return made.delivered_loft - delivered_loft

    least, greatest = sorted(
        player.wrist_torque * share for share in (1.0 - _WRIST_RANGE, 1.0 + _WRIST_RANGE)
    )
    at_least, at_greatest = missed(least), missed(greatest)
    if not at_least * at_greatest < 0.0:
        raise ConvergenceError(
            f"no such release: wrist torques from {least:.1f} to {greatest:.1f} N m miss the "
            f"loft by {at_least / DEGREE:+.2f} to {at_greatest / DEGREE:+.2f} degrees.",
            place="release",
            mend="Take the shafts as held by torque and by motion; do not retune this one.",
        )
    torque = float(brentq(missed, least, greatest, xtol=_LOFT_ERROR * abs(player.wrist_torque)))
    return swing(shaft, replace(player, wrist_torque=torque), step=step)


_NO_GRIP: Final = frozen_array(np.zeros((0, 6)))


def _steps(step: float) -> int:
    if not 0.0 < step <= LONGEST:
        raise InputError(
            f"a step of {step:g} s cannot be: above 0 and at most {LONGEST} s.",
            place="step",
            mend=f"{STEP} s is fine enough.",
        )
    return ceil(LONGEST / step - 1e-9)


def _run(
    shaft: ShaftBasis, player: Player, driven: FloatArray, step: float, steps: int, *, rows: int
) -> tuple[Ended, FloatArray, FloatArray]:
    size = 2 + 2 * len(shaft.frequencies)
    struck, record = np.zeros(2 * size), np.zeros((rows, 3 * size))
    ended = swing_through(
        shaft.numbers,
        player.numbers,
        driven,
        float(step),
        steps,
        IMPACT_LINE,
        ceil(AFTER / step - 1e-9),
        struck,
        record,
    )
    if ended.status == NOT_POSITIVE:
        raise ConvergenceError(
            f"the mass matrix is no longer positive {ended.time:.3f} s after the change of "
            "direction: the equations do not hold for so much bend.",
            place="swing",
            mend="Look at the stiffness of the shaft and its unit.",
        )
    if ended.status == NEVER_STRUCK:
        raise ConvergenceError(
            f"the head has not come through to the ball within {steps * step:.2f} s.",
            place="swing",
            mend="The player is too weak or lets go too late for this club.",
        )
    return ended, struck, record

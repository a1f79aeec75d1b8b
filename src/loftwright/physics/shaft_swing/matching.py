"""Players matched to a golfer: the face square at impact, the golfer's own head speed."""

from dataclasses import replace
from typing import Final

from loftwright.constants import MILE_PER_HOUR
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft_swing.basis import ShaftBasis
from loftwright.physics.shaft_swing.players import Player, paced
from loftwright.physics.shaft_swing.struck import SPEEDS
from loftwright.physics.shaft_swing.swings import STEP, swing

_ROUNDS: Final = 40
_SPEED_ERROR: Final = 1e-4
_ANGLE_ERROR: Final = 1e-6


def squared(player: Player, own: ShaftBasis, *, step: float = STEP) -> Player:
    """Return a player whose face is square at impact with a shaft.

    Parameters
    ----------
    player : Player
    own : ShaftBasis
        The golfer's own shaft, with the head.
    step : float
        Of the integration [s].

    Returns
    -------
    Player

    Raises
    ------
    ConvergenceError
        If no wrist angle squares the face, or as `swing`.
    """
    for _ in range(_ROUNDS):
        angle = swing(own, player, step=step).wrist_angle
        if abs(angle - player.square) < _ANGLE_ERROR:
            return player
        player = replace(player, square=angle)
    raise _unmatched("the face does not come square")


def matched(player: Player, own: ShaftBasis, head_speed: float, *, step: float = STEP) -> Player:
    """Return a player paced to a golfer's head speed, with the face square at impact.

    Parameters
    ----------
    player : Player
        One of `PLAYERS`.
    own : ShaftBasis
        The golfer's own shaft, with the head.
    head_speed : float
        The golfer's own with it [m s^-1].
    step : float
        Of the integration [s].

    Returns
    -------
    Player

    Raises
    ------
    InputError
        If the speed is not between 20 and 70 m/s.
    ConvergenceError
        If no pace gives it, or as `swing`.

    Notes
    -----
    The head's centre of gravity stands for the face centre: their speeds differ by about 1 %,
    and differences of shafts by less.
    """
    if not SPEEDS[0] <= head_speed <= SPEEDS[1]:
        raise InputError(
            f"a head speed of {head_speed:.1f} m/s ({head_speed / MILE_PER_HOUR:.0f} mph) is not "
            f"between {SPEEDS[0]:.0f} and {SPEEDS[1]:.0f} m/s.",
            place="head speed",
            mend="Look at its unit.",
        )
    for _ in range(_ROUNDS):
        made = swing(own, player, step=step)
        off = abs(made.wrist_angle - player.square)
        if abs(made.head_speed - head_speed) < _SPEED_ERROR and off < _ANGLE_ERROR:
            return player
        player = paced(replace(player, square=made.wrist_angle), head_speed / made.head_speed)
    raise _unmatched(f"a head speed of {head_speed:.2f} m/s is not reached")


def _unmatched(what: str) -> ConvergenceError:
    return ConvergenceError(
        f"{what} within {_ROUNDS} swings.",
        place="player",
        mend="Look at the shaft the golfer came with.",
    )

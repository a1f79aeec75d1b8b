"""What virtual clubs do to a swing: nothing but shift its delivery and its strike."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import MILE_PER_HOUR, MILLIMETRE
from loftwright.domain.names import OWN, TREES
from loftwright.errors import InputError
from loftwright.training.golfer import HEAD_SPEED, SWING_UNITS, TOE

CLUB_NAMES: Final = (OWN, *TREES)
CLUB_SPREAD: Final[FloatArray] = frozen_array(
    np.array([0.3, 0.2, 0.5, 0.5, 0.5, 0.75, 0.75]) * SWING_UNITS
)
"""Standard deviation of what a club does to each swing column; a judgement, in mph, degrees and
millimetres."""

MOVED_STRIKE_SPREAD: Final = 1.5 * MILLIMETRE
MOVED_SPEED_SPREAD: Final = 0.5 * MILE_PER_HOUR


def make_clubs(
    count: int,
    rng: np.random.Generator,
    *,
    strength: float = 1.0,
    no_difference: bool = False,
    moves_strike: bool = False,
) -> FloatArray:
    """Draw what each club of a fitting does to the swing.

    Parameters
    ----------
    count : int
        Clubs, the golfer's own first.
    rng : numpy.random.Generator
        Draws the same numbers whatever the other arguments.
    strength : float, optional
        Multiplies every shift.
    no_difference : bool, optional
        All clubs the same.
    moves_strike : bool, optional
        Strike and head speed shift twice and almost twice as far as usual.

    Returns
    -------
    FloatArray, shape (count, 7)
        Shifts in swing columns.

    Raises
    ------
    InputError
        If so many clubs have no names, or the strength is negative.

    Notes
    -----
    The own club is drawn like the others: the golfer's mean swing is that with an average club,
    not with the own one, so that every pair of clubs differs alike.
    """
    if not 2 <= count <= len(CLUB_NAMES):
        raise InputError(
            f"{count} clubs cannot be dealt", place="clubs", mend=f"Give 2 to {len(CLUB_NAMES)}."
        )
    if not 0.0 <= strength <= 100.0:
        raise InputError(f"{strength:g} is no strength", place="strength", mend="Give 0 to 100.")
    spread = CLUB_SPREAD.copy()
    if moves_strike:
        spread[HEAD_SPEED] = MOVED_SPEED_SPREAD
        spread[TOE:] = MOVED_STRIKE_SPREAD
    shifts = rng.standard_normal((count, 7)) * spread * strength
    return np.zeros_like(shifts) if no_difference else shifts

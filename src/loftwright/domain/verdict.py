"""Three verdicts: a reading is on one side, on the other, or too close to tell.

References
----------
JCGM 106:2012, guard bands for decisions on a measured value (from memory).
"""

from dataclasses import dataclass
from enum import StrEnum
from math import isfinite

from loftwright.errors import InputError

EXACTLY = 1e-12
"""Of a figure's size; ends that meet within it meet, whatever rounding says."""


class Side(StrEnum):
    """Where a reading lies by a published limit."""

    BELOW = "below"
    ABOVE = "above"
    TOO_CLOSE = "too_close"


class Fit(StrEnum):
    """Whether a reading lies within the tolerance of its target."""

    IN = "in"
    OUT = "out"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A measured figure.

    Attributes
    ----------
    value : float
    half_width : float
        Of the range that holds the true figure 95 times in 100.
    """

    value: float
    half_width: float

    def __post_init__(self) -> None:
        if not isfinite(self.value):
            raise InputError(
                f"{self.value} is no reading", place="value", mend="Give a finite number."
            )
        if not (isfinite(self.half_width) and self.half_width > 0.0):
            raise InputError(
                "a reading without a doubt cannot be",
                place="u95",
                mend="Give half the width of the range that holds it 95 times in 100.",
            )


def side_of(reading: Reading, limit: float) -> Side:
    """Return where a reading lies by an upper limit, its whole range considered.

    Parameters
    ----------
    reading : Reading
    limit : float
        In the reading's unit. The range may touch it and is then below.

    Notes
    -----
    Below is a reading whose range ends at the limit or before it; above one whose range begins
    beyond it. All else is too close to call.
    """
    slack = EXACTLY * max(abs(limit), abs(reading.value))
    if reading.value + reading.half_width <= limit + slack:
        return Side.BELOW
    if reading.value - reading.half_width > limit + slack:
        return Side.ABOVE
    return Side.TOO_CLOSE


def side_of_least(reading: Reading, limit: float) -> Side:
    """Return where a reading lies by a lower limit, its whole range considered.

    Parameters
    ----------
    reading : Reading
    limit : float
        In the reading's unit. The range may touch it and is then above.
    """
    mirrored = Reading(value=-reading.value, half_width=reading.half_width)
    turned = {Side.BELOW: Side.ABOVE, Side.ABOVE: Side.BELOW}
    found = side_of(mirrored, -limit)
    return turned.get(found, found)


def fit_of(reading: Reading, target: float, tolerance: float) -> Fit:
    """Return whether a reading lies within the tolerance of its target, its range considered.

    Parameters
    ----------
    reading : Reading
    target, tolerance : float
        In the reading's unit.
    """
    if not (isfinite(tolerance) and tolerance > 0.0):
        raise InputError(
            f"a tolerance of {tolerance:g} cannot be",
            place="tolerance",
            mend="Give how far it may be off to either side, more than nothing.",
        )
    off = abs(reading.value - target)
    slack = EXACTLY * max(abs(target), abs(reading.value))
    if off + reading.half_width <= tolerance + slack:
        return Fit.IN
    if off - reading.half_width > tolerance + slack:
        return Fit.OUT
    return Fit.CANNOT_TELL


def too_tight(reading: Reading, tolerance: float) -> bool:
    """Return whether a tolerance is tighter than the bench can tell: twice its standard error."""
    return tolerance < reading.half_width * (1.0 - EXACTLY)

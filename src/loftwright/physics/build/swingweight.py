"""Swingweight: a club's moment about a fulcrum 14 inches from its butt, by letter and number.

It is a static moment, no inertia: two clubs of one swingweight may swing differently.

References
----------
Fulcrum, letters and numbers, A0 the lightest: published descriptions of the scale, seen. One
point is 50 g in: Tutelman, Golf club design, swingweight, seen; 1.75 oz in is 49.6 g in. That D0
is 213.5 oz in is from memory: no page seen says it, so that a club read on the shop's own scale
may take its place.
"""

import re
from dataclasses import dataclass
from math import floor, hypot, isfinite
from typing import Final

from loftwright.constants import GRAM, INCH, OUNCE_INCH
from loftwright.errors import InputError

FULCRUM: Final = 14.0 * INCH
OFFICIAL_FULCRUM: Final = 12.0 * INCH
POINT: Final = 1.75 * OUNCE_INCH
D0_MOMENT: Final = 213.5 * OUNCE_INCH
"""From memory; a calibration club replaces it."""

D0_INDEX: Final = 30.0
LETTERS: Final = "ABCDEFG"
HIGHEST: Final = 70.0
"""G10, the top of the scale; some lists end at G9."""

OFF_SCALE: Final = "off scale"
_HALF_UP: Final = 1e-9
_WRITTEN: Final = re.compile(r"([A-G])\s*(\d{1,2}(?:\.\d+)?)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class SwingweightScale:
    """A swingweight scale.

    Attributes
    ----------
    d0_moment : float
        At which it reads D0 [kg m].
    calibrated : bool
        Whether a club read on the shop's own scale has set it.
    """

    d0_moment: float = D0_MOMENT
    calibrated: bool = False

    def index(self, moment: float) -> float:
        """Return the points above A0 of a moment about the fulcrum [kg m]."""
        return D0_INDEX + (moment - self.d0_moment) / POINT

    def moment(self, index: float) -> float:
        """Return the moment about the fulcrum of so many points above A0 [kg m]."""
        return self.d0_moment + (index - D0_INDEX) * POINT


USUAL_SCALE: Final = SwingweightScale()


def calibrated_scale(mass: float, balance: float, reads: float) -> SwingweightScale:
    """Return the shop's own scale from one club that was weighed, balanced and read on it.

    Parameters
    ----------
    mass, balance : float
        Of the calibration club, its balance point from the top of the grip [kg, m].
    reads : float
        What the scale says of it, in points above A0.

    Raises
    ------
    InputError
        If the reading lies more than 10 points from the usual scale: then one of the three
        figures is wrong.
    """
    moment = mass * (balance - FULCRUM)
    usual = USUAL_SCALE.index(moment)
    if not abs(usual - reads) <= 10.0:
        raise InputError(
            f"a calibration club of {mass / GRAM:.1f} g that balances at "
            f"{balance / INCH:.2f} in is {letters(usual)} on the usual scale, not "
            f"{letters(reads)}",
            place="calibration club",
            mend="Weigh, balance and read it again: scales differ by a few points, not by ten.",
        )
    shift = (D0_INDEX - reads) * POINT
    return SwingweightScale(d0_moment=moment + shift, calibrated=True)


def letters(index: float) -> str:
    """Return points above A0 as letter and number with one decimal, such as `D2.2`.

    Rounded half up before it is split, so that C9.96 is D0.0; `OFF_SCALE` below A0 and above G10.
    """
    if not isfinite(index):
        return OFF_SCALE
    tenths = floor(10.0 * index + 0.5 + _HALF_UP)
    if not 0 <= tenths <= 10.0 * HIGHEST:
        return OFF_SCALE
    letter = min(tenths // 100, len(LETTERS) - 1)
    rest = tenths - 100 * letter
    return f"{LETTERS[letter]}{rest // 10}.{rest % 10}"


def index_of(text: str) -> float:
    """Return the points above A0 of a swingweight as it is written, such as `D2` or `C9.5`.

    Raises
    ------
    InputError
        If it is none.
    """
    match = _WRITTEN.fullmatch(text.strip())
    number = float(match[2]) if match is not None else 0.0
    last = match is not None and match[1].upper() == LETTERS[-1]
    if match is None or number > (10.0 if last else 9.999):
        raise InputError(
            f"{text!r} is no swingweight",
            place="swingweight",
            mend="Write a letter from A to G and 0 to 9.9, such as D2 or D2.5; G goes to 10.",
        )
    return 10.0 * LETTERS.index(match[1].upper()) + number


def swingweight_error(
    mass: float, balance: float, mass_error: float, balance_error: float
) -> float:
    """Return the standard error of points from a club's weight and balance point.

    Parameters
    ----------
    mass, balance : float
        [kg, m]
    mass_error, balance_error : float
        Their standard errors [kg, m].
    """
    return hypot((balance - FULCRUM) * mass_error, mass * balance_error) / POINT

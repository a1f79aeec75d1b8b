"""How a figure is written for people: SI in, the trade's units and digits out.

Levels carry no sign, differences always do; left and right are letters, never signs.
"""

from math import isfinite
from typing import Final

from loftwright.constants import (
    DEGREE,
    FOOT,
    MILE_PER_HOUR,
    REVOLUTION_PER_MINUTE,
    YARD,
)
from loftwright.evidence.result import Estimate

MINUS: Final = "\N{MINUS SIGN}"
NONE: Final = "–"
"""Stands where there is no figure."""

LIKELY_RANGE: Final = 0.90
"""A range in words holds nine times in ten."""


def fixed(value: float, digits: int = 0) -> str:
    """Return a figure with so many decimals, a true minus sign and no minus zero.

    A figure that is not known is a dash.
    """
    if not isfinite(value):
        return NONE
    text = f"{value:.{digits}f}"
    if float(text) == 0.0:
        return text.removeprefix("-")
    return text.replace("-", MINUS)


def signed(value: float, digits: int = 1) -> str:
    """Return a difference: always a sign, none on zero."""
    text = fixed(value, digits)
    if float(text.replace(MINUS, "-")) == 0.0:
        return text
    return text if text.startswith(MINUS) else f"+{text}"


def yards(length: float) -> str:
    """Return a length [m] in whole yards."""
    return f"{fixed(length / YARD)} yd"


def yards_apart(length: float) -> str:
    """Return a difference of lengths [m] in yards to one decimal, with its sign."""
    return f"{signed(length / YARD)} yd"


def carry_and_run(carry: float, total: float) -> tuple[str, str]:
    """Return carry and run [m] in whole yards that add up to the total in whole yards."""
    carried = fixed(carry / YARD)
    if not (isfinite(carry) and isfinite(total)):
        return carried, NONE
    return carried, fixed(round(total / YARD) - round(carry / YARD))


def side(offset: float) -> str:
    """Return how far to the side [m], right positive, in whole yards with L or R."""
    whole = fixed(abs(offset) / YARD)
    if whole in {"0", NONE}:
        return whole
    return f"{whole} {'R' if offset > 0.0 else 'L'}"


def speed(value: float) -> str:
    """Return a speed [m s^-1] in miles an hour to one decimal."""
    return f"{fixed(value / MILE_PER_HOUR, 1)} mph"


def angle(value: float) -> str:
    """Return an angle [rad] in degrees to one decimal."""
    return f"{fixed(value / DEGREE, 1)}\N{DEGREE SIGN}"


def spin(rate: float) -> str:
    """Return a spin rate [rad s^-1] to ten revolutions a minute."""
    return f"{fixed(round(rate / REVOLUTION_PER_MINUTE / 10.0) * 10.0)} rpm"


def height(value: float) -> str:
    """Return a height [m] in whole feet."""
    return f"{fixed(value / FOOT)} ft"


def percent(share: float) -> str:
    """Return a share or probability in whole per cent, never 0 or 100 for a doubt."""
    whole = min(max(round(100.0 * share), 1), 99) if 0.0 < share < 1.0 else round(100.0 * share)
    return f"{whole} %"


def yards_range(estimate: Estimate, probability: float = LIKELY_RANGE) -> str:
    """Return the range of a difference of lengths as `+0.9 to +9.9`."""
    low, high = estimate.interval(probability)
    return f"{signed(low / YARD)} to {signed(high / YARD)}"


def side_range(centre: float, low: float, high: float) -> str:
    """Return a place to the side with its range as `3 L (6 L to 0)`; lengths in metres."""
    return f"{side(centre)} ({side(low)} to {side(high)})"


def count(number: int, one: str, many: str | None = None) -> str:
    """Return a number with its noun: `1 ball`, `3 balls`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def listed(names: list[str] | tuple[str, ...], last: str = "and") -> str:
    """Return names as a list in words: `Ash, Birch and Cedar`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"

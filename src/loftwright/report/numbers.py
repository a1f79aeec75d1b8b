"""How figures, shares, counts and lists are written for people, whatever their units.

What is in a unit is written by `screen_numbers`. Levels carry no sign, differences always do.
"""

from math import isfinite
from typing import Final

from loftwright.constants import REVOLUTION_PER_MINUTE

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


def spin(rate: float) -> str:
    """Return a spin rate [rad s^-1] to ten revolutions a minute."""
    return f"{fixed(round(rate / REVOLUTION_PER_MINUTE / 10.0) * 10.0)} rpm"


def percent(share: float) -> str:
    """Return a share or probability in whole per cent, never 0 or 100 for a doubt."""
    whole = min(max(round(100.0 * share), 1), 99) if 0.0 < share < 1.0 else round(100.0 * share)
    return f"{whole} %"


def count(number: int, one: str, many: str | None = None) -> str:
    """Return a number with its noun: `1 ball`, `3 balls`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def listed(names: list[str] | tuple[str, ...], last: str = "and") -> str:
    """Return names as a list in words: `Ash, Birch and Cedar`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"

"""Graduated rules and the ranges that stand on them, for charts and drawings alike."""

from dataclasses import dataclass
from math import ceil, floor, log10


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A graduated rule: where it begins and ends, and what stands on it.

    Attributes
    ----------
    low, high : float
        Ends, on a tick each.
    step : float
        From one numeral to the next: 1, 2 or 5 times a power of ten.
    long, short : tuple of float
        Ticks with and without a numeral.
    """

    low: float
    high: float
    step: float
    long: tuple[float, ...]
    short: tuple[float, ...]


def graduate(low: float, high: float, wanted: int = 5) -> Rule:
    """Return a rule that covers a range with round numbers.

    Parameters
    ----------
    low, high : float
        The range, `low < high`.
    wanted : int
        About how many numerals there should be.
    """
    raw = (high - low) / wanted
    power = 10.0 ** floor(log10(raw))
    factor = next(f for f in (1.0, 2.0, 5.0, 10.0) if f * power >= raw - 1e-12)
    parts = 4 if factor == 2.0 else 5
    fine = factor * power / parts
    first, last = floor(low / fine + 1e-9), ceil(high / fine - 1e-9)
    marks = range(first, last + 1)
    return Rule(
        low=first * fine,
        high=last * fine,
        step=factor * power,
        long=tuple(fine * index for index in marks if index % parts == 0),
        short=tuple(fine * index for index in marks if index % parts),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeRow:
    """One club's figure with the two ranges that a chart of ranges draws, in trade units.

    Attributes
    ----------
    club : str
        The name in full, the key of its mark.
    label : str
        The name as it is printed.
    mean : float
        Best estimate.
    half, most : (float, float)
        The range of half the chance, and that of nine chances in ten.
    dashed : bool
        Too few balls for a marker: the range alone is drawn, dashed.
    """

    club: str
    label: str
    mean: float
    half: tuple[float, float]
    most: tuple[float, float]
    dashed: bool = False

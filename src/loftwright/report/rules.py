"""Graduated rules drawn with letters: a range is a line, its best guess a point on it."""

from dataclasses import dataclass
from math import ceil, floor
from typing import Final

from loftwright.evidence.result import Estimate
from loftwright.report.numbers import LIKELY_RANGE
from loftwright.report.screen_numbers import TRADE, Show

POINT: Final = "●"
OWN_POINT: Final = "○"
_STEPS: Final = (0.5, 1, 2, 5, 10, 20, 50, 100, 200)
_MOST_STEPS: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A scale in yards or metres over so many characters.

    Attributes
    ----------
    low, high : float
        Ends of the rule.
    step : float
        From one long tick to the next.
    width : int
        Characters.
    show : Show
        Its unit, and the decimal mark of its numerals.
    """

    low: float
    high: float
    step: float
    width: int
    show: Show = TRADE

    @property
    def unit(self) -> float:
        """Size of its unit [m]."""
        return self.show.unit("distance").scale

    def place(self, value: float) -> int:
        """Return the character at which a figure in the rule's unit stands."""
        share = (value - self.low) / (self.high - self.low)
        return min(max(round(share * (self.width - 1)), 0), self.width - 1)


def rule_over(estimates: list[Estimate], width: int, show: Show = TRADE) -> Rule:
    """Return a rule with round ends that holds all likely ranges and zero."""
    ends = [0.0]
    unit = show.unit("distance").scale
    for estimate in estimates:
        ends += [end / unit for end in estimate.interval(LIKELY_RANGE)]
    low, high = min(ends), max(ends)
    step = next((step for step in _STEPS if (high - low) / step <= _MOST_STEPS), _STEPS[-1])
    first, last = floor(low / step), ceil(high / step)
    if first == last:
        first, last = first - 1, last + 1
    return Rule(low=first * step, high=last * step, step=step, width=width, show=show)


def strip(rule: Rule, estimate: Estimate, *, own: bool = False) -> str:
    """Return a range on a rule, with the line of zero."""
    cells = [" "] * rule.width
    low, high = (rule.place(end / rule.unit) for end in estimate.interval(LIKELY_RANGE))
    if not own:
        cells[low : high + 1] = "─" * (high - low + 1)
    zero = rule.place(0.0)
    cells[zero] = "┼" if low <= zero <= high and not own else "│"
    cells[rule.place(estimate.mean / rule.unit)] = OWN_POINT if own else POINT
    return "".join(cells)


def graduations(rule: Rule) -> tuple[str, str]:
    """Return the rule itself and the numerals under its long ticks."""
    ticks = ["─"] * rule.width
    numerals = [" "] * (rule.width + 8)
    count = round((rule.high - rule.low) / rule.step)
    for index in range(count + 1):
        value = rule.low + index * rule.step
        at = rule.place(value)
        ticks[at] = "┴"
        text = rule.show.signed(value, 0 if rule.step >= 1 else 1)
        start = max(at - len(text) // 2, 0)
        if not "".join(numerals[max(start - 1, 0) : start + len(text)]).strip():
            numerals[start : start + len(text)] = text
    return "".join(ticks), "".join(numerals).rstrip()

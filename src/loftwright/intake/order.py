"""Puts swings in their order of play: that of the rows, unless the user says the ball number."""

import itertools
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.errors import IntakeError
from loftwright.intake.body import Row
from loftwright.intake.cells import clean
from loftwright.intake.columns import Plan
from loftwright.intake.doubts import Doubt, quoted_option

_CLOCK: Final = re.compile(
    r"(?<!\d)(\d{1,2})[:h.](\d{2})(?:[:m.](\d{2}(?:[.,]\d+)?))?\s*(am|pm|a\.m\.|p\.m\.)?",
    re.IGNORECASE,
)
_HALF_DAY: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The order of play of a table's rows, and what is open about it.

    Attributes
    ----------
    places : tuple of int
        Indices of the rows in order of play.
    doubts : tuple of Doubt
        Ball numbers or times that disagree with it.
    """

    places: tuple[int, ...]
    doubts: tuple[Doubt, ...]


def ball_number(text: str) -> float | None:
    """Return the number in a cell of ball numbers, or None."""
    match = re.fullmatch(r"\D{0,12}?(\d{1,9}(?:[.,]0+)?)\D{0,3}", clean(text[:80]))
    return float(match[1].replace(",", ".")) if match is not None else None


def clock(text: str) -> float | None:
    """Return the seconds of the day in a cell of times, or None."""
    plain = clean(text[:80])
    # A date with points would look like a clock: it goes first.
    plain = re.sub(r"\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}\.?", " ", plain)
    match = _CLOCK.search(plain)
    if match is None:
        return None
    hours, minutes = int(match[1]), int(match[2])
    seconds = float((match[3] or "0").replace(",", "."))
    half = (match[4] or "").casefold()[:1]
    if half == "p" and hours < _HALF_DAY:
        hours += _HALF_DAY
    if half == "a" and hours == _HALF_DAY:
        hours = 0
    return hours * 3600.0 + minutes * 60.0 + seconds if hours < 24 and minutes < 60 else None


def _falls(values: Sequence[tuple[int, float]]) -> tuple[int, int] | None:
    """Return the first two places between which values fall, or None."""
    for (place, before), (after_place, after) in itertools.pairwise(values):
        if after < before:
            return place, after_place
    return None


def _restarts(values: Sequence[tuple[int, float]]) -> bool:
    """Whether ball numbers only ever fall back to their start, as a new set of balls does."""
    start = values[0][1]
    return start in {0.0, 1.0} and all(
        after >= before or after == start for (_, before), (_, after) in itertools.pairwise(values)
    )


def _doubt(plan: Plan, rows: Sequence[Row], fall: tuple[int, int], ways: tuple[str, ...]) -> Doubt:
    lines = [(rows[place].line, rows[place].cells[plan.index]) for place in fall]
    before = max(fall[0] - 1, 0)
    if before not in fall:
        lines.insert(0, (rows[before].line, rows[before].cells[plan.index]))
    return Doubt(
        column=plan.name,
        question=f"{plan.name!r} does not follow the order of the rows (it falls at row "
        f"{rows[fall[1]].line})",
        samples=tuple(lines[:3]),
        options=ways,
    )


def _numbers(rows: Sequence[Row], plan: Plan) -> list[tuple[int, float]]:
    read = ball_number if plan.means == "ball" else clock
    found = [(place, read(row.cells[plan.index])) for place, row in enumerate(rows)]
    return [(place, value) for place, value in found if value is not None]


def find_order(rows: Sequence[Row], plans: Sequence[Plan]) -> Order:
    """Return the order of play.

    Parameters
    ----------
    rows : sequence of Row
        The swings, in the order of the file.
    plans : sequence of Plan
        The columns; a ball column settled by the user gives the order.

    Raises
    ------
    IntakeError
        When the order is to be that of ball numbers which repeat or are missing.
    """
    balls = [plan for plan in plans if plan.means == "ball"]
    times = [plan for plan in plans if plan.means == "time"]
    places = list(range(len(rows)))
    doubts = []
    settled = [plan for plan in (*balls, *times) if plan.settled]
    if settled:
        places = _sorted(rows, settled[0])
    played = [rows[place] for place in places]
    for plan in (*balls[:1], *times):
        if plan.settled:
            continue
        values = _numbers(played, plan)
        fall = _falls(values)
        if fall is None or (plan.means == "ball" and _restarts(values)):
            continue
        ways = [quoted_option("--column", f"{plan.name}=ignore")]
        if len({value for _, value in values}) == len(rows):
            ways.insert(0, quoted_option("--column", f"{plan.name}={plan.means}"))
        doubts.append(_doubt(plan, played, fall, tuple(ways)))
    return Order(places=tuple(places), doubts=tuple(doubts))


def _sorted(rows: Sequence[Row], plan: Plan) -> list[int]:
    values = dict(_numbers(rows, plan))
    by_rows = quoted_option("--column", f"{plan.name}=ignore")
    if len(values) < len(rows):
        missing = next(row.line for place, row in enumerate(rows) if place not in values)
        raise IntakeError(
            f"the order is to be that of {plan.name!r}, but row {missing} has none",
            place=f"row {missing}",
            mend=f"Let the rows give the order: {by_rows}.",
        )
    if plan.means == "ball" and len(set(values.values())) < len(rows):
        if _falls(sorted(values.items())) is None or _restarts(sorted(values.items())):
            return list(range(len(rows)))
        raise IntakeError(
            f"the order is to be that of {plan.name!r}, but its numbers repeat",
            place=plan.name,
            mend=f"Let the rows give the order: {by_rows}.",
        )
    return sorted(range(len(rows)), key=lambda place: values[place])

"""Finds rows that sum up other rows: averages, spreads and extremes at the foot of a table."""

import itertools
import math
import re
from collections.abc import Sequence
from typing import Final

from loftwright.domain.shot import Refusal
from loftwright.intake.body import Row
from loftwright.intake.cells import clean
from loftwright.intake.columns import Plan
from loftwright.intake.numbers import NumberColumn
from loftwright.intake.vocabulary_small import SUMS, SUMS_ALONE, SUMS_BY_PLACE
from loftwright.intake.words import strip_accents

# A ball that equals the mean of others by chance in so many binary digits is one in a million.
_DIGITS_NEEDED: Final = 20.0


def _words(cell: str) -> list[str]:
    return strip_accents(clean(cell)).replace(".", " ").replace(":", " ").split()


def _label(row: Row, plans: Sequence[Plan]) -> str:
    """Return the cell by which a row calls itself an average, or nothing."""
    for plan in plans:
        if plan.numeric or plan.means in {"note", "feel", "read", "mark set"}:
            continue
        words = _words(row.cells[plan.index])
        if not 0 < len(words) <= 3:
            continue
        counts = plan.means in {"ball", "time"} or plan.index == 0
        alone = " ".join(words)
        sums_up = SUMS.intersection(words) or alone in SUMS_ALONE
        if sums_up or (counts and alone in SUMS_BY_PLACE):
            return row.cells[plan.index]
    return ""


def _without_names(labels: Sequence[str]) -> list[str]:
    """Return labels of sums, empty for those that stand row after row or row about: names."""
    near = [*itertools.pairwise(labels), *zip(labels, labels[2:], strict=False)]
    names = {one for one, other in near if one == other}
    return ["" if label in names else label for label in labels]


def _step(text: str) -> float:
    """Return half the last digit of a number as written."""
    match = re.search(r"[.,](\d+)", clean(text))
    return 0.5 * 10.0 ** -len(match[1]) if match is not None else 0.5


class _Sums:
    """Running sums of every column over the rows since a start."""

    def __init__(self, width: int) -> None:
        self.totals = [0.0] * width
        self.lowest = [float("inf")] * width
        self.highest = [float("-inf")] * width
        self.counts = [0] * width

    def add(self, values: Sequence[float | None]) -> None:
        """Take one row in."""
        for place, value in enumerate(values):
            if value is not None:
                self.totals[place] += value
                self.counts[place] += 1
                self.lowest[place] = min(self.lowest[place], value)
                self.highest[place] = max(self.highest[place], value)

    def equals(self, values: Sequence[float | None], steps: Sequence[float]) -> bool:
        """Whether a row is the mean of at least two rows, in more digits than chance gives."""
        digits = 0.0
        for place, value in enumerate(values):
            if value is None or self.counts[place] < 2:
                continue
            spread = self.highest[place] - self.lowest[place]
            if spread <= 4.0 * steps[place]:
                continue
            mean = self.totals[place] / self.counts[place]
            if abs(mean - value) > steps[place] * 1.02 + 1e-9 * abs(mean):
                return False
            digits += math.log2(spread / (2.0 * steps[place]))
        return digits >= _DIGITS_NEEDED


def foot_rows(
    rows: Sequence[Row], plans: Sequence[Plan], columns: Sequence[NumberColumn]
) -> list[Refusal]:
    """Return the rows that sum up others, each with its reason.

    Parameters
    ----------
    rows : sequence of Row
        The rows of the table.
    plans : sequence of Plan
        Its columns.
    columns : sequence of NumberColumn
        Its numbers; counting columns left out.
    """
    club = next((plan.index for plan in plans if plan.means == "club"), None)
    whole, block = _Sums(len(columns)), _Sums(len(columns))
    previous = ""
    refused = []
    labels = _without_names([_label(row, plans) for row in rows])
    for place, row in enumerate(rows):
        if labels[place]:
            refused.append(Refusal(row=row.line, why=f"sums up other rows ({labels[place]!r})"))
            continue
        values = [column.values[place] for column in columns]
        steps = [_step(row.cells[column.plan.index]) for column in columns]
        name = row.cells[club] if club is not None else ""
        # At a club's end its average may stand under the same name or under none.
        if block.equals(values, steps) or whole.equals(values, steps):
            refused.append(Refusal(row=row.line, why="is the average of the rows above it"))
            continue
        if name != previous:
            block = _Sums(len(columns))
        previous = name
        block.add(values)
        whole.add(values)
    return refused

"""Reads a column of numbers: its cells, its decimal mark, the sides its cells name."""

import itertools
import re
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from loftwright.intake.body import Row
from loftwright.intake.cells import Cell, decimal_evidence, decimal_of, is_blank, read_cell
from loftwright.intake.columns import Plan
from loftwright.intake.options import Handedness
from loftwright.intake.quantities import Quantity
from loftwright.intake.words import side_of, tokens
from loftwright.units import Unit, known_unit

# Letters for the positive and the negative side, in several languages.
_WORLD_PAIRS: Final = (("r", "l"), ("d", "g"), ("d", "i"), ("d", "s"), ("h", "v"))
_LETTERS: Final = MappingProxyType(
    {
        "direction": _WORLD_PAIRS,
        "axis": _WORLD_PAIRS,
        "side spin": _WORLD_PAIRS,
        "offline": _WORLD_PAIRS,
        "face": (("o", "c"), *_WORLD_PAIRS[:2]),
        "face to path": (("o", "c"), *_WORLD_PAIRS[:2]),
        "path": (("i", "o"), *_WORLD_PAIRS[:2]),
        "attack": (("u", "d"),),
        "launch": (("u", "d"),),
        "strike toe": (("t", "h"), ("s", "f"), ("p", "t")),
        "strike high": (("h", "l"), ("h", "t"), ("h", "b"), ("a", "b")),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberColumn:
    """A column of numbers as written, in its own unit.

    Attributes
    ----------
    plan : Plan
        What it is taken for.
    values : tuple of float or None
        Signed numbers, one a row, in the column's unit or the cell's own.
    units : tuple of Unit or None
        The unit a cell names.
    problems : tuple of str
        Why a cell that holds something gives no number.
    """

    plan: Plan
    values: tuple[float | None, ...]
    units: tuple[Unit | None, ...]
    problems: tuple[str, ...]

    @property
    def held(self) -> list[float]:
        """The numbers there are."""
        return [value for value in self.values if value is not None]


def table_decimal(rows: Sequence[Row], indices: Sequence[int]) -> str:
    """Return the decimal mark that most cells prove; a point where none proves any."""
    cells = [row.cells[index] for row in rows for index in indices]
    marks = [decimal_evidence(cell) for cell in cells]
    commas, points = marks.count(","), marks.count(".")
    return "," if commas > points else "."


def read_numbers(
    plan: Plan, quantity: Quantity, rows: Sequence[Row], decimal: str, hand: Handedness
) -> NumberColumn:
    """Return a column's numbers with the signs of its sides.

    Parameters
    ----------
    plan : Plan
        The column.
    quantity : Quantity
        What it is taken for.
    rows : sequence of Row
        The rows.
    decimal : str
        The table's decimal mark, used where the column proves none.
    hand : {"right", "left"}
        The golfer's hand, for face and path told as right and left.
    """
    texts = [row.cells[plan.index] for row in rows]
    mark = decimal_of(texts, "") or _fitting_mark(texts, plan.unit, quantity, decimal)
    cells = [_own_unit(read_cell(text, mark), quantity) for text in texts]
    signs = side_signs(quantity, {cell.side for cell in cells if cell.side}, hand, plan.name)
    told = plan.sign or 1
    if plan.world and quantity.golfers_sign and hand == "left":
        told = -told
    values: list[float | None] = []
    problems: list[str] = []
    for cell in cells:
        value, problem = cell.value, cell.problem
        if value is not None and cell.side:
            sign = signs.get(cell.side, 0)
            value, problem = (sign * value, "") if sign else (None, "names a side that is unclear")
        elif value is not None:
            value = told * value
        values.append(value)
        problems.append(problem)
    units = tuple(cell.unit for cell in cells)
    return NumberColumn(plan=plan, values=tuple(values), units=units, problems=tuple(problems))


def _fitting_mark(
    texts: Sequence[str], unit: Unit | None, quantity: Quantity, decimal: str
) -> str:
    """Return the decimal mark under which cells that prove none can be what they are taken for.

    Three digits after a mark may be thousandths or thousands: 12,700 is no launch angle.
    """
    scales = [unit.scale] if unit is not None else [known.scale for known in _units_of(quantity)]
    low, high = quantity.possible
    for mark in (decimal, "," if decimal == "." else "."):
        values = [cell.value for cell in (read_cell(text, mark) for text in texts)]
        held = [value for value in values if value is not None]
        if not held:
            return decimal
        size = middle(quantity, held)
        if any(low <= size * scale <= high for scale in scales):
            return mark
    return decimal


def _units_of(quantity: Quantity) -> list[Unit]:
    return [unit for unit in map(known_unit, quantity.units) if unit is not None]


def _own_unit(cell: Cell, quantity: Quantity) -> Cell:
    """Decide whether a lone letter is the column's unit or a side."""
    if cell.unit is None:
        return cell
    if cell.unit.dimension == quantity.dimension:
        alone = len(cell.side) == 1 and cell.unit.name.casefold().startswith(cell.side)
        return Cell(value=cell.value, unit=cell.unit, side="" if alone else cell.side)
    if cell.side:
        return Cell(value=cell.value, side=cell.side)
    return Cell(problem=f"is in {cell.unit.name}, no unit of {quantity.means}")


def side_signs(
    quantity: Quantity, sides: set[str], hand: Handedness, heading: str = ""
) -> Mapping[str, int]:
    """Return the sign of every side or letter that a column's cells name.

    Letters count where one language's pair holds them all, or all such pairs agree, or the
    heading has the one word for a side that begins with the letter.
    """
    letters = {side for side in sides if len(side) == 1 and side.isascii()}
    pairs = [pair for pair in _LETTERS.get(quantity.means, ()) if letters <= set(pair)]
    mirrored = -1 if quantity.golfers_sign and hand == "left" else 1
    signs: dict[str, int] = {}
    for letter in letters:
        votes = set()
        for pair in pairs:
            world = pair in _WORLD_PAIRS
            sign = 1 if letter == pair[0] else -1
            votes.add(sign * mirrored if world else sign)
        if len(votes) > 1:
            words = [word for word in tokens(heading) if word.startswith(letter)]
            spoken = {quantity.sign_of(side)[0] for side in map(side_of, words) if side}
            votes = spoken or votes
        if len(votes) == 1:
            signs[letter] = votes.pop()
    for word in sides - letters:
        side = side_of(word)
        sign, world = quantity.sign_of(side) if side is not None else (0, False)
        signs[word] = sign * mirrored if world else sign
    return signs


def middle(quantity: Quantity, values: Sequence[float]) -> float:
    """Return the median, of a quantity with sides the upper quartile of its size."""
    if not quantity.sided:
        return statistics.median(values)
    sizes = sorted(abs(value) for value in values)
    return sizes[min(len(sizes) - 1, (3 * len(sizes)) // 4)]


def unreadable(texts: Sequence[str], column: NumberColumn) -> int:
    """Return how many cells hold something that is no number."""
    pairs = zip(texts, column.values, strict=True)
    return sum(value is None and not is_blank(text) for text, value in pairs)


def is_count(values: Sequence[float]) -> bool:
    """Return whether numbers only count the rows or never change."""
    steps = {b - a for a, b in itertools.pairwise(values)}
    return len(values) > 2 and len(steps) == 1 and steps <= {0.0, 1.0}


def last_digit(texts: Sequence[str]) -> float:
    """Return the size of the last digit that a column's numbers are written with."""
    most = 0
    for text in texts:
        match = re.search(r"\d[.,](\d+)", text)
        if match is not None and decimal_evidence(text):
            most = max(most, len(match[1]))
    return float(10.0**-most)

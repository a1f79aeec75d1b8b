"""Sorts rows into balls read, balls hit but not read, repeats and rows that are none."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.domain.shot import Duplicate, Refusal, Shot
from loftwright.intake.body import Row
from loftwright.intake.cells import is_blank, is_blank_label
from loftwright.intake.columns import Plan
from loftwright.intake.headers import number_like
from loftwright.intake.numbers import NumberColumn
from loftwright.intake.quantities import LAUNCH_NUMBERS, QUANTITIES
from loftwright.intake.vocabulary_small import NO, YES
from loftwright.intake.words import strip_accents

_FLIGHT: Final = frozenset(
    {"carry", "total", "offline", "peak height", "landing angle", "flight time"}
)
UNREAD_FIELDS: Final = frozenset({*LAUNCH_NUMBERS, *_FLIGHT, "back spin", "side spin"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Swings:
    """Rows that are swings, and those that are not.

    Attributes
    ----------
    places : tuple of int
        Indices of the rows that are swings.
    unread : frozenset of int
        Those of them that the device did not read.
    refused : tuple of Refusal
        Rows without numbers that are no swing.
    warnings : tuple of str
        Cells that say neither yes nor no.
    """

    places: tuple[int, ...]
    unread: frozenset[int]
    refused: tuple[Refusal, ...]
    warnings: tuple[str, ...]


def _read_words(rows: Sequence[Row], plans: Sequence[Plan]) -> tuple[list[bool | None], list[str]]:
    """Return, row by row, whether a read column says yes, no or nothing."""
    plan = next((plan for plan in plans if plan.means == "read"), None)
    said: list[bool | None] = []
    warnings = []
    for row in rows:
        word = "" if plan is None else strip_accents(row.cells[plan.index]).strip()
        if word in NO:
            said.append(False)
        elif word in YES:
            said.append(True)
        else:
            said.append(None)
            if plan is not None and not is_blank(word):
                warnings.append(f"row {row.line}, {plan.name!r}: {word!r} is neither yes nor no")
    return said, warnings


def sort_swings(
    rows: Sequence[Row], plans: Sequence[Plan], columns: Sequence[NumberColumn]
) -> Swings:
    """Return which rows are swings.

    A row without numbers is a ball hit but not read if its read column says no, or if its club
    is one that other rows have numbers for; else it is a line of words and is refused.
    """
    said, warnings = _read_words(rows, plans)
    unknown = [plan.index for plan in plans if not plan.means]
    holds = [
        any(column.values[place] is not None for column in columns)
        or any(number_like(row.cells[index]) for index in unknown)
        for place, row in enumerate(rows)
    ]
    club = next((plan.index for plan in plans if plan.means == "club"), None)
    known = {
        row.cells[club]
        for row, full in zip(rows, holds, strict=True)
        if full and club is not None and not is_blank_label(row.cells[club])
    }
    places, unread, refused = [], set(), []
    for place, row in enumerate(rows):
        named = club is not None and row.cells[club] in known
        if not holds[place] and said[place] is not False and not named:
            refused.append(Refusal(row=row.line, why="holds no number of a ball"))
            continue
        places.append(place)
        if said[place] is False or not holds[place]:
            unread.add(place)
        if said[place] is False and _launched(columns, place):
            warnings.append(
                f"row {row.line} says that it was not read; its launch numbers are left out"
            )
    return Swings(
        places=tuple(places),
        unread=frozenset(unread),
        refused=tuple(refused),
        warnings=tuple(warnings),
    )


def _launched(columns: Sequence[NumberColumn], place: int) -> bool:
    return any(
        column.values[place] is not None
        for column in columns
        if column.plan.means in UNREAD_FIELDS
    )


def find_duplicates(
    rows: Sequence[Row],
    plans: Sequence[Plan],
    values: Mapping[str, Sequence[float | None]],
    unread: frozenset[int],
) -> list[Duplicate]:
    """Return the rows that repeat an earlier one.

    A row repeats another when all five launch numbers are equal and so are ball number and
    time where the table has them. With fewer launch numbers, where two balls may well be equal,
    a ball number or time must be there and every cell must be equal.

    Parameters
    ----------
    rows : sequence of Row
    plans : sequence of Plan
    values : mapping of str to sequence of float or None
        Columns in SI by meaning.
    unread : frozenset of int
        Places of balls that were not read.
    """
    marks = [plan.index for plan in plans if plan.means in {"ball", "time"}]
    five = [values.get(means) for means in LAUNCH_NUMBERS]
    seen: dict[tuple[object, ...], int] = {}
    found = []
    for place, row in enumerate(rows):
        if place in unread:
            continue
        numbers = tuple(column[place] if column is not None else None for column in five)
        known_by = tuple(row.cells[index] for index in marks)
        if None in numbers:
            if not any(known_by):
                continue
            numbers = ()
        key = (numbers, known_by, () if numbers else row.cells)
        first = seen.setdefault(key, row.line)
        if first != row.line:
            found.append(Duplicate(row=row.line, of=first))
    return found


def _text(row: Row, plans: Sequence[Plan], means: str) -> str | None:
    """Return what the columns of a label hold, joined by a blank; None where they are blank."""
    cells = [row.cells[plan.index] for plan in plans if plan.means == means]
    held = [cell for cell in cells if not is_blank_label(cell)]
    return " ".join(held) if held else None


def mark_sets(rows: Sequence[Row], plans: Sequence[Plan]) -> list[str]:
    """Return the set each row shares its marks with, empty for a row that has its own."""
    return [_text(row, plans, "mark set") or "" for row in rows]


def build_shot(
    row: Row,
    place: int,
    *,
    order: int,
    club: str,
    read: bool,
    plans: Sequence[Plan],
    values: Mapping[str, Sequence[float | None]],
) -> Shot:
    """Return one row as a shot; of a ball not read, launch and flight stay empty.

    Neither was one read whose every number is none that a ball can have.

    Parameters
    ----------
    row : Row
    place : int
        Of the row in the columns.
    order : int
        Place among all swings of the visit.
    club : str
    read : bool
    plans : sequence of Plan
    values : mapping of str to sequence of float or None
        Columns in SI by meaning.
    """
    numbers: dict[str, float | None] = {}
    for means, column in values.items():
        field = QUANTITIES[means].field
        if field and (read or means not in UNREAD_FIELDS):
            numbers[field] = column[place]
    labels = {
        means.replace(" ", "_"): _text(row, plans, means)
        for means in ("mark set", "ball", "time", "golfer", "feel", "note")
    }
    read = read and any(number is not None for number in numbers.values())
    return Shot(row=row.line, order=order, club=club, read=read, **labels, **numbers)  # type: ignore[arg-type]

"""Finds the headings of a table: which rows they are, one or two of them, and a row of units."""

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from loftwright.intake.files import Record
from loftwright.intake.words import Heading, read_heading, sign_words, strip_accents
from loftwright.units import Unit, known_unit

SEARCHED_ROWS: Final = 40
_NUMBER_LIKE: Final = re.compile(r"[-+(]?\s*\d[\d.,:'’ ]*\)?\s*%?")


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnHead:
    """The head of one column.

    Attributes
    ----------
    index : int
        Place in the row, from 0.
    name : str
        Heading as the file has it; "column N" where it has none or repeats another.
    heading : Heading
        What its words say, the row of units included.
    """

    index: int
    name: str
    heading: Heading


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where a table begins and what its columns are called.

    Attributes
    ----------
    heads : tuple of ColumnHead
        Every column.
    last_header_line : int
        Line of the last row of headings or units; 0 for a table without headings.
    header_rows : tuple of tuple of str
        Rows of headings and units, to know them again further down.
    recognised : int
        How many columns the words settle.
    """

    heads: tuple[ColumnHead, ...]
    last_header_line: int
    header_rows: tuple[tuple[str, ...], ...]
    recognised: float

    @property
    def fingerprint(self) -> str:
        """A digest of the headings and units, by which a table of this form is known again.

        Empty for a table without headings: another one may hold anything in its places.
        """
        if not self.header_rows:
            return ""
        shape = "\x1e".join(
            "\x1f".join(strip_accents(cell) for cell in row) for row in self.header_rows
        )
        return hashlib.sha256(shape.encode("utf-8", "replace")).hexdigest()[:32]


def number_like(cell: str) -> bool:
    """Return whether a cell begins as numbers do."""
    return _NUMBER_LIKE.fullmatch(cell) is not None


def is_unit_row(cells: Sequence[str]) -> bool:
    """Return whether a row holds units and nothing else."""
    held = [cell for cell in cells if cell.strip(" -–—[]()")]
    if not held or any(map(number_like, held)):
        return False
    units = sum(_unit_cell(cell)[0] is not None for cell in held)
    rest = [cell for cell in held if _unit_cell(cell)[0] is None]
    silent = all(cell in {"#", "-", "n", "no", "text", "hh:mm:ss", "hh:mm"} for cell in rest)
    return units >= 1 and (silent or units >= 0.8 * len(held))


def _unit_cell(cell: str) -> tuple[Unit | None, str]:
    """Return the unit in a cell of a row of units, and what else it says."""
    text = cell.strip().strip("[](){}").strip()
    unit = known_unit(text)
    if unit is not None:
        return unit, ""
    parts = re.split(r"[,;\s]+", text, maxsplit=1)
    unit = known_unit(parts[0]) if len(parts) == 2 and sign_words(parts[1]) else None
    return unit, parts[1] if unit is not None else ""


def _combined(upper: Sequence[str], lower: Sequence[str]) -> list[str]:
    """Join two rows of headings; an upper heading spans the blank ones to its right."""
    joined, group = [], ""
    for index in range(max(len(upper), len(lower))):
        above = upper[index] if index < len(upper) else ""
        below = lower[index] if index < len(lower) else ""
        group = above or group
        joined.append(f"{group} {below}".strip() if below else above)
    return joined


def _read(text: str, below: str) -> Heading:
    heading = read_heading(text)
    if heading.meanings or not below:
        return heading
    return replace(read_heading(below), text=text)


def _score(headings: Sequence[Heading], named: frozenset[str]) -> float:
    seen: set[str] = set()
    score = 0.0
    for heading in headings:
        if strip_accents(heading.text) in named:
            score += 1.0
        elif len(heading.meanings) == 1:
            means = heading.meanings[0]
            # A quantity told twice, or one that is of no use, speaks less for a row of headings.
            score += 0.3 if means in seen or means == "ignore" else 1.0
            seen.add(means)
        elif heading.meanings:
            score += 0.4
    return score


def _heads(texts: Sequence[str], headings: Sequence[Heading]) -> tuple[ColumnHead, ...]:
    seen: set[str] = set()
    heads = []
    for index, (text, heading) in enumerate(zip(texts, headings, strict=True)):
        plain = strip_accents(text)
        name = text if text and plain not in seen else f"column {index + 1}"
        seen.add(plain)
        heads.append(ColumnHead(index=index, name=name, heading=heading))
    return tuple(heads)


def _with_units(heads: tuple[ColumnHead, ...], row: Sequence[str]) -> tuple[ColumnHead, ...]:
    told = []
    for head in heads:
        cell = row[head.index] if head.index < len(row) else ""
        unit, signs = _unit_cell(cell)
        if unit is None or head.heading.unit is not None:
            told.append(head)
            continue
        # Read again with the unit in brackets: it may settle what the word alone leaves open.
        again = read_heading(f"{head.heading.text} [{unit.name}{', ' if signs else ''}{signs}]")
        if head.heading.meanings and not again.meanings:
            again = replace(head.heading, unit=unit)
        told.append(replace(head, heading=replace(again, text=head.heading.text)))
    return tuple(told)


def _candidate(
    rows: Sequence[Record], start: int, depth: int, named: frozenset[str]
) -> Layout | None:
    chosen = rows[start : start + depth]
    if len(chosen) < depth or any(
        sum(map(number_like, row.cells)) > 0.3 * len(row.cells) for row in chosen
    ):
        return None
    if any(is_unit_row(row.cells) for row in chosen):
        return None
    if depth == 1:
        texts = list(chosen[0].cells)
        headings = [_read(text, "") for text in texts]
    else:
        texts = _combined(chosen[0].cells, chosen[1].cells)
        lower = [*chosen[1].cells, *[""] * (len(texts) - len(chosen[1].cells))]
        headings = [_read(text, below) for text, below in zip(texts, lower, strict=True)]
    heads = _heads(texts, headings)
    header_rows = [row.cells for row in chosen]
    last = chosen[-1].line
    following = rows[start + depth] if start + depth < len(rows) else None
    if following is not None and is_unit_row(following.cells):
        heads = _with_units(heads, following.cells)
        header_rows.append(following.cells)
        last = following.line
    score = _score([head.heading for head in heads], named)
    return Layout(
        heads=heads,
        last_header_line=last,
        header_rows=tuple(header_rows),
        recognised=score,
    )


def find_layout(rows: Sequence[Record], named: frozenset[str]) -> Layout | None:
    """Return the headings of a table, or None where no word of them is known.

    Parameters
    ----------
    rows : sequence of Record
        The first rows of the file that are not blank.
    named : frozenset of str
        Headings that the user has settled, in small letters without accents.
    """
    best: Layout | None = None
    for start in range(min(len(rows), SEARCHED_ROWS)):
        for depth in (1, 2):
            layout = _candidate(rows, start, depth, named)
            # A second row of headings must tell more, else it is a row of shots.
            if layout is not None and (
                best is None or layout.recognised > best.recognised + 0.35 * (depth - 1) + 1e-9
            ):
                best = layout
    return best if best is not None and best.recognised > 0.0 else None


def unknown_layout(rows: Sequence[Record]) -> Layout | None:
    """Return the columns of a table of numbers whose headings say nothing, or None.

    The first row of many cells counts as headings where it holds words and the next numbers.
    """
    for start, row in enumerate(rows[:SEARCHED_ROWS]):
        numbers = sum(map(number_like, row.cells))
        if numbers >= 2 and numbers >= 0.4 * len(row.cells):
            return _plain([""] * len(row.cells), (), row.line - 1)
        units = [other for other in rows[start + 1 : start + 2] if is_unit_row(other.cells)]
        following = rows[start + 1 + len(units) : start + 4 + len(units)]
        below = [sum(map(number_like, other.cells)) for other in following]
        if numbers == 0 and len(row.cells) > 1 and below and min(below) >= 2:
            layout = _plain(list(row.cells), (row, *units), (row, *units)[-1].line)
            return replace(layout, heads=_with_units(layout.heads, (units or [row])[0].cells))
    return None


def _plain(texts: list[str], header_rows: Sequence[Record], last: int) -> Layout:
    headings = [read_heading(text) for text in texts]
    return Layout(
        heads=_heads(texts, headings),
        last_header_line=last,
        header_rows=tuple(row.cells for row in header_rows),
        recognised=_score(headings, frozenset()),
    )

"""Gathers the rows below the headings, one by one, within the limits of a fitting."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.domain.shot import Refusal
from loftwright.errors import IntakeError
from loftwright.intake.columns import Plan
from loftwright.intake.dialect import Dialect
from loftwright.intake.files import Record, records
from loftwright.intake.headers import is_unit_row
from loftwright.intake.kinds import club_kind
from loftwright.intake.settle import Keep, heading_key

# One fitting's limits [judgement]; while reading there is room for foot rows and repeats.
MAX_BALLS: Final = 2000
MAX_CLUBS: Final = 24
MAX_ROWS: Final = 100_000
_GATHERED: Final = 2500
_CLUB_NAMES: Final = 200
_DATE_LENGTH: Final = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of the table, as wide as its headings."""

    line: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The rows of a table.

    Attributes
    ----------
    read : int
        Rows below the headings that are not blank.
    rows : tuple of Row
        Those that may be balls.
    refused : tuple of Refusal
        The others so far.
    warnings : tuple of str
        What was odd about single rows.
    """

    read: int
    rows: tuple[Row, ...]
    refused: tuple[Refusal, ...]
    warnings: tuple[str, ...]


def day_of(text: str) -> str:
    """Return the day in a cell of dates and times, as it is written there, or nothing."""
    match = re.search(
        r"\d{4}[-/.年]\s*\d{1,2}[-/.月]\s*\d{1,2}日?|\d{1,2}[-/.]\s*\d{1,2}[-/.]\s*\d{2,4}"
        r"|\d{1,2}\.?\s+[^\W\d_]{3,}\.?,?\s+\d{4}|[^\W\d_]{3,}\.?\s+\d{1,2},?\s+\d{4}",
        text[:_DATE_LENGTH],
    )
    return match[0] if match is not None else ""


def _chooser(keep: Keep, plans: Sequence[Plan]) -> tuple[list[int], str]:
    """Return the columns a choice looks into and what they hold: label, time or kind."""
    key = heading_key(keep.column)
    named = [plan for plan in plans if heading_key(plan.name) == key]
    found = named or [plan for plan in plans if plan.means == key]
    if not found and key in {"kind", "date", "day"}:
        found = [plan for plan in plans if plan.means == ("club" if key == "kind" else "time")]
    if not found:
        listed = ", ".join(repr(plan.name) for plan in plans)
        raise IntakeError(
            f"the table has no column {keep.column!r}",
            place=f"--only {keep.text!r}",
            mend=f"Its columns are {listed}.",
        )
    form = "kind" if key == "kind" and not named else "label"
    if found[0].means == "time":
        form = "time"
    return [plan.index for plan in found], form


def _holds(cells: Sequence[str], value: str, form: str) -> bool:
    wanted = heading_key(value)
    if form == "kind":
        return any(heading_key(club_kind(cell)) == wanted for cell in cells)
    if form == "time":
        return any(heading_key(day_of(cell)) == wanted for cell in cells) or any(
            heading_key(cell) == wanted for cell in cells
        )
    return any(heading_key(cell) == wanted for cell in cells)


class _Gatherer:
    """Sorts rows as they come: kept, refused, or the headings once more."""

    def __init__(self, path: Path, dialect: Dialect, plans: Sequence[Plan]) -> None:
        self.path, self.dialect, self.plans = path, dialect, plans
        self.width = len(plans)
        self.read = 0
        self.rows: list[Row] = []
        self.refused: list[Refusal] = []
        self.warnings: list[str] = []
        self.wide = 0
        self.clubs: set[str] = set()
        self.club_columns = [plan.index for plan in plans if plan.means == "club"]

    def is_heading(self, record: Record) -> bool:
        """Whether a row repeats the headings or units."""
        again = record.cells in self.dialect.layout.header_rows
        return again or (is_unit_row(record.cells) and record.cells[0] == "")

    def fit(self, record: Record) -> Row | None:
        """Return a row as wide as the headings, or None for one that is too wide."""
        cells = record.cells
        if any(cells[self.width :]):
            self.wide += 1
            return None
        if len(cells) < self.width and not self.is_comment(cells):
            self.warnings.append(
                f"row {record.line} has {len(cells)} cells under {self.width} headings; "
                "the rest counts as not measured"
            )
        padded = cells[: self.width] + ("",) * (self.width - len(cells))
        return Row(line=record.line, cells=padded)

    @staticmethod
    def is_comment(cells: Sequence[str]) -> bool:
        """Whether a row is a line of words rather than a ball."""
        return sum(bool(cell) for cell in cells) <= 1

    def add(self, record: Record, reason: str) -> None:
        """Count a row, and keep it or note why not."""
        self.read += 1
        if self.read > MAX_ROWS:
            raise self.too_much(f"more than {MAX_ROWS:,} rows")
        row = None if reason else self.fit(record)
        if row is None:
            why = reason or f"has {len(record.cells)} cells under {self.width} headings"
            self.refused.append(Refusal(row=record.line, why=why))
            return
        self.rows.append(row)
        self.clubs.update(row.cells[index] for index in self.club_columns)
        if len(self.rows) > _GATHERED:
            raise self.too_much(f"more than {MAX_BALLS:,} balls")
        if len(self.clubs) > _CLUB_NAMES:
            raise self.too_much(f"more than {MAX_CLUBS} clubs")

    def too_much(self, what: str) -> IntakeError:
        """Return the error for a table beyond a fitting's limits."""
        return IntakeError(
            f"holds {what}; one fitting has at most {MAX_BALLS:,} balls and {MAX_CLUBS} clubs",
            place=f"{self.path}, row {self.rows[-1].line if self.rows else self.read}",
            mend='Keep one golfer and day with --only "Golfer=Name", or part the file.',
        )


def gather(
    path: Path,
    dialect: Dialect,
    plans: Sequence[Plan],
    *,
    only: Sequence[Keep],
    not_ours: Sequence[int],
) -> Body:
    """Return the rows below the headings.

    Raises
    ------
    IntakeError
        When the table exceeds a fitting's limits, or a row or column named is not in it.
    """
    choices = [(keep, *_chooser(keep, plans)) for keep in only]
    foreign = set(not_ours)
    met = [0] * len(choices)
    gatherer = _Gatherer(path, dialect, plans)
    for record in _below(path, dialect):
        if record.blank or gatherer.is_heading(record):
            continue
        reason = ""
        if record.line in foreign:
            foreign.discard(record.line)
            reason = "not this golfer's ball, as told"
        for number, (keep, indices, form) in enumerate(choices):
            cells = [record.cells[i] for i in indices if i < len(record.cells)]
            held = _holds(cells, keep.value, form)
            met[number] += held
            if not held and not reason:
                reason = f"not asked for: only {keep.text}"
        gatherer.add(record, reason)
    _check_choices(choices, met, foreign, path)
    _check_width(gatherer)
    return Body(
        read=gatherer.read,
        rows=tuple(gatherer.rows),
        refused=tuple(gatherer.refused),
        warnings=tuple(gatherer.warnings),
    )


def _below(path: Path, dialect: Dialect) -> Iterator[Record]:
    for record in records(path, dialect.encoding, dialect.delimiter):
        if record.line > dialect.layout.last_header_line:
            yield record


def _check_choices(
    choices: Sequence[tuple[Keep, list[int], str]], met: list[int], foreign: set[int], path: Path
) -> None:
    for (keep, _, _), count in zip(choices, met, strict=True):
        if not count:
            raise IntakeError(
                f"no row has {keep.value!r} under {keep.column!r}",
                place=f"--only {keep.text!r}",
                mend="Write the value as the file has it.",
            )
    if foreign:
        raise IntakeError(
            f"row {min(foreign)} is no row of shots",
            place=str(path),
            mend="Rows are lines of the file, the first line being 1.",
        )


def _check_width(gatherer: _Gatherer) -> None:
    if gatherer.wide > 0.5 * max(gatherer.read, 1):
        raise IntakeError(
            f"most rows have more cells than the {gatherer.width} headings",
            place=str(gatherer.path),
            mend="Put numbers with a decimal comma in quotation marks, or part the cells with "
            f"another mark than the {gatherer.dialect.delimiter_name}.",
        )

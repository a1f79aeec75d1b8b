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
from loftwright.intake.headers import number_like
from loftwright.intake.kinds import club_kind
from loftwright.intake.settle import Keep, heading_key, named_near, no_column

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


class _Choice:
    """A choice of rows: the columns it looks into, and what it met there."""

    def __init__(self, keep: Keep, indices: Sequence[int], form: str) -> None:
        self.keep, self.indices, self.form = keep, indices, form
        self.wanted = heading_key(keep.value)
        self.met = 0
        self.others: dict[str, str] = {}

    def holds(self, cells: Sequence[str]) -> bool:
        """Whether a row is chosen."""
        texts = [cells[index] for index in self.indices if index < len(cells)]
        if self.form == "kind":
            texts = [club_kind(text) for text in texts]
        if self.form == "time":
            texts += [day_of(text) for text in texts]
        held = any(heading_key(text) == self.wanted for text in texts)
        self.met += held
        for text in texts:
            if text and len(self.others) < _CLUB_NAMES:
                self.others.setdefault(heading_key(text), text)
        return held

    def check(self) -> None:
        """Refuse a choice that no row meets."""
        if not self.met:
            raise IntakeError(
                f"no row has {self.keep.value!r} under {self.keep.column!r}",
                place=f"--only {self.keep.text!r}",
                mend=named_near(self.keep.value, self.others.values(), most=12)
                if self.others
                else "There is nothing under it.",
            )


def _choice(keep: Keep, plans: Sequence[Plan]) -> _Choice:
    """Return a choice with the columns it looks into: of labels, times or kinds of club."""
    key = heading_key(keep.column)
    named = [plan for plan in plans if heading_key(plan.name) == key]
    found = named or [plan for plan in plans if plan.means == key]
    if not found and key in {"kind", "date", "day"}:
        found = [plan for plan in plans if plan.means == ("club" if key == "kind" else "time")]
    if not found:
        option = f"--only {keep.text!r}"
        raise no_column(keep.column, (plan.name for plan in plans), option=option)
    form = "kind" if key == "kind" and not named else "label"
    if found[0].means == "time":
        form = "time"
    return _Choice(keep, [plan.index for plan in found], form)


def _runs_over(record: Record, width: int, delimiter: str) -> bool:
    """Whether a cell goes on over rows of shots, as one does whose quotation mark stays open."""
    pieces_of = [
        line.split(delimiter) for cell in record.cells for line in re.split(r"[\r\n]+", cell)[1:]
    ]
    return any(
        len(pieces) >= min(3, width)
        and sum(number_like(piece.strip()) for piece in pieces) >= min(2, max(width - 1, 1))
        for pieces in pieces_of
    )


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
        return record.cells in self.dialect.layout.header_rows

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
    choices = [_choice(keep, plans) for keep in only]
    foreign = set(not_ours)
    gatherer = _Gatherer(path, dialect, plans)
    for record in _below(path, dialect, len(plans)):
        if record.blank or gatherer.is_heading(record):
            continue
        reason = ""
        if record.line in foreign:
            foreign.discard(record.line)
            reason = "not this golfer's ball, as told"
        for choice in choices:
            if not choice.holds(record.cells) and not reason:
                reason = f"not asked for: only {choice.keep.text}"
        gatherer.add(record, reason)
    for choice in choices:
        choice.check()
    _check_foreign(foreign, path)
    _check_width(gatherer)
    return Body(
        read=gatherer.read,
        rows=tuple(gatherer.rows),
        refused=tuple(gatherer.refused),
        warnings=tuple(gatherer.warnings),
    )


def _below(path: Path, dialect: Dialect, width: int) -> Iterator[Record]:
    layout = dialect.layout
    for record in records(path, dialect.encoding, dialect.delimiter):
        below = record.line > layout.last_header_line
        if not below and record.cells not in layout.header_rows:
            continue
        if _runs_over(record, width, dialect.delimiter):
            raise IntakeError(
                f"a cell of row {record.line} goes on over the rows below it",
                place=str(path),
                mend="Look in it for a quotation mark that is opened and not closed.",
            )
        if below:
            yield record


def _check_foreign(foreign: set[int], path: Path) -> None:
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
            mend="Put numbers with a decimal comma in quotation marks, part the cells with "
            f"another mark than the {gatherer.dialect.delimiter_name}, or give every column a "
            "heading.",
        )

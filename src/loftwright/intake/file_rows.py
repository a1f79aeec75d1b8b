"""Turns a table into balls one by one, each with the device's own line and a lasting key."""

import hashlib
import itertools
import tempfile
from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from loftwright.domain.device import Column
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.domain.shot import Duplicate, Refusal, Shot, ShotTable
from loftwright.errors import IntakeError, LoftwrightError
from loftwright.intake.dialect import Dialect, find_dialect
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.feed import FeedShot
from loftwright.intake.files import lines, records
from loftwright.intake.labels import NO_CLUB
from loftwright.intake.options import ReadOptions
from loftwright.intake.settle import heading_key, read_setting
from loftwright.intake.table import read_shots
from loftwright.units import known_unit

MOST_BYTES: Final = 32 << 20
_STRIKE: Final = ("strike_toe", "strike_high")


@dataclass(frozen=True, slots=True, kw_only=True)
class FileRows:
    """The balls of one table.

    Attributes
    ----------
    shots : tuple of FeedShot
        In order of play.
    refused : tuple of Refusal
        Rows that are no ball, and why.
    duplicates : tuple of Duplicate
        Rows that repeat an earlier one.
    columns : tuple of Column
        What every column means and where it comes from.
    warnings : tuple of str
        What did not stop the reading.
    settled : tuple of str
        The columns as settled now, in the words of `ReadOptions.columns`.
    """

    shots: tuple[FeedShot, ...]
    refused: tuple[Refusal, ...] = ()
    duplicates: tuple[Duplicate, ...] = ()
    columns: tuple[Column, ...] = ()
    warnings: tuple[str, ...] = ()
    settled: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLine:
    """One row of a table as the device wrote it.

    Attributes
    ----------
    row : int
        Line of the file, the first line being 1.
    text : str
        Letter for letter, without the end of the line.
    key : str
        Of the text and of how many equal ones stand above it.
    """

    row: int
    text: str
    key: str


def rows_of(content: bytes, name: str, options: ReadOptions) -> FileRows:
    """Return the balls of a table.

    Parameters
    ----------
    content : bytes
        The whole table.
    name : str
        What to call it in messages.
    options : ReadOptions
        What is settled about it.

    Raises
    ------
    DoubtsError
        When it can be read in more than one way.
    IntakeError
        When it is no table of shots or is too large.

    Notes
    -----
    A ball's key is a digest of its own line and of how many equal lines stand above it, so that
    a file that has grown, was copied or is read again gives every ball the key it had.
    """
    check_size(len(content), name)
    with tempfile.TemporaryDirectory(prefix="loftwright-") as folder:
        path = Path(folder) / "table"
        path.write_bytes(content)
        try:
            return _read(path, options)
        except DoubtsError as error:
            raise DoubtsError(error.doubts, place=name) from error
        except LoftwrightError as error:
            raise _placed(error, str(path), name) from error


def check_size(size: int, name: str) -> None:
    """Refuse a table that is larger than any fitting's.

    Raises
    ------
    IntakeError
    """
    if size > MOST_BYTES:
        raise IntakeError(
            f"is larger than {MOST_BYTES >> 20} MB",
            place=name,
            mend="Part it: one fitting has at most 2,000 balls.",
        )


def _placed(error: LoftwrightError, path: str, name: str) -> LoftwrightError:
    """Return an error that names the table as its reader knows it."""
    message, place, mend = (
        part.replace(path, name) for part in (error.message, error.place, error.mend)
    )
    return type(error)(message, place=place, mend=mend)


def _read(path: Path, options: ReadOptions) -> FileRows:
    table = read_shots(path, options)
    dialect = _dialect(path, options)
    own = {line.row: line for line in own_lines(path, dialect)}
    marked = any(shot.mark_set for shot in table.shots)
    return FileRows(
        shots=tuple(_feed_shot(shot, own[shot.row]) for shot in table.shots),
        refused=table.refused,
        duplicates=table.duplicates,
        columns=table.columns,
        warnings=(*table.warnings, *((_MARKS_LEFT,) if marked else ())),
        settled=_settled(table, dialect, options),
    )


_MARKS_LEFT: Final = (
    "marks that share a set are of unknown order: they are left out here, tap them as a set"
)


def _dialect(path: Path, options: ReadOptions) -> Dialect:
    named = [read_setting(text).column for text in options.columns]
    named += [options.club_column] if options.club_column else []
    return find_dialect(path, frozenset(map(heading_key, named)))


def own_lines(path: Path, dialect: Dialect) -> list[OwnLine]:
    """Return every row below the headings as the device wrote it, with its key."""
    written = list(lines(path, dialect.encoding))
    starts = [record.line for record in records(path, dialect.encoding, dialect.delimiter)]
    counts: Counter[str] = Counter()
    found = []
    for start, end in itertools.pairwise([*starts, len(written) + 1]):
        if start <= dialect.layout.last_header_line:
            continue
        text = "".join(written[start - 1 : end - 1]).rstrip("\r\n")
        counts[text] += 1
        found.append(OwnLine(row=start, text=text, key=key_of(text, counts[text])))
    return found


def key_of(line: str, count: int) -> str:
    """Return the key of a line that is the first, second, … of its like."""
    return hashlib.sha256(f"{count}\n{line}".encode("utf-8", "surrogatepass")).hexdigest()


def _feed_shot(shot: Shot, own: OwnLine) -> FeedShot:
    numbers = ShotNumbers(**{name: getattr(shot, name) for name in FIELDS})
    problems: tuple[str, ...] = ()
    if shot.mark_set and any(getattr(numbers, name) is not None for name in _STRIKE):
        numbers = replace(numbers, strike_toe=None, strike_high=None)
        problems = (f"Its mark is one of set {shot.mark_set}, in unknown order, and is left out.",)
    return FeedShot(
        key=own.key,
        numbers=numbers,
        club="" if shot.club == NO_CLUB else shot.club,
        line=own.text,
        time=shot.time or "",
        read=shot.read,
        problems=problems,
    )


def _settled(table: ShotTable, dialect: Dialect, options: ReadOptions) -> tuple[str, ...]:
    """Return the user's settings and, for the other columns, what the reading came to."""
    told = {read_setting(text).key for text in options.columns}
    told |= {heading_key(options.club_column)} if options.club_column else set()
    heads = {head.name for head in dialect.layout.heads}
    found = [
        _setting(column)
        for column in table.columns
        if column.column in heads and "=" not in column.column
        if heading_key(column.column) not in told and not _orders(column.means)
    ]
    return (*options.columns, *found)


def _orders(means: str) -> bool:
    """Whether settling a column would make it give the order of play."""
    return means in {"ball", "time"}


def _setting(column: Column) -> str:
    unit = f"[{column.unit}]" if known_unit(column.unit) is not None else ""
    return f"{column.column}={column.means}{unit}"


def keys_of(content: bytes, name: str, options: ReadOptions) -> tuple[str, ...]:
    """Return the key of every line below the headings, whether it is a ball or not.

    Parameters
    ----------
    content : bytes
        The whole table; its questions may be open.
    name : str
        What to call it in messages.
    options : ReadOptions
        What is settled about it.

    Raises
    ------
    IntakeError
        When it is no table of shots or is too large.
    """
    check_size(len(content), name)
    with tempfile.TemporaryDirectory(prefix="loftwright-") as folder:
        path = Path(folder) / "table"
        path.write_bytes(content)
        try:
            return tuple(line.key for line in own_lines(path, _dialect(path, options)))
        except LoftwrightError as error:
            raise _placed(error, str(path), name) from error


def one_by_one(
    content: bytes, name: str, options: ReadOptions, known: Collection[str]
) -> tuple[FeedShot, ...]:
    """Return the balls that can be read each by itself, without what they say together.

    For a table whose columns are settled, when a doubt about the whole of it comes up.

    Parameters
    ----------
    content : bytes
        The whole table.
    name : str
        What to call it in messages.
    options : ReadOptions
        Every column settled.
    known : collection of str
        Keys of balls that need no reading.
    """
    with tempfile.TemporaryDirectory(prefix="loftwright-") as folder:
        path = Path(folder) / "table"
        path.write_bytes(content)
        dialect = _dialect(path, options)
        written = list(lines(path, dialect.encoding))
        head = "".join(written[: dialect.layout.last_header_line])
        rows = own_lines(path, dialect)
    found = []
    for row in rows:
        if row.key in known or not row.text.strip():
            continue
        try:
            (shot,) = rows_of(f"{head}{row.text}\n".encode(), name, options).shots
        except (LoftwrightError, ValueError):
            # It stays in the file, and the doubt that is told names the whole.
            continue
        found.append(replace(shot, key=row.key))
    return tuple(found)

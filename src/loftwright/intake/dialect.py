"""Finds how a table is written: encoding, delimiter and headings, from its first rows."""

import itertools
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.errors import IntakeError
from loftwright.intake.files import Record, encodings, read_sample, records
from loftwright.intake.headers import Layout, find_layout, unknown_layout

DELIMITERS: Final = (",", ";", "\t", "|")
_SAMPLE_ROWS: Final = 60
_SAMPLE_LINES: Final = 5000
_NAMES: Final = {",": "comma", ";": "semicolon", "\t": "tab", "|": "bar"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Dialect:
    """How a table is written.

    Attributes
    ----------
    encoding : str
        Name of the encoding.
    delimiter : str
        What parts the cells.
    layout : Layout
        Its headings.
    """

    encoding: str
    delimiter: str
    layout: Layout

    @property
    def delimiter_name(self) -> str:
        """The delimiter in a word."""
        return _NAMES[self.delimiter]


def _first_rows(path: Path, encoding: str, delimiter: str) -> list[Record]:
    within = itertools.takewhile(
        lambda row: row.line <= _SAMPLE_LINES, records(path, encoding, delimiter)
    )
    rows = (row for row in within if not row.blank)
    found = list(itertools.islice(rows, _SAMPLE_ROWS))
    return found[1:] if found and _tells_delimiter(found[0]) else found


def _tells_delimiter(row: Record) -> bool:
    """Whether a row is the line "sep=;" by which a spreadsheet is told the delimiter."""
    first, *others = row.cells
    return first.casefold().startswith("sep=") and not any(others)


def _evenness(rows: Sequence[Record]) -> float:
    """Return the share of rows that have the commonest number of cells, if that is over one."""
    if not rows:
        return 0.0
    (width, count), *_ = Counter(len(row.cells) for row in rows).most_common(1)
    return count / len(rows) if width > 1 else 0.0


def find_dialect(path: Path, named: frozenset[str]) -> Dialect:
    """Return how a table is written.

    Parameters
    ----------
    path : Path
        The file.
    named : frozenset of str
        Headings that the user has settled, in small letters without accents.

    Raises
    ------
    IntakeError
        When the file cannot be read or is no table of shots.
    """
    best: tuple[float, float, Dialect] | None = None
    fallback: tuple[float, Dialect] | None = None
    problem: IntakeError | None = None
    for encoding, delimiter in _trials(path):
        try:
            rows = _first_rows(path, encoding, delimiter)
        except IntakeError as error:
            problem = problem or error
            continue
        even = _evenness(rows)
        layout = find_layout(rows, named)
        if layout is not None:
            dialect = Dialect(encoding=encoding, delimiter=delimiter, layout=layout)
            if best is None or (layout.recognised, even) > best[:2]:
                best = (layout.recognised, even, dialect)
        plain = unknown_layout(rows) if even > 0.5 else None
        if plain is not None and (fallback is None or even > fallback[0]):
            fallback = even, Dialect(encoding=encoding, delimiter=delimiter, layout=plain)
    if best is not None and (best[0] >= 1.5 or fallback is None):
        return best[2]
    if fallback is not None:
        return fallback[1]
    raise problem or IntakeError(
        "holds no table of shots: no headings and no rows of numbers were found",
        place=str(path),
        mend="Give a table with a row of headings (ball speed, launch, spin, club) and one row"
        " a ball.",
    )


def _trials(path: Path) -> Iterator[tuple[str, str]]:
    sample = read_sample(path)
    return iter(itertools.product(encodings(sample, path), DELIMITERS))

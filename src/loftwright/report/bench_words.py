"""A measured shaft in words and in keys: what was read, what was not, what looks wrong."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final, NamedTuple

import numpy as np

from loftwright.arrays import BoolArray
from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, MILLIMETRE
from loftwright.domain.bench_figures import USUAL
from loftwright.domain.read_figures import read_figures
from loftwright.domain.sections import BOUNDS, Section
from loftwright.physics.bench.measure import Doubt, Measured
from loftwright.physics.bench.piece import Field, Piece
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
)
from loftwright.physics.bench.slips import Mend, Slip
from loftwright.report.bench_many import many_said, rows_named
from loftwright.report.layout import facts, notes, paragraph, table
from loftwright.report.numbers import count, fixed, listed, signed
from loftwright.report.records import Record, rounded
from loftwright.report.shaft_words import NINE_IN_TEN, TIP_UNREAD, figure_rows, missing
from loftwright.report.slip_words import meant

_SHOWN_EVERY: Final = 100.0 * MILLIMETRE
_STANDS_BESIDE: Final = (
    "Nothing was left out; the shaft without it stands beside.",
    "Nothing was changed; the shaft with that put right stands beside.",
)


class Unit(NamedTuple):
    """How readings of a kind are written."""

    name: str
    size: float
    digits: int


UNITS: Final[Mapping[type, Unit]] = MappingProxyType(
    {
        ThreePoint: Unit("mm", MILLIMETRE, 3),
        Cantilever: Unit("mm", MILLIMETRE, 2),
        Frequency: Unit("cpm", CYCLE_PER_MINUTE, 1),
        Torque: Unit("deg", DEGREE, 2),
        Mass: Unit("g", GRAM, 1),
        Balance: Unit("mm", MILLIMETRE, 1),
    }
)
_ASKED: Final[Mapping[Slip, str]] = MappingProxyType(
    {
        Slip.SWAPPED_DIGITS: "two digits swapped?",
        Slip.DECIMAL_POINT: "the decimal point?",
        Slip.UNIT: "another unit?",
        Slip.SPAN: "another span?",
        Slip.CLAMP: "another clamp depth?",
        Slip.STATION: "another station?",
        Slip.WEIGHT: "another weight on the end?",
        Slip.MISSING: "a station left out?",
        Slip.ONE_DIGIT: "one digit wrong?",
        Slip.UNKNOWN: "no usual slip explains it; read it again",
    }
)


def shaft_lines(measured: Measured, lines: Sequence[int], *, whole: bool = True) -> list[str]:
    """Return a measured shaft in words: the answer, the figures behind it, what to mind.

    Parameters
    ----------
    measured : Measured
    lines : sequence of int
        The row of the file each reading stands on.
    whole : bool
        Whether its length is known; else it is told as far as the last support.
    """
    piece = measured.piece
    figures = read_figures(measured, USUAL, whole=whole)
    counted = f"{count(len(lines), 'reading')}, {count(len(measured.doubts), 'doubt')}"
    rows = [*(figure_rows(figures, USUAL) if whole else []), ("Readings", counted)]
    fields = [("EI, N m²", piece.bending)]
    if measured.without is not None:
        fields.append((_put_right(measured, lines), measured.without.bending))
    if piece.torsion.seen.any():
        fields.append(("GJ, N m²", piece.torsion))
    headings = ["Station, mm", *(word for name, _ in fields for word in (name, "nine in ten"))]
    cells = [
        [
            fixed(float(piece.stations[at]) / MILLIMETRE),
            *(word for _, field in fields for word in _figure(field, at)),
        ]
        for at in _shown(piece)
    ]
    return [
        *paragraph(_answer(measured, lines, whole=whole)),
        "",
        *table(headings, cells, left=()),
        "",
        *facts(rows),
        *notes(_said_doubts(measured, lines), "Look again:"),
        *notes(shaft_warnings(measured, whole=whole)),
    ]


def _answer(measured: Measured, lines: Sequence[int], *, whole: bool) -> str:
    piece = measured.piece
    parts = _stretches(piece, piece.bending.seen)
    length = fixed(piece.length / MILLIMETRE)
    if not parts:
        said = f"These readings tell the shaft as a whole and no part of its {length} mm."
    elif whole:
        said = f"EI is read from {listed(parts)} of {length} mm; the rest is not read."
    else:
        said = (
            f"EI is read from {listed(parts)} mm; without --length nothing is told beyond the "
            f"last support, {length} mm."
        )
    if measured.undone:
        rows = rows_named(lines, measured.table_mends[0].places)
        said += f" {rows.capitalize()} look wrong together."
    if measured.doubts:
        rows = _rows(measured, lines)
        said += f" {rows[:1].upper()}{rows[1:]} {'looks' if rows[3] == ' ' else 'look'} wrong."
    return said


def _put_right(measured: Measured, lines: Sequence[int]) -> str:
    """Return what the shaft that stands beside is."""
    left_out = f"without {_rows(measured, lines)}" if measured.doubts else ""
    if not measured.undone:
        return left_out
    rows = rows_named(lines, measured.table_mends[0].places)
    return " ".join([f"{rows} put right", *([f"and {left_out}"] if left_out else [])])


def _rows(measured: Measured, lines: Sequence[int]) -> str:
    """Return the rows that are doubted: `row 6`, `rows 6 and 9`."""
    doubted = [str(line) for line in sorted(lines[doubt.place] for doubt in measured.doubts)]
    return f"row {doubted[0]}" if len(doubted) == 1 else f"rows {listed(doubted)}"


def _stretches(piece: Piece, seen: BoolArray) -> list[str]:
    """Return the stretches that were read, in mm."""
    found: list[str] = []
    start: float | None = None
    for station, read in zip(piece.stations.tolist(), seen.tolist(), strict=True):
        if read:
            first = station if start is None else start
            text = f"{fixed(first / MILLIMETRE)} to {fixed(station / MILLIMETRE)}"
            if start is None:
                found.append(text)
            else:
                found[-1] = text
            start = first
        else:
            start = None
    return found


def _shown(piece: Piece) -> list[int]:
    """Return the stations that a page of words has room for: every 100 mm and the tip end."""
    rest = np.abs(piece.stations / _SHOWN_EVERY - np.round(piece.stations / _SHOWN_EVERY))
    places = np.flatnonzero(rest < 1e-6).tolist()
    return [*places, len(piece.stations) - 1] if places[-1] != len(piece.stations) - 1 else places


def _figure(field: Field, at: int) -> tuple[str, str]:
    if not field.seen[at]:
        return "not read", ""
    low, high = field.low(NINE_IN_TEN)[at], field.high(NINE_IN_TEN)[at]
    return fixed(float(field.values[at]), 1), f"{fixed(float(low), 1)} to {fixed(float(high), 1)}"


def _said_doubts(measured: Measured, lines: Sequence[int]) -> list[str]:
    said = []
    for doubt in measured.doubts:
        reading = measured.agreements[doubt.place].reading
        first = doubt.mends[0]
        text = (
            f"Row {lines[doubt.place]}, {_written(reading, reading.value)}, lies "
            f"{fixed(abs(doubt.surprise), 1)} standard deviations from what the others say: "
            f"{_asked(first)}"
        )
        more = [_asked(mend).rstrip("?") for mend in doubt.mends[1:3]]
        said.append(f"{text} Or {listed(more, 'or')}?" if more else text)
    many = many_said(measured, lines)
    said = [*many, *said] if measured.undone else [*said, *many]
    if measured.without is not None:
        said.append(_change(measured.piece, measured.without, measured.undone))
    return said


def _asked(mend: Mend) -> str:
    text = _ASKED[mend.slip]
    if mend.reading is None:
        return text
    return f"{text.rstrip('?')} ({meant(mend, _written)})?"


def _change(piece: Piece, without: Piece, undone: bool) -> str:
    """Return what putting the doubted rows right, or leaving them out, would change most."""
    seen = piece.bending.seen & without.bending.seen
    if not seen.any():
        return "Nothing was left out; without it no part of the shaft is read."
    ratio = np.where(seen, without.bending.values / piece.bending.values - 1.0, 0.0)
    at = int(np.abs(ratio).argmax())
    return (
        f"{_STANDS_BESIDE[undone]} EI changes most at "
        f"{fixed(float(piece.stations[at]) / MILLIMETRE)} mm, by {signed(100.0 * ratio[at])} %."
    )


def shaft_warnings(measured: Measured, *, whole: bool = True) -> list[str]:
    """Return what was not measured of a shaft and is not told.

    Parameters
    ----------
    measured : Measured
    whole : bool
        Whether its length is known.
    """
    said = missing(read_figures(measured, USUAL, whole=whole), whole=whole)
    if not measured.piece.bending.seen[measured.piece.stations > BOUNDS[Section.TIP][0]].any():
        said.append(TIP_UNREAD)
    return said


def doubt_records(measured: Measured, lines: Sequence[int]) -> list[Record]:
    """Return the readings that look wrong, the strangest first.

    Parameters
    ----------
    measured : Measured
    lines : sequence of int
        The row of the file each reading stands on.
    """
    return [_doubt(doubt, lines) for doubt in measured.doubts]


def _doubt(doubt: Doubt, lines: Sequence[int]) -> Record:
    return {
        "row": lines[doubt.place],
        "likely": [
            {
                "slip": str(mend.slip),
                "meant": None if mend.reading is None else meant(mend, _written),
                "sigmas": rounded(mend.off),
            }
            for mend in doubt.mends
        ],
        "sigmas": rounded(doubt.surprise),
    }


def _written(reading: Reading, value: float) -> str:
    unit = UNITS[type(reading)]
    return f"{fixed(value / unit.size, unit.digits)} {unit.name}"

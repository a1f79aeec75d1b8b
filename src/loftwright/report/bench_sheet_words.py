"""A bench sheet in words: what is read and what is not, and what a doubted row probably is."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, MILLIMETRE
from loftwright.physics.bench.measure import Doubt, Measured
from loftwright.physics.bench.piece import Piece
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
from loftwright.physics.bench.table_slips import TableMend
from loftwright.report.numbers import fixed, listed, signed
from loftwright.report.slip_words import meant

_TIP_END: Final = 50.0 * MILLIMETRE
"""How much of the tip end may stay unread without a word."""

ASKED: Final[Mapping[Slip, str]] = MappingProxyType(
    {
        Slip.SWAPPED_DIGITS: "two digits swapped",
        Slip.DECIMAL_POINT: "the decimal point",
        Slip.UNIT: "another unit",
        Slip.SPAN: "another span",
        Slip.CLAMP: "another clamp depth",
        Slip.STATION: "another station",
        Slip.WEIGHT: "another weight on the end",
        Slip.ONE_DIGIT: "one digit wrong",
    }
)
_MANY: Final[Mapping[Slip, str]] = MappingProxyType(
    {
        Slip.UNIT: "another unit",
        Slip.SPAN: "another span",
        Slip.MISSING: "a station left out or typed twice",
    }
)
_READ: Final[Mapping[type, tuple[float, str, int]]] = MappingProxyType(
    {
        ThreePoint: (MILLIMETRE, "mm", 3),
        Cantilever: (MILLIMETRE, "mm", 2),
        Frequency: (CYCLE_PER_MINUTE, "cpm", 1),
        Torque: (DEGREE, "°", 2),
        Mass: (GRAM, "g", 1),
        Balance: (MILLIMETRE, "mm", 1),
    }
)


def said_of(
    name: str, measured: Measured | None, rows: Sequence[str], lengths: str
) -> tuple[str, str]:
    """Return the sentence of a sheet, and the one thing to mind.

    Parameters
    ----------
    name : str
        Of the shaft.
    measured : Measured, optional
        None while there is nothing to measure from.
    rows : sequence of str
        What the row of each reading is called.
    lengths : {"mm", "in"}
    """
    if measured is None:
        return (
            f"Nothing of {name} is read yet.",
            "Type its length and a set-up, then one reading a row; the picture follows.",
        )
    piece = measured.piece
    parts = stretches(piece, lengths)
    length = _length(piece.length, lengths)
    if parts:
        said = f"EI is read from {listed(parts)} of {length} {lengths}"
    else:
        said = f"No part of these {length} {lengths} is read by itself yet"
    if measured.doubts:
        said += f"; {_doubted(measured, rows)}"
        return f"{said}.".replace("?.", "?"), (
            "Drawn without it, dashed with it; it counts until you settle it at its row."
        )
    many = many_words(measured, rows)
    return f"{said}.", many[0] if many else _lead(measured, lengths)


def stretches(piece: Piece, lengths: str) -> list[str]:
    """Return the stretches in which EI is read, such as `75 to 1,125`."""
    found: list[str] = []
    start: float | None = None
    for station, read in zip(piece.stations.tolist(), piece.bending.seen.tolist(), strict=True):
        if not read:
            start = None
            continue
        first = station if start is None else start
        text = f"{_length(first, lengths)} to {_length(station, lengths)}"
        if start is None:
            found.append(text)
        else:
            found[-1] = text
        start = first
    return found


def asked(mend: Mend) -> str:
    """Return what was probably done wrong and what would then stand there, without a mark."""
    if mend.reading is None:
        return "no usual slip explains it"
    stood = meant(mend, written)
    return f"{ASKED[mend.slip]} ({stood})" if stood else ASKED[mend.slip]


def many_words(measured: Measured, rows: Sequence[str]) -> list[str]:
    """Return a sentence for each slip of many rows at once, the likeliest first.

    Parameters
    ----------
    measured : Measured
    rows : sequence of str
        What the row of each reading is called.
    """
    said = []
    for mend in measured.table_mends:
        names = [rows[place] for place in mend.places]
        which = listed(names) if len(names) < 4 else f"{names[0]} to {names[-1]}"
        said.append(f"Rows {which} together: {_MANY[mend.slip]}? Look at them; none is changed.")
    return said


def asked_of_many(mend: TableMend) -> str:
    """Return what was probably done wrong in many rows at once, without a mark."""
    return _MANY[mend.slip]


def doubt_words(doubt: Doubt) -> str:
    """Return how far a doubted reading lies from what the others say."""
    return f"{fixed(abs(doubt.surprise), 1)} standard errors from what the other rows say"


def written(reading: Reading, value: float) -> str:
    """Return a figure of a reading's kind with its unit."""
    size, name, digits = _READ[type(reading)]
    space = "" if name == "°" else " "
    return f"{fixed(value / size, digits)}{space}{name}"


def change_without(measured: Measured, lengths: str) -> str:
    """Return what leaving the doubted readings out would change most; empty without doubts."""
    if measured.without is None:
        return ""
    piece, without = measured.piece, measured.without
    seen = piece.bending.seen & without.bending.seen
    if not seen.any():
        return "Without it no part of the shaft is read."
    ratio = np.where(seen, without.bending.values / piece.bending.values - 1.0, 0.0)
    at = int(np.abs(ratio).argmax())
    return (
        f"Without it EI changes most at {_length(float(piece.stations[at]), lengths)}"
        f" {lengths}, by {signed(100.0 * float(ratio[at]))} %."
    )


def _doubted(measured: Measured, rows: Sequence[str]) -> str:
    first = measured.doubts[0]
    name = f"row {rows[first.place]}"
    if len(measured.doubts) > 1:
        names = sorted(rows[doubt.place] for doubt in measured.doubts)
        return f"rows {listed(names)} look wrong"
    mend = first.mends[0]
    if mend.reading is None:
        return f"{name} looks wrong: read it again"
    return f"{name} looks wrong: {ASKED[mend.slip]}?"


def _lead(measured: Measured, lengths: str) -> str:
    piece = measured.piece
    read = piece.stations[piece.bending.seen]
    unread = piece.length - float(read[-1]) if read.size else piece.length
    if read.size and unread > _TIP_END:
        return (
            f"The last {_length(unread, lengths)} {lengths} are not read: load or swing the "
            "shaft with its tip in the clamp."
        )
    if not any(isinstance(one.reading, Mass) for one in measured.agreements):
        return "The shaft was not weighed; its weight is what shafts usually have."
    return "What is hatched is not read; nothing is said of it."


def _length(value: float, lengths: str) -> str:
    if lengths == "in":
        return fixed(value / INCH, 1)
    return fixed(value / MILLIMETRE)

"""What is said of a slip of many rows of bench readings at once."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from loftwright.constants import MILLIMETRE
from loftwright.physics.bench.measure import Measured
from loftwright.physics.bench.readings import Cantilever, ThreePoint, Torque
from loftwright.physics.bench.slips import Slip
from loftwright.physics.bench.table_slips import TableMend
from loftwright.report.numbers import fixed, listed
from loftwright.report.records import Record, rounded

_ASKED: Final[Mapping[Slip, str]] = MappingProxyType(
    {
        Slip.UNIT: "another unit",
        Slip.SPAN: "another span",
        Slip.MISSING: "a station left out or typed twice",
    }
)


def rows_named(lines: Sequence[int], places: Sequence[int]) -> str:
    """Return rows as they stand in the file: `rows 7 to 22`, or `rows 3, 4 and 9`.

    Parameters
    ----------
    lines : sequence of int
        The row of the file each reading stands on.
    places : sequence of int
        Of the readings, two at least, from 0.
    """
    rows = sorted(lines[place] for place in places)
    if len(rows) > 2 and rows[-1] - rows[0] == len(rows) - 1:
        return f"rows {rows[0]} to {rows[-1]}"
    return f"rows {listed([str(row) for row in rows])}"


def many_said(measured: Measured, lines: Sequence[int]) -> list[str]:
    """Return a sentence for each slip of many rows, the likeliest first.

    Parameters
    ----------
    measured : Measured
    lines : sequence of int
        The row of the file each reading stands on.
    """
    said = []
    for mend in measured.table_mends:
        rows = rows_named(lines, mend.places)
        text = f"{rows.capitalize()} together: {_ASKED[mend.slip]} ({_meant(mend, lines)})?"
        if mend.slip is Slip.MISSING:
            text += " A shaft may be so as well; look at the sheet."
        said.append(text)
    return said


def many_record(measured: Measured, lines: Sequence[int]) -> list[Record]:
    """Return the slips of many rows with the keys of `loftwright shaft bench`.

    Parameters
    ----------
    measured : Measured
    lines : sequence of int
        The row of the file each reading stands on.
    """
    return [
        {
            "rows": [lines[place] for place in mend.places],
            "likely": str(mend.slip),
            "meant": _meant(mend, lines),
            "gain": rounded(mend.gain),
            "undone": measured.undone and at == 0,
        }
        for at, mend in enumerate(measured.table_mends)
    ]


def _meant(mend: TableMend, lines: Sequence[int]) -> str:
    """Return what would then stand in the first of the rows."""
    first = mend.places[0]
    row = f"row {lines[first]}"
    match mend.slip, mend.readings[first]:
        case Slip.SPAN, ThreePoint(span=span):
            return f"{fixed(span / MILLIMETRE, 1)} mm"
        case Slip.MISSING, ThreePoint(station=station):
            return f"{row} at {fixed(station / MILLIMETRE, 1)} mm"
        case _, (ThreePoint() | Cantilever()) as reading:
            bend = fixed(reading.value / MILLIMETRE, 3)
            return f"{row} as {bend} mm under {fixed(reading.force, 1)} N"
        case _, Torque(moment=moment):
            return f"{row} under {fixed(moment, 3)} N m"
    return row

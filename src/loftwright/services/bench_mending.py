"""Rows of a bench sheet put as they were probably meant, one or many at once, and taken back."""

from collections.abc import Sequence
from typing import Final

from loftwright.errors import InputError
from loftwright.physics.bench.readings import Reading
from loftwright.physics.bench.slips import Mend
from loftwright.physics.bench.table_slips import TableMend
from loftwright.services.bench_cells import cells_of
from loftwright.services.bench_reads import ReadHere
from loftwright.services.bench_sheet import Sheet, number_in
from loftwright.services.bench_typing import changed, undone

TOGETHER: Final = "many rows together: "
"""Begins the reason of rows that were changed as one."""


def mended(sheet: Sheet, here: ReadHere, mend: Mend, why: str) -> Sheet:
    """Return a sheet in which a row stands as it was probably meant.

    Raises
    ------
    InputError
        If no usual slip explains the row.
    """
    if mend.reading is None:
        raise InputError("no usual slip explains this reading", place="row", mend="Read it again.")
    return _meant(sheet, here, mend.reading, why)


def many_mended(sheet: Sheet, rows: Sequence[ReadHere], mend: TableMend, why: str) -> Sheet:
    """Return a sheet in which the rows of a slip of many stand as they were probably meant.

    Parameters
    ----------
    sheet : Sheet
    rows : sequence of ReadHere
        Every row that is a reading, in the order of the measurement.
    mend : TableMend
    why : str
        What was probably done wrong.
    """
    for place in mend.places:
        sheet = _meant(sheet, rows[place], mend.readings[place], TOGETHER + why)
    return sheet


def many_taken(sheet: Sheet) -> int:
    """Return how many rows stand as they were changed with others."""
    return len(_together(sheet))


def many_taken_back(sheet: Sheet) -> Sheet:
    """Return a sheet in which the rows that were changed together stand as before."""
    for at, number in _together(sheet):
        sheet = undone(sheet, at, number)
    return sheet


def _together(sheet: Sheet) -> list[tuple[int, int]]:
    return [
        (at, number)
        for at, number, _, row in sheet.places()
        if row.was and row.was[-1].why.startswith(TOGETHER)
    ]


def _meant(sheet: Sheet, here: ReadHere, reading: Reading, why: str) -> Sheet:
    meant, stood = cells_of(sheet, reading), cells_of(sheet, here.reading)
    row = sheet.series[here.series].rows[here.row]
    cells = {
        cell: _alike(sheet, cell, row.cell(cell), text)
        for cell, text in meant.items()
        if text != stood[cell]
    }
    return changed(sheet, here.series, here.row, cells, why) if cells else sheet


def _alike(sheet: Sheet, cell: str, typed: str, text: str) -> str:
    """Return a figure with the unit, the decimal mark and the digits of what was typed."""
    figure, _, unit = typed.strip().partition(" ")
    if unit:
        one = number_in(sheet, cell, f"1 {unit}")
        text = f"{number_in(sheet, cell, text) / one:.6g}"
    plain = figure.replace(",", ".")
    digits = len(plain.partition(".")[2]) if plain.replace(".", "", 1).isdigit() else 0
    padded = f"{float(text):.{digits}f}"
    found = padded if float(padded) == float(text) else text
    marked = found.replace(".", ",") if "," in figure else found
    return f"{marked} {unit}".strip()

"""Measure a shaft from a table of readings."""

from dataclasses import dataclass
from pathlib import Path

from loftwright.errors import ConvergenceError, InputError, IntakeError
from loftwright.evidence.one_thread import one_thread
from loftwright.intake.readings_file import ReadingsTable, ReadRow, read_readings
from loftwright.physics.bench.beliefs import Beliefs, unknowns
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.rows import row_of
from loftwright.physics.shaft.mount import Dressing

__all__ = ["Dressing", "MeasuredShaft", "measure_file"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredShaft:
    """A shaft, and the rows of the file its readings stand on.

    Attributes
    ----------
    measured : Measured
    table : ReadingsTable
        Its rows in the order of the agreements.
    """

    measured: Measured
    table: ReadingsTable


@one_thread()
def measure_file(path: Path, length: float, dressing: Dressing) -> MeasuredShaft:
    """Return the shaft behind a table of readings.

    Parameters
    ----------
    path : Path
    length : float
        Of the shaft, from butt to tip end [m].
    dressing : Dressing
        What was on it while it was measured.

    Returns
    -------
    MeasuredShaft

    Raises
    ------
    IntakeError
        If the file cannot be read, or a row does not suit the shaft; it names the row.
    InputError
        If no shaft is so long.
    ConvergenceError
        If the readings do not settle on one shaft.
    """
    table = read_readings(path, dressing)
    layout = unknowns(length, Beliefs())
    for row in table.rows:
        try:
            row_of(row.reading, layout)
        except InputError as error:
            place = f"{path}, row {row.line}, {error.place}"
            raise IntakeError(error.message, place=place, mend=error.mend) from error
    readings = [row.reading for row in table.rows]
    try:
        measured = measure(length, readings, table.diameters)
    except ConvergenceError as error:
        raise ConvergenceError(
            f"{error.message}; the readings stand on {_lines(table.rows)}",
            place=str(path),
            mend=error.mend,
        ) from error
    return MeasuredShaft(measured=measured, table=table)


def _lines(rows: tuple[ReadRow, ...]) -> str:
    return f"rows {rows[0].line} to {rows[-1].line}"

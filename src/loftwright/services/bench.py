"""Measure a shaft from a table of readings."""

from dataclasses import dataclass
from pathlib import Path

from loftwright.constants import MILLIMETRE
from loftwright.errors import ConvergenceError, InputError, IntakeError, UsageError
from loftwright.evidence.one_thread import one_thread
from loftwright.intake.readings_file import ReadingsTable, ReadRow, read_readings
from loftwright.physics.bench.beliefs import Beliefs, unknowns
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.readings import Cantilever, Diameter, Reading, ThreePoint, Torque
from loftwright.physics.bench.rows import row_of
from loftwright.physics.shaft.limits import LENGTH
from loftwright.physics.shaft.mount import Dressing, End

__all__ = ["Dressing", "MeasuredShaft", "measure_file"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredShaft:
    """A shaft, and the rows of the file its readings stand on.

    Attributes
    ----------
    measured : Measured
    table : ReadingsTable
        Its rows in the order of the agreements.
    whole : bool
        Whether its length is known; else it is told as far as the last support.
    """

    measured: Measured
    table: ReadingsTable
    whole: bool

    @property
    def lines(self) -> tuple[int, ...]:
        """Return the row of the file on which each reading stands."""
        return tuple(row.line for row in self.table.rows)


@one_thread()
def measure_file(path: Path, length: float | None, dressing: Dressing) -> MeasuredShaft:
    """Return the shaft behind a table of readings.

    Parameters
    ----------
    path : Path
    length : float, optional
        Of the shaft, from butt to tip end [m]; may be left out where no reading needs the tip
        end.
    dressing : Dressing
        What was on it while it was measured.

    Returns
    -------
    MeasuredShaft

    Raises
    ------
    IntakeError
        If the file cannot be read, or a row does not suit the shaft; it names the row.
    UsageError
        If a reading needs the length and it is not given.
    InputError
        If no shaft is so long.
    ConvergenceError
        If the readings do not settle on one shaft.
    """
    table = read_readings(path, dressing)
    told_to = _last_place(path, table.rows) if length is None else length
    layout = unknowns(told_to, Beliefs())
    for row in table.rows:
        try:
            row_of(row.reading, layout)
        except InputError as error:
            place = f"{path}, row {row.line}, {error.place}"
            raise IntakeError(error.message, place=place, mend=error.mend) from error
    readings = [row.reading for row in table.rows]
    try:
        measured = measure(told_to, readings, _diameters(table, length))
    except ConvergenceError as error:
        raise ConvergenceError(
            f"{error.message}; the readings stand on {_lines(table.rows)}",
            place=str(path),
            mend=error.mend,
        ) from error
    return MeasuredShaft(measured=measured, table=table, whole=length is not None)


def _diameters(table: ReadingsTable, length: float | None) -> tuple[Diameter, ...]:
    """Return the diameters on the part that is told; all of them where the length is known."""
    if length is not None:
        return table.diameters
    told_to = _furthest(table.rows)
    return tuple(one for one in table.diameters if one.station <= told_to)


def _last_place(path: Path, rows: tuple[ReadRow, ...]) -> float:
    """Return how far readings of a shaft of unknown length reach from the butt [m].

    Raises
    ------
    UsageError
        If a reading needs the tip end, or they reach no further than no shaft would.
    """
    last = _furthest(rows)
    needy = next((row for row in rows if _needs_the_tip(row.reading, last)), None)
    if needy is not None:
        raise UsageError(
            f"a reading of {needy.kind} cannot be used without the shaft's length, from butt to "
            "tip end",
            place=f"--length ({path}, row {needy.line})",
            mend="Give --length as measured, such as --length 1168 or --length 46in.",
        )
    if last < LENGTH.low:
        raise UsageError(
            f"readings up to {last / MILLIMETRE:g} mm tell too little of a shaft",
            place=f"--length ({path})",
            mend="Give --length, from butt to tip end, or read further down the shaft.",
        )
    return last


def _furthest(rows: tuple[ReadRow, ...]) -> float:
    """Return how far from the butt the shaft was bent [m]."""
    return max(_reach(row.reading) for row in rows)


def _reach(reading: Reading) -> float:
    match reading:
        case ThreePoint(station=station, span=span):
            return station + span / 2.0
        case Cantilever(mount=mount, force_at=at) if mount.held is End.BUTT:
            return at
    return 0.0


def _needs_the_tip(reading: Reading, last: float) -> bool:
    """Return whether a reading says nothing of a shaft whose tip end may lie anywhere."""
    if isinstance(reading, Torque):
        return reading.load_at > last
    return _reach(reading) == 0.0


def _lines(rows: tuple[ReadRow, ...]) -> str:
    return f"rows {rows[0].line} to {rows[-1].line}"

"""What a bench sheet reads: its rows as readings, its faults beside their cells, the shaft."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from threading import Lock
from typing import Any, Final

from loftwright.errors import ConvergenceError, InputError, LoftwrightError
from loftwright.physics.bench.beliefs import Beliefs, Unknowns, unknowns
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Diameter,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
)
from loftwright.physics.bench.rows import row_of
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Dressing, End, Mount
from loftwright.services.bench_sheet import (
    Row,
    Series,
    Sheet,
    field_name,
    number_in,
    row_name,
)

_PARTS: Final = {
    "A grip has a weight and a length": {"grip_mass", "grip_length"},
    "A sleeve has a weight, a length and a balance point": {
        *("sleeve_mass", "sleeve_length", "sleeve_balance"),
    },
}
_ON_SHAFT: Final = tuple(sorted(cell for cells in _PARTS.values() for cell in cells))
_CELLS: Final = {
    "end weight": "tip_mass",
    "tip mass": "tip_mass",
    "mass of the shaft": "mass",
    "balance point": "balance",
    "weight": "tip_mass",
}
_one_run: Final = Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadHere:
    """A row that is a reading.

    Attributes
    ----------
    series, row : int
        Where it stands on the sheet, from 0.
    """

    series: int
    row: int
    reading: Reading

    @property
    def name(self) -> str:
        """What the row is called, such as A6."""
        return row_name(self.series, self.row)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SheetRead:
    """What a sheet says.

    Attributes
    ----------
    length : float, optional
        Of the shaft [m]; none while it is not typed.
    readings : tuple of ReadHere
        Rows that can be used, in the order of the measurement's agreements.
    diameters : tuple of Diameter
    faults : mapping of str to LoftwrightError
        By the cell they stand in; the empty name is the sheet's own.
    measured : Measured, optional
        From all readings; none while there is nothing to measure from.
    trusted : Measured, optional
        From the readings that are not doubted; the same while none is.
    """

    length: float | None
    readings: tuple[ReadHere, ...]
    diameters: tuple[Diameter, ...]
    faults: Mapping[str, LoftwrightError]
    measured: Measured | None
    trusted: Measured | None

    def residual(self, place: int) -> float | None:
        """Return how far a reading lies from the shaft of the trusted ones, in its own errors.

        That of a doubted reading is in the errors of both, since they know nothing of it.
        """
        if self.measured is None or self.trusted is None:
            return None
        doubts = {one.place: one.surprise for one in self.measured.doubts}
        if place in doubts:
            return doubts[place]
        before = sum(1 for one in doubts if one < place)
        return self.trusted.agreements[place - before].residual


def read_sheet(sheet: Sheet) -> SheetRead:
    """Return what the rows of a sheet say; a row that cannot be read is told and left as it is.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    SheetRead

    Notes
    -----
    A row without a reading is none yet. A set-up is never assumed: a reading without one is a
    fault at the empty cell.
    """
    faults: dict[str, LoftwrightError] = {}
    length = _length(sheet, faults)
    layout = _layout(length, faults)
    dressing = _dressing(sheet, faults)
    readings: list[ReadHere] = []
    diameters: list[Diameter] = []
    for at, number, series, row in sheet.places():
        if not row.cell(series.of.read):
            continue
        made = _made(sheet, (at, number), series, row, dressing, faults)
        if isinstance(made, Diameter):
            diameters.append(made)
        elif made is not None and _suits(made, layout, (at, number), series, faults):
            readings.append(ReadHere(series=at, row=number, reading=made))
    measured = trusted = None
    if length is not None and layout is not None and readings:
        known = tuple(one for one in diameters if one.station <= length)
        measured = trusted = _measured(length, readings, known, faults)
        if measured is not None and measured.doubts:
            doubted = {doubt.place for doubt in measured.doubts}
            rest = [one for place, one in enumerate(readings) if place not in doubted]
            trusted = _measured(length, rest, known, faults)
    return SheetRead(
        length=length,
        readings=tuple(readings),
        diameters=tuple(diameters),
        faults=faults,
        measured=measured,
        trusted=trusted,
    )


def _length(sheet: Sheet, faults: dict[str, LoftwrightError]) -> float | None:
    text = sheet.head.get("length", "")
    if not text:
        if any(row.cell(series.of.read) for _, _, series, row in sheet.places()):
            faults["length"] = InputError(
                "the length is empty",
                place="length",
                mend="Measure the bare shaft from butt to tip end.",
            )
        return None
    try:
        return number_in(sheet, "length", text)
    except InputError as error:
        faults["length"] = error
        return None


def _layout(length: float | None, faults: dict[str, LoftwrightError]) -> Unknowns | None:
    if length is None:
        return None
    try:
        return unknowns(length, Beliefs())
    except InputError as error:
        faults["length"] = error
        return None


def _dressing(sheet: Sheet, faults: dict[str, LoftwrightError]) -> Dressing | None:
    """Return what is on the shaft; none if that cannot be."""
    figures: dict[str, float] = {}
    for cell in _ON_SHAFT:
        text = sheet.head.get(cell, "")
        if not text:
            continue
        try:
            figures[cell] = number_in(sheet, cell, text)
        except InputError as error:
            faults[cell] = error
    for part, cells in _PARTS.items():
        if figures.keys() & cells:
            for cell in cells - figures.keys() - faults.keys():
                faults[cell] = _empty(cell, f"{part}: give all of them, or leave all empty.")
    if any(cell in faults for cell in _ON_SHAFT):
        return None
    try:
        return Dressing(**figures)
    except InputError as error:
        faults[error.place.replace(" ", "_")] = error
        return None


def _made(
    sheet: Sheet,
    where: tuple[int, int],
    series: Series,
    row: Row,
    dressing: Dressing | None,
    faults: dict[str, LoftwrightError],
) -> Reading | Diameter | None:
    """Return the reading of a row; none, and why, if it is not whole."""
    figures: dict[str, float] = {}
    whole = True
    for cell in series.of.cells:
        name = field_name(*where, cell)
        text = row.cell(cell)
        try:
            if not text:
                raise _empty(cell, "Fill it in: a reading without it says nothing.")
            figures[cell] = number_in(sheet, cell, text)
        except InputError as error:
            faults[name] = error
            whole = False
    if not whole or dressing is None:
        return None
    try:
        return _reading(series, figures, row.cell(series.of.read), dressing)
    except InputError as error:
        faults[field_name(*where, _cell(error.place, series))] = error
        return None


def _reading(
    series: Series, of: Mapping[str, float], typed: str, dressing: Dressing
) -> Reading | Diameter:
    known: dict[str, Any] = {"value": of[series.of.read], "typed": _digits(typed)}
    match series.kind:
        case "diameter":
            return Diameter(station=of["station"], value=of["diameter"])
        case "three_point":
            return ThreePoint(station=of["station"], span=of["span"], force=of["load"], **known)
        case "torque":
            return Torque(clamp=of["clamp"], load_at=of["station"], moment=of["moment"], **known)
        case "mass" | "balance":
            return (Mass if series.kind == "mass" else Balance)(dressing=dressing, **known)
    return _clamped(series, of, known, dressing)


def _clamped(
    series: Series, of: Mapping[str, float], known: Mapping[str, Any], dressing: Dressing
) -> Reading:
    held = End.TIP if series.kind.startswith("tip_") else End.BUTT
    mount = Mount(clamp=of["clamp"], held=held, dressing=dressing)
    if series.of.read == "frequency":
        return Frequency(mount=mount, weight=TipBody(mass=of["tip_mass"]), **known)
    at = of["station"]
    return Cantilever(mount=mount, force=of["load"], force_at=at, read_at=at, **known)


def _suits(
    reading: Reading,
    layout: Unknowns | None,
    where: tuple[int, int],
    series: Series,
    faults: dict[str, LoftwrightError],
) -> bool:
    """Return whether a set-up suits the shaft; where it does not, say so at its cell."""
    if layout is None:
        return True
    try:
        row_of(reading, layout)
    except InputError as error:
        faults[field_name(*where, _cell(error.place, series))] = error
        return False
    return True


def _measured(
    length: float,
    readings: list[ReadHere],
    diameters: tuple[Diameter, ...],
    faults: dict[str, LoftwrightError],
) -> Measured | None:
    try:
        with _one_run:
            return _measure(length, tuple(one.reading for one in readings), diameters)
    except (ConvergenceError, InputError) as error:
        faults[""] = error
        return None


@lru_cache(maxsize=16)
def _measure(
    length: float, readings: tuple[Reading, ...], diameters: tuple[Diameter, ...]
) -> Measured:
    return measure(length, readings, diameters)


def _cell(place: str, series: Series) -> str:
    """Return the cell that an error of the floors below speaks of."""
    words = place.casefold()
    for cell in (_CELLS.get(words, ""), words.replace(" ", "_"), words.rpartition(" ")[2]):
        if cell in series.of.cells:
            return cell
    return series.of.read


def _empty(cell: str, mend: str) -> InputError:
    return InputError(f"{cell.replace('_', ' ')} is empty", place=cell, mend=mend)


def _digits(text: str) -> str:
    """Return the digits of a cell without a unit, so that a slip of them can be told."""
    number = text.replace(",", ".").split()[0] if text.split() else ""
    return number if number.replace(".", "", 1).isdigit() else ""

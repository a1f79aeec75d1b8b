"""Reads a table of bench readings of one shaft: one row a reading, its set-up in the row."""

import difflib
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from loftwright.errors import InputError, IntakeError
from loftwright.intake.cells import is_blank, number_of
from loftwright.intake.dialect import DELIMITERS
from loftwright.intake.files import Record, encodings, read_sample, records
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
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Dressing, End, Mount
from loftwright.units import Unit, unit_of

# What a column holds: the dimension of its unit.
COLUMNS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "station": "length",
        "span": "length",
        "load": "force",
        "deflection": "length",
        "clamp": "length",
        "tip_mass": "mass",
        "frequency": "frequency",
        "moment": "moment",
        "twist": "angle",
        "mass": "mass",
        "balance": "length",
        "diameter": "length",
        "sigma": "share",
    }
)
# What a kind of reading needs; the last is what was read.
KINDS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "three_point": ("station", "span", "load", "deflection"),
        "cantilever": ("clamp", "station", "load", "deflection"),
        "tip_clamped": ("clamp", "station", "load", "deflection"),
        "frequency": ("clamp", "tip_mass", "frequency"),
        "torque": ("clamp", "station", "moment", "twist"),
        "mass": ("mass",),
        "balance": ("balance",),
        "diameter": ("station", "diameter"),
    }
)
_SWUNG_BY_THE_TIP: Final = ("clamp", "tip_mass", "frequency")
_MOST_ROWS: Final = 400
_MEND: Final = "Give a table with a column kind and one row a reading."


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadRow:
    """A reading and the line of the file it stands on.

    Attributes
    ----------
    line : int
        The first line of the file is 1.
    kind : str
        As written in the table.
    reading : Reading
    """

    line: int
    kind: str
    reading: Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsTable:
    """The readings of one shaft.

    Attributes
    ----------
    rows : tuple of ReadRow
    diameters : tuple of Diameter
    """

    rows: tuple[ReadRow, ...]
    diameters: tuple[Diameter, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    value: float
    text: str


def read_readings(path: Path, dressing: Dressing) -> ReadingsTable:
    """Return the readings in a file.

    Parameters
    ----------
    path : Path
    dressing : Dressing
        What was on the shaft while it was measured.

    Returns
    -------
    ReadingsTable

    Raises
    ------
    IntakeError
        If the file cannot be read, a set-up is missing or a figure cannot be; it names the row.
    """
    header, body = _table(path)
    columns = _columns(path, header)
    rows: list[ReadRow] = []
    diameters: list[Diameter] = []
    for record in body:
        kind, cells = _row(path, record, columns)
        try:
            made = _made(kind, cells, dressing)
        except InputError as error:
            raise IntakeError(
                error.message,
                place=f"{path}, row {record.line}, {error.place}",
                mend=error.mend,
            ) from error
        if isinstance(made, Diameter):
            diameters.append(made)
        else:
            rows.append(ReadRow(line=record.line, kind=kind, reading=made))
    if not rows:
        raise IntakeError("holds no reading that weighs or bends", place=str(path), mend=_MEND)
    return ReadingsTable(rows=tuple(rows), diameters=tuple(diameters))


def _table(path: Path) -> tuple[Record, list[Record]]:
    """Return the row of headings and the rows below it."""
    encoding = encodings(read_sample(path), path)[0]
    for delimiter in DELIMITERS:
        found = [one for one in records(path, encoding, delimiter) if not one.blank]
        if found and "kind" in {cell.casefold() for cell in found[0].cells}:
            if len(found) - 1 > _MOST_ROWS:
                raise IntakeError(
                    f"holds {len(found) - 1} readings, more than {_MOST_ROWS}",
                    place=str(path),
                    mend="Give the readings of one shaft in one table.",
                )
            return found[0], found[1:]
    raise IntakeError("holds no table of readings", place=str(path), mend=_MEND)


def _columns(path: Path, header: Record) -> dict[int, tuple[str, Unit | None]]:
    """Return the name and unit of every column that has a heading."""
    found: dict[int, tuple[str, Unit | None]] = {}
    for place, heading in enumerate(header.cells):
        word = heading.strip().casefold()
        if not word:
            continue
        name, _, unit = word.rpartition("_")
        where = f"{path}, heading {heading!r}"
        if word == "kind":
            name, column = "kind", None
        elif name not in COLUMNS:
            near = difflib.get_close_matches(name or word, COLUMNS, n=1)
            raise IntakeError(
                "is no column of a table of readings",
                place=where,
                mend=f"Columns are kind, {', '.join(COLUMNS)}, each with its unit behind it, "
                f"as in {near[0] if near else 'deflection'}_"
                f"{'g' if near == ['mass'] else 'mm'}.",
            )
        else:
            try:
                column = unit_of(unit, COLUMNS[name], place=where)
            except InputError as error:
                raise IntakeError(error.message, place=where, mend=error.mend) from error
        if name in {other for other, _ in found.values()}:
            raise IntakeError(f"{name} stands twice", place=where, mend="Keep one of them.")
        found[place] = (name, column)
    return found


def _row(
    path: Path, record: Record, columns: Mapping[int, tuple[str, Unit | None]]
) -> tuple[str, dict[str, _Cell]]:
    """Return the kind of a row and the cells it has."""
    where = f"{path}, row {record.line}"
    kind, cells = "", {}
    for place, text in enumerate(record.cells):
        if is_blank(text):
            continue
        if place not in columns:
            raise IntakeError(f"{text!r} stands under no heading", place=where, mend=_MEND)
        name, unit = columns[place]
        if unit is None:
            kind = text.strip().casefold().replace("-", "_").replace(" ", "_")
            continue
        value = number_of(text, "," if "," in text and "." not in text else ".")
        if value is None or not math.isfinite(value):
            raise IntakeError(
                f"{text!r} is no number", place=f"{where}, {name}", mend="Write it as 0.541."
            )
        cells[name] = _Cell(value=value * unit.scale + unit.offset, text=text.strip())
    if kind not in KINDS:
        near = difflib.get_close_matches(kind, KINDS, n=1)
        raise IntakeError(
            f"{kind!r} is no kind of reading" if kind else "has no kind",
            place=where,
            mend=f"Did you mean {near[0]}?" if near else f"Kinds are {', '.join(KINDS)}.",
        )
    _check_cells(where, kind, cells)
    return kind, cells


def _check_cells(where: str, kind: str, cells: Mapping[str, _Cell]) -> None:
    """Refuse a set-up that is not whole, or holds what this kind has no use for."""
    needed: Sequence[str] = KINDS[kind]
    if kind == "tip_clamped" and "frequency" in cells:
        needed = _SWUNG_BY_THE_TIP
    lost = [name for name in needed if name not in cells]
    if lost:
        raise IntakeError(
            f"a {kind} reading without {' and '.join(lost)} says nothing",
            place=where,
            mend="Fill it in in this row; a blank cell is never the one above.",
        )
    odd = sorted(set(cells) - {*needed, "sigma"})
    if odd:
        raise IntakeError(
            f"a {kind} reading has no {' or '.join(odd)}",
            place=where,
            mend="Leave that cell blank, or check the kind.",
        )


def _made(kind: str, cells: Mapping[str, _Cell], dressing: Dressing) -> Reading | Diameter:
    """Return the reading of a row whose cells are whole."""
    of = {name: cell.value for name, cell in cells.items()}
    read = _SWUNG_BY_THE_TIP if "frequency" in cells else KINDS[kind]
    known: dict[str, Any] = {"value": of[read[-1]], "typed": cells[read[-1]].text}
    if "sigma" in of:
        known["sigma"] = of["sigma"]
    match kind:
        case "diameter":
            return Diameter(station=of["station"], value=of["diameter"])
        case "three_point":
            return ThreePoint(station=of["station"], span=of["span"], force=of["load"], **known)
        case "torque":
            return Torque(clamp=of["clamp"], load_at=of["station"], moment=of["moment"], **known)
        case "mass" | "balance":
            return (Mass if kind == "mass" else Balance)(dressing=dressing, **known)
    return _clamped(kind, of, known, dressing)


def _clamped(
    kind: str, of: Mapping[str, float], known: Mapping[str, Any], dressing: Dressing
) -> Reading:
    """Return a reading of a shaft that one end holds."""
    held = End.TIP if kind == "tip_clamped" else End.BUTT
    mount = Mount(clamp=of["clamp"], held=held, dressing=dressing)
    if "frequency" in of:
        return Frequency(mount=mount, weight=TipBody(mass=of["tip_mass"]), **known)
    at = of["station"]
    return Cantilever(mount=mount, force=of["load"], force_at=at, read_at=at, **known)

"""A bench sheet: the readings of one shaft as they were typed, each row with its own set-up."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Final

from loftwright.constants import INCH, MILLIMETRE
from loftwright.units import parse_quantity

HEAD_CELLS: Final = (
    *("length", "bench", "grip_mass", "grip_length"),
    *("sleeve_mass", "sleeve_length", "sleeve_balance"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What a kind of reading needs.

    Attributes
    ----------
    title : str
    place : str
        The cell that moves on from row to row; empty for one that does not.
    set_up : tuple of str
        Cells that all rows of a series usually share.
    read : str
        The cell of the reading itself.
    """

    title: str
    place: str
    set_up: tuple[str, ...]
    read: str

    @property
    def cells(self) -> tuple[str, ...]:
        """Every cell of a row."""
        return (*((self.place,) if self.place else ()), *self.set_up, self.read)


KINDS: Final[Mapping[str, Kind]] = MappingProxyType(
    {
        "three_point": Kind(
            title="On two supports",
            place="station",
            set_up=("span", "load"),
            read="deflection",
        ),
        "cantilever": Kind(
            title="Butt clamped, loaded",
            place="station",
            set_up=("clamp", "load"),
            read="deflection",
        ),
        "tip_clamped": Kind(
            title="Tip clamped, loaded",
            place="station",
            set_up=("clamp", "load"),
            read="deflection",
        ),
        "tip_swung": Kind(
            title="Tip clamped, swung",
            place="",
            set_up=("clamp", "tip_mass"),
            read="frequency",
        ),
        "frequency": Kind(
            title="Butt clamped, swung",
            place="",
            set_up=("clamp", "tip_mass"),
            read="frequency",
        ),
        "torque": Kind(title="Twisted", place="station", set_up=("clamp", "moment"), read="twist"),
        "mass": Kind(title="Weighed", place="", set_up=(), read="mass"),
        "balance": Kind(title="Balanced", place="", set_up=(), read="balance"),
        "diameter": Kind(title="Calliper", place="station", set_up=(), read="diameter"),
    }
)
LENGTH_UNITS: Final = MappingProxyType({"mm": MILLIMETRE, "in": INCH})
_OWN_UNITS: Final = MappingProxyType(
    {
        "deflection": "mm",
        "load": "N",
        "tip_mass": "g",
        "frequency": "cpm",
        "moment": "N.m",
        "twist": "deg",
        "mass": "g",
        "grip_mass": "g",
        "sleeve_mass": "g",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """What stood in cells of a row before they were changed for a reason."""

    cells: Mapping[str, str]
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One reading as it was typed, and what stood there before.

    Attributes
    ----------
    cells : mapping of str to str
    was : tuple of Earlier
        The newest last.
    """

    cells: Mapping[str, str] = field(default_factory=dict)
    was: tuple[Earlier, ...] = ()

    def cell(self, name: str) -> str:
        """Return what stands in a cell."""
        return self.cells.get(name, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Readings of one kind, and the set-up that the next row takes.

    Attributes
    ----------
    kind : str
        A key of `KINDS`.
    set_up : mapping of str to str
    rows : tuple of Row
    """

    kind: str
    set_up: Mapping[str, str] = field(default_factory=dict)
    rows: tuple[Row, ...] = ()

    @property
    def of(self) -> Kind:
        """What this kind of reading needs."""
        return KINDS[self.kind]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The readings of one shaft.

    Attributes
    ----------
    lengths : {"mm", "in"}
        The unit of plain lengths; deflections are in mm in both.
    head : mapping of str to str
        Length, bench, and what is on the shaft.
    series : tuple of Series
    """

    lengths: str = "mm"
    head: Mapping[str, str] = field(default_factory=dict)
    series: tuple[Series, ...] = ()

    def unit(self, cell: str) -> str:
        """Return the unit of a plain figure in a cell."""
        return _OWN_UNITS.get(cell, self.lengths)

    def places(self) -> Iterator[tuple[int, int, Series, Row]]:
        """Yield every row with the numbers of its series and of itself, from 0."""
        for at, series in enumerate(self.series):
            for number, row in enumerate(series.rows):
                yield at, number, series, row


def row_name(series: int, row: int) -> str:
    """Return what a row is called, such as A6."""
    return f"{chr(ord('A') + series)}{row + 1}"


def field_name(series: int, row: int, cell: str) -> str:
    """Return the name of a row's cell in a form."""
    return f"s{series}r{row}-{cell}"


def number_in(sheet: Sheet, cell: str, text: str, *, place: str = "") -> float:
    """Return what a cell says in SI.

    Raises
    ------
    InputError
        If it is no number.
    """
    return parse_quantity(text, sheet.unit(cell), place=place or cell)


def figure_text(sheet: Sheet, cell: str, value: float) -> str:
    """Return a value in SI as a cell of this sheet holds it, to six digits."""
    one = parse_quantity("1", sheet.unit(cell), place=cell)
    return f"{value / one:.6g}"


def sheet_text(sheet: Sheet) -> str:
    """Return a sheet as JSON."""
    told = {
        "lengths": sheet.lengths,
        "head": dict(sheet.head),
        "series": [
            {
                "kind": one.kind,
                "set_up": dict(one.set_up),
                "rows": [
                    {
                        "cells": dict(row.cells),
                        "was": [{"cells": dict(old.cells), "why": old.why} for old in row.was],
                    }
                    for row in one.rows
                ],
            }
            for one in sheet.series
        ],
    }
    return json.dumps(told, ensure_ascii=False)


def sheet_of(text: str) -> Sheet:
    """Return a sheet that was kept as JSON."""
    told: dict[str, Any] = json.loads(text)
    return Sheet(
        lengths=told["lengths"],
        head=told["head"],
        series=tuple(
            Series(
                kind=one["kind"],
                set_up=one["set_up"],
                rows=tuple(
                    Row(cells=row["cells"], was=tuple(Earlier(**old) for old in row["was"]))
                    for row in one["rows"]
                ),
            )
            for one in told["series"]
        ),
    )

"""What happens to a bench sheet: typed, mended, undone, and the next row offered."""

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from loftwright.errors import InputError
from loftwright.intake.cells import number_of
from loftwright.services.bench_sheet import (
    HEAD_CELLS,
    KINDS,
    LENGTH_UNITS,
    Earlier,
    Row,
    Series,
    Sheet,
    number_in,
)

MOST_ROWS: Final = 80
MOST_SERIES: Final = 24
LONGEST_CELL: Final = 80
OFFERED: Final = 3
"""How many rows wait below the last one that was read."""

_ROW: Final = re.compile(r"s(\d{1,2})r(\d{1,2})-([a-z_]+)")
_SERIES: Final = re.compile(r"s(\d{1,2})-([a-z_]+)")


def typed_in(sheet: Sheet, fields: Mapping[str, str]) -> Sheet:
    """Return a sheet with what was typed, cell by cell; cells that were not sent stay.

    A reading takes its set-up from the head of its series when it is first typed, and keeps it
    whatever the head says later.

    Raises
    ------
    InputError
        If a cell belongs to no sheet, or there are more rows than a sheet has.
    """
    head = dict(sheet.head)
    series = [_Open(one) for one in sheet.series]
    for name, text in fields.items():
        cell = _cleaned(text, name)
        if name in HEAD_CELLS:
            head[name] = cell
            continue
        for pattern in (_SERIES, _ROW):
            if found := pattern.fullmatch(name):
                _open_of(series, int(found[1]), name).take(found.groups()[1:], cell)
    return replace(sheet, head=head, series=tuple(one.closed() for one in series))


def with_series(sheet: Sheet, kind: str) -> Sheet:
    """Return a sheet with an empty series of a kind behind the others.

    Raises
    ------
    InputError
        If there is no such kind, or there are as many as a sheet has.
    """
    if kind not in KINDS:
        raise InputError(
            f"{kind!r} is no kind of reading",
            place="kind",
            mend=f"Kinds are {', '.join(KINDS)}.",
        )
    if len(sheet.series) >= MOST_SERIES:
        raise InputError(
            f"{MOST_SERIES} series are as many as a sheet has",
            place="kind",
            mend="Keep this sheet as a profile and begin another.",
        )
    return replace(sheet, series=(*sheet.series, Series(kind=kind)))


def spread(sheet: Sheet, at: int) -> Sheet:
    """Return a sheet in which every row of a series has the set-up of its head."""
    series = _series(sheet, at)
    given = {cell: text for cell, text in series.set_up.items() if text}
    rows = []
    for row in series.rows:
        old = {cell: row.cell(cell) for cell, text in given.items() if row.cell(cell) != text}
        if not old:
            rows.append(row)
            continue
        was = (*row.was, Earlier(cells=old, why="the set-up of all rows was changed"))
        rows.append(Row(cells={**row.cells, **given}, was=was))
    return _with(sheet, at, replace(series, rows=tuple(rows)))


def changed(sheet: Sheet, at: int, row: int, cells: Mapping[str, str], why: str) -> Sheet:
    """Return a sheet with other cells in a row; what stood there stays with it."""
    series = _series(sheet, at)
    before = _row(series, row)
    old = Earlier(cells={cell: before.cell(cell) for cell in cells}, why=why)
    made = Row(cells={**before.cells, **cells}, was=(*before.was, old))
    return _with(sheet, at, _with_row(series, row, made))


def undone(sheet: Sheet, at: int, row: int) -> Sheet:
    """Return a sheet in which a row stands as before its last change for a reason."""
    series = _series(sheet, at)
    now = _row(series, row)
    if not now.was:
        return sheet
    made = Row(cells={**now.cells, **now.was[-1].cells}, was=now.was[:-1])
    return _with(sheet, at, _with_row(series, row, made))


def offered_places(sheet: Sheet, series: Series) -> tuple[str, ...]:
    """Return the places that the next rows are offered, by the step typed so far."""
    kind = series.of
    if not kind.place:
        return ("",)
    typed = [row.cell(kind.place) for row in series.rows if row.cell(kind.read)]
    if len(typed) < 2:
        return ("",)
    digits = max(len(text.partition(".")[2]) for text in (one.replace(",", ".") for one in typed))
    last, before = (number_of(text, "," if "," in text else ".") for text in typed[:-3:-1])
    if last is None or before is None or last == before:
        return ("",)
    step = last - before
    comma = any("," in text for text in typed[-2:])
    texts = [f"{last + step * ahead:.{digits}f}" for ahead in range(1, OFFERED + 1)]
    on_it = [text for text in texts if 0.0 < float(text) < _end(sheet)]
    return tuple(text.replace(".", ",") if comma else text for text in on_it) or ("",)


class _Open:
    """A series while it is typed."""

    def __init__(self, series: Series) -> None:
        self.kind, self.set_up = series.kind, dict(series.set_up)
        self.rows = [(dict(row.cells), row.was) for row in series.rows]

    def take(self, where: tuple[str, ...], text: str) -> None:
        cells = KINDS[self.kind].cells
        if where[-1] not in cells:
            raise InputError(
                f"a {self.kind} reading has no {where[-1]}",
                place=where[-1],
                mend="Load the page again.",
            )
        if len(where) == 1:
            self.set_up[where[0]] = text
            return
        number = int(where[0])
        if number >= MOST_ROWS:
            raise InputError(
                f"{MOST_ROWS} rows are as many as a series has",
                place="rows",
                mend="Begin another series.",
            )
        while len(self.rows) <= number:
            self.rows.append(({}, ()))
        self.rows[number][0][where[1]] = text

    def closed(self) -> Series:
        kind = KINDS[self.kind]
        rows = [Row(cells=self._whole(cells), was=was) for cells, was in self.rows]
        made = Series(kind=self.kind, set_up=self.set_up, rows=tuple(rows))
        while rows and not rows[-1].cell(kind.read) and not rows[-1].was:
            rows.pop()
        return replace(made, rows=tuple(rows))

    def _whole(self, cells: dict[str, str]) -> dict[str, str]:
        kind = KINDS[self.kind]
        if not cells.get(kind.read):
            return cells
        usual = {cell: self.set_up.get(cell, "") for cell in kind.set_up}
        return {cell: cells.get(cell, "") or usual.get(cell, "") for cell in kind.cells}


def _cleaned(text: str, name: str) -> str:
    cleaned = text.strip()
    if len(cleaned) > LONGEST_CELL:
        raise InputError(
            f"{len(cleaned)} letters are too many for a cell",
            place=name,
            mend=f"Write {LONGEST_CELL} at most.",
        )
    return cleaned


def _open_of(series: list[_Open], at: int, name: str) -> _Open:
    if at >= len(series):
        raise InputError("this sheet has no such series", place=name, mend="Load the page again.")
    return series[at]


def _series(sheet: Sheet, at: int) -> Series:
    if not 0 <= at < len(sheet.series):
        raise InputError(
            "this sheet has no such series", place="series", mend="Load the page again."
        )
    return sheet.series[at]


def _row(series: Series, row: int) -> Row:
    if not 0 <= row < len(series.rows):
        raise InputError("this sheet has no such row", place="row", mend="Load the page again.")
    return series.rows[row]


def _with(sheet: Sheet, at: int, series: Series) -> Sheet:
    return replace(sheet, series=(*sheet.series[:at], series, *sheet.series[at + 1 :]))


def _with_row(series: Series, row: int, made: Row) -> Series:
    return replace(series, rows=(*series.rows[:row], made, *series.rows[row + 1 :]))


def _end(sheet: Sheet) -> float:
    """Return the length in the sheet's own unit; without one every place is on the shaft."""
    text = sheet.head.get("length", "")
    try:
        return number_in(sheet, "length", text) / LENGTH_UNITS[sheet.lengths]
    except InputError:
        return float("inf")

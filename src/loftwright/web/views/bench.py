"""The bench page of a shaft: the sentence, the shaft lying down, and the sheet row by row."""

from collections.abc import Mapping
from typing import Final

from loftwright.constants import INCH
from loftwright.errors import LoftwrightError
from loftwright.physics.bench.measure import Doubt, Measured
from loftwright.physics.bench.slips import Mend
from loftwright.report.bench_ribbon import ReadAt, bench_ribbon
from loftwright.report.bench_sheet_words import (
    asked,
    change_without,
    doubt_words,
    many_words,
    said_of,
)
from loftwright.report.numbers import count, signed
from loftwright.report.theme_svg import for_screen
from loftwright.services.bench_keeping import OpenSheet
from loftwright.services.bench_mending import many_taken
from loftwright.services.bench_reads import SheetRead
from loftwright.services.bench_sheet import (
    HEAD_CELLS,
    KINDS,
    Row,
    Series,
    Sheet,
    field_name,
    row_name,
)
from loftwright.services.bench_typing import offered_places
from loftwright.web.views.bench_parts import (
    NOTES,
    WORDS,
    BenchView,
    CellView,
    RowView,
    SeriesView,
    Verdict,
)
from loftwright.web.views.rack_rows import Choice

KIND_CHOICES: Final = tuple(Choice(value=kind, text=of.title) for kind, of in KINDS.items())
_UNITS: Final = {"N.m": "N m", "deg": "°"}
_USUAL_LENGTH: Final = 46.0 * INCH
"""Of the shaft that is drawn while none is measured."""


def bench_view(name: str, opened: OpenSheet, read: SheetRead) -> BenchView:
    """Return the bench page of a shaft.

    Parameters
    ----------
    name : str
        Of the shaft.
    opened : OpenSheet
    read : SheetRead
        What the sheet says.
    """
    sheet = opened.sheet
    measured = read.measured
    rows = [one.name for one in read.readings]
    sentence, lead = said_of(name, measured, rows, sheet.lengths)
    if without := _change(measured, sheet.lengths):
        lead = f"{lead} {without}"
    told = [] if measured is None else many_words(measured, rows)
    many = tuple(Choice(value=f"many-{at}", text=words) for at, words in enumerate(told))
    doubts = 0 if measured is None else len(measured.doubts) + bool(many)
    verdicts = _verdicts(sheet, read)
    return BenchView(
        name=name,
        sentence=sentence,
        lead=lead,
        picture=_picture(read),
        state=_state(read, doubts),
        head={
            cell: _cell(sheet, cell, sheet.head.get(cell, ""), cell, read) for cell in HEAD_CELLS
        },
        series=tuple(
            _series(sheet, at, series, read, verdicts) for at, series in enumerate(sheet.series)
        ),
        doubts=doubts,
        many=many,
        taken_together=many_taken(sheet),
        faults=tuple(_told(error) for place, error in read.faults.items() if not place),
        dressed=any(sheet.head.get(cell) for cell in HEAD_CELLS[2:])
        or any(cell in read.faults for cell in HEAD_CELLS[2:]),
    )


def _change(measured: Measured | None, lengths: str) -> str:
    """Return what single doubted rows change; of many rows at once their own words speak."""
    if measured is None or not measured.doubts or measured.undone:
        return ""
    return change_without(measured, lengths)


def _state(read: SheetRead, doubts: int) -> str:
    said = f"{count(len(read.readings) + len(read.diameters), 'row')} read"
    wrong = len(read.faults)
    return (
        said
        + (f", {count(doubts, 'doubt')}" if doubts else "")
        + (f", {count(wrong, 'cell')} to fill or mend" if wrong else "")
        + "."
    )


def _picture(read: SheetRead) -> str:
    measured = read.measured
    doubted = set() if measured is None else {doubt.place for doubt in measured.doubts}
    marks = [
        ReadAt(station=station, name=one.name, doubted=at in doubted)
        for at, one in enumerate(read.readings)
        if (station := _station(one.reading)) is not None
    ]
    length = read.length if measured is not None and read.length else _USUAL_LENGTH
    piece = None if read.trusted is None else read.trusted.piece
    whole = measured.piece if measured is not None and doubted else None
    return for_screen(bench_ribbon(length, piece, marks, whole=whole))


def _station(reading: object) -> float | None:
    for name in ("station", "read_at", "load_at"):
        found = getattr(reading, name, None)
        if found is not None:
            return float(found)
    return None


def _verdicts(sheet: Sheet, read: SheetRead) -> dict[str, Verdict]:
    """Return what is said of each row, by its key."""
    found = {}
    places = {(one.series, one.row): at for at, one in enumerate(read.readings)}
    doubts = {} if read.measured is None else {one.place: one for one in read.measured.doubts}
    for at, number, series, row in sheet.places():
        key = f"s{at}r{number}"
        place = places.get((at, number))
        doubt = None if place is None else doubts.get(place)
        residual = None if place is None else read.residual(place)
        found[key] = Verdict(
            key=key,
            name=row_name(at, number),
            off="" if residual is None else signed(residual, 1),
            doubt=""
            if doubt is None
            else f"Looks wrong, {doubt_words(doubt)}. The picture is of the others.",
            ways=() if doubt is None else _ways(doubt, key),
            taken=_taken(row, series),
            faults=tuple(
                f"{WORDS[cell]}: {_told(error)}"
                for cell in series.of.cells
                if (error := read.faults.get(field_name(at, number, cell))) is not None
            ),
        )
    return found


def _ways(doubt: Doubt, key: str) -> tuple[Choice, ...]:
    return tuple(
        Choice(value=f"mend-{key}-{place}", text=_way(mend))
        for place, mend in enumerate(doubt.mends[:2])
        if mend.reading is not None
    )


def _way(mend: Mend) -> str:
    said = asked(mend)
    return f"{said[:1].upper()}{said[1:]}: take it so"


def _taken(row: Row, series: Series) -> str:
    if not row.was:
        return ""
    old = row.was[-1]
    stood = ", ".join(
        f"{WORDS[cell].lower()} {text or 'empty'}" for cell, text in old.cells.items()
    )
    if not row.cell(series.of.read):
        return f"Read it again; {stood} stood here."
    return f"Before: {stood} ({old.why})."


def _series(
    sheet: Sheet, at: int, series: Series, read: SheetRead, verdicts: Mapping[str, Verdict]
) -> SeriesView:
    rows = [
        _row(sheet, (at, number), series, row, read, verdicts[f"s{at}r{number}"])
        for number, row in enumerate(series.rows)
    ]
    for ahead, place in enumerate(offered_places(sheet, series)):
        number = len(series.rows) + ahead
        cells = {**series.set_up, **({series.of.place: place} if series.of.place else {})}
        blank = Verdict(key=f"s{at}r{number}", name=row_name(at, number))
        rows.append(_row(sheet, (at, number), series, Row(cells=cells), read, blank))
    return SeriesView(
        at=at,
        letter=row_name(at, 0)[0],
        title=series.of.title,
        note=NOTES[series.kind],
        set_up=tuple(
            _cell(sheet, cell, series.set_up.get(cell, ""), f"s{at}-{cell}", read)
            for cell in series.of.set_up
        ),
        rows=tuple(rows),
    )


def _row(
    sheet: Sheet,
    where: tuple[int, int],
    series: Series,
    row: Row,
    read: SheetRead,
    verdict: Verdict,
) -> RowView:
    return RowView(
        key=verdict.key,
        name=verdict.name,
        cells=tuple(
            _cell(
                sheet,
                cell,
                row.cell(cell),
                field_name(*where, cell),
                read,
                reading=cell == series.of.read,
            )
            for cell in series.of.cells
        ),
        verdict=verdict,
    )


def _cell(
    sheet: Sheet, cell: str, value: str, name: str, read: SheetRead, *, reading: bool = False
) -> CellView:
    unit = "" if cell == "bench" else sheet.unit(cell)
    error = read.faults.get(name)
    return CellView(
        name=name,
        words=WORDS[cell],
        unit=_UNITS.get(unit, unit),
        value=value,
        fault="" if error is None else _told(error),
        reading=reading,
    )


def _told(error: LoftwrightError) -> str:
    message = f"{error.message[:1].upper()}{error.message[1:]}."
    return f"{message} {error.mend}".strip()

"""A shaft's bench sheet in the studio: typed, mended, kept as a profile."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from loftwright.domain.kept_profile import kept_profile
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.intake.readings_file import read_readings
from loftwright.physics.bench.readings import (
    Frequency,
    Reading,
)
from loftwright.physics.shaft.mount import BARE
from loftwright.report.numbers import count, listed
from loftwright.services.bench_cells import cells_of
from loftwright.services.bench_reads import SheetRead, read_sheet
from loftwright.services.bench_sheet import (
    KINDS,
    Earlier,
    Row,
    Series,
    Sheet,
    sheet_of,
    sheet_text,
)
from loftwright.services.measuring import keep_profile
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio

BEGUN_ANEW: Final = "begun anew"
_WRITTEN_OVER: Final = "written over from another page"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenSheet:
    """A shaft's open sheet with the version under which it was read; 0 for a bare one."""

    piece: Piece
    sheet: Sheet
    version: int


def open_sheet(studio: Studio, piece: str) -> OpenSheet:
    """Return the open sheet of a shaft, a bare one if nothing was typed yet.

    Raises
    ------
    NotFoundError
        If the rack has no such shaft.
    """
    rack = studio.store.rack()
    found = rack.pieces.get(piece)
    if found is None or found.model not in rack.shafts:
        raise NotFoundError(
            "the rack has no such shaft", place=piece, mend="Open a shaft from the rack."
        )
    kept = studio.store.bench_sheet(piece)
    if kept.version:
        return OpenSheet(piece=found, sheet=sheet_of(kept.value), version=kept.version)
    metric = read_settings(studio).settings.units == "metric"
    bare = Sheet(lengths="mm" if metric else "in", series=(Series(kind="three_point"),))
    return OpenSheet(piece=found, sheet=bare, version=0)


def write_sheet(
    studio: Studio,
    piece: str,
    change: Callable[[Sheet], Sheet],
    *,
    version: int | None = None,
    merge: bool = False,
) -> OpenSheet:
    """Change a shaft's sheet and return it as it then stands.

    Parameters
    ----------
    studio : Studio
    piece : str
    change : callable
        Makes the new sheet of the one that stands.
    version : int, optional
        Under which the page was drawn; without it whatever stands is changed.
    merge : bool
        Cells of a page that is not the newest are written all the same, and a reading that they
        replace stays beside its row.

    Raises
    ------
    ConflictError
        If somebody else wrote since that version, and it is not merged.
    InputError
        If a cell cannot be taken.
    """
    with studio.lock:
        now = open_sheet(studio, piece)
        stale = version is not None and version != now.version
        if stale and not merge:
            raise ConflictError(
                "another page wrote on this sheet meanwhile",
                place="sheet",
                mend="What you typed stands below; save again to write it over the other.",
            )
        made = change(now.sheet)
        if stale:
            made = _with_replaced(now.sheet, made)
        if made == now.sheet:
            return now
        number = studio.store.set_bench_sheet(piece, sheet_text(made), version=now.version)
    return OpenSheet(piece=now.piece, sheet=made, version=number)


def begin_anew(studio: Studio, piece: str) -> None:
    """Close a shaft's sheet without a profile; it stays on record."""
    open_sheet(studio, piece)
    studio.store.close_bench_sheet(piece, BEGUN_ANEW)


def keep_sheet(
    studio: Studio, piece: str, *, with_doubts: bool, version: int | None = None
) -> MeasuredProfile:
    """Keep what a sheet reads as the shaft's profile, and close the sheet.

    Parameters
    ----------
    studio : Studio
    piece : str
    with_doubts : bool
        Whether doubted readings are known and stay in it.
    version : int, optional
        Under which the page was drawn.

    Raises
    ------
    InputError
        If the sheet has faults, reads nothing, names no bench, or doubts stand unsaid.
    ConflictError
        If somebody else wrote since that version.
    """
    with studio.lock:
        now = open_sheet(studio, piece)
        if version is not None and version != now.version:
            raise ConflictError(
                "another page wrote on this sheet meanwhile",
                place="sheet",
                mend="Look at what stands now, then keep it.",
            )
        read = read_sheet(now.sheet)
        measured = read.measured
        if read.faults or measured is None:
            raise InputError(
                "a cell is not right yet" if read.faults else "nothing is read yet",
                place="keep",
                mend="Mend what is marked, then keep the profile.",
            )
        bench = now.sheet.head.get("bench", "")
        if not bench:
            raise InputError("the bench has no name", place="bench", mend="Name the bench.")
        doubts = len(measured.doubts) + bool(measured.table_mends)
        if doubts and not with_doubts:
            raise InputError(
                f"{count(doubts, 'doubt')} not settled",
                place="with_doubts",
                mend="Settle each at its row, or tick that you keep it with them.",
            )
        profile = kept_profile(
            measured,
            piece=piece,
            day=studio.today(),
            bench=bench,
            conditions=conditions(now.sheet, read),
        )
        kept = keep_profile(studio, profile)
        studio.store.close_bench_sheet(piece, kept.id)
    return kept


def conditions(sheet: Sheet, read: SheetRead) -> str:
    """Return how a shaft was measured, in words made from the set-ups of the rows."""
    said = [_series_words(sheet, series) for series in sheet.series]
    said.append(_dressed(sheet))
    if read.measured is not None and read.measured.doubts:
        rows = [read.readings[doubt.place].name for doubt in read.measured.doubts]
        said.append(
            f"kept with {count(len(rows), 'doubt')}: {'row' if len(rows) == 1 else 'rows'} "
            f"{listed(sorted(rows))}"
        )
    if read.measured is not None and read.measured.table_mends:
        mend = read.measured.table_mends[0]
        names = [read.readings[place].name for place in mend.places]
        said.append(f"kept with a doubt of rows {names[0]} to {names[-1]} together: {mend.slip}")
    return "; ".join(one for one in said if one)


def with_table(sheet: Sheet, content: bytes) -> Sheet:
    """Return a sheet with the readings of a table behind its own.

    Raises
    ------
    IntakeError
        If the table cannot be read; it names the row.
    """
    if not content.strip():
        raise InputError(
            "there is no table", place="pasted", mend="Choose a file, or paste its lines."
        )
    with TemporaryDirectory(prefix="loftwright-") as folder:
        path = Path(folder) / "readings.csv"
        path.write_bytes(content)
        table = read_readings(path, BARE)
    made = [one for one in sheet.series if one.rows]
    for row in table.rows:
        made = _added(sheet, made, _kind(row.kind, row.reading), cells_of(sheet, row.reading))
    for one in table.diameters:
        made = _added(sheet, made, "diameter", cells_of(sheet, one))
    return Sheet(lengths=sheet.lengths, head=sheet.head, series=tuple(made))


def _added(sheet: Sheet, made: list[Series], kind: str, cells: Mapping[str, str]) -> list[Series]:
    """Return series with one row more, in the last of its kind that shares its set-up."""
    set_up = {cell: cells[cell] for cell in KINDS[kind].set_up}
    row = Row(cells=cells)
    if made and made[-1].kind == kind and dict(made[-1].set_up) == set_up:
        last = made[-1]
        return [*made[:-1], Series(kind=kind, set_up=set_up, rows=(*last.rows, row))]
    if len(made) >= len(sheet.series) + 20:
        raise InputError(
            "the table has more set-ups than a sheet has series",
            place="table",
            mend="Give rows of one set-up one after the other.",
        )
    return [*made, Series(kind=kind, set_up=set_up, rows=(row,))]


def _kind(kind: str, reading: Reading) -> str:
    swung = kind == "tip_clamped" and isinstance(reading, Frequency)
    return "tip_swung" if swung else kind


def _series_words(sheet: Sheet, series: Series) -> str:
    rows = [row for row in series.rows if row.cell(series.of.read)]
    if not rows:
        return ""
    words = f"{series.of.title.lower()}: {count(len(rows), 'reading')}"
    for cell in series.of.set_up:
        texts = list(dict.fromkeys(row.cell(cell) for row in rows))
        named = listed(texts) if len(texts) < 4 else f"{texts[0]} to {texts[-1]}"
        words += f", {cell.replace('_', ' ')} {named} {sheet.unit(cell).replace('.', ' ')}"
    return words


def _dressed(sheet: Sheet) -> str:
    said = []
    for part in ("grip", "sleeve"):
        if sheet.head.get(f"{part}_mass"):
            long = f"{sheet.head.get(f'{part}_length', '')} {sheet.unit(f'{part}_length')}"
            said.append(f"{part} on ({sheet.head[f'{part}_mass']} g, {long})")
    return " and ".join(said) or "bare"


def _with_replaced(before: Sheet, after: Sheet) -> Sheet:
    """Return a sheet on which a reading that another page had typed stays beside its row."""
    made = after
    for at, number, series, row in before.places():
        cell = series.of.read
        now = after.series[at].rows[number] if number < len(after.series[at].rows) else Row()
        if row.cell(cell) and now.cell(cell) and now.cell(cell) != row.cell(cell):
            was = Earlier(cells={cell: row.cell(cell)}, why=_WRITTEN_OVER)
            made = _with_earlier(made, at, number, was)
    return made


def _with_earlier(sheet: Sheet, at: int, number: int, was: Earlier) -> Sheet:
    """Return a sheet on which a row remembers what stood there before."""
    series = sheet.series[at]
    row = series.rows[number]
    made = Row(cells=row.cells, was=(*row.was, was))
    rows = (*series.rows[:number], made, *series.rows[number + 1 :])
    told = replace(series, rows=rows)
    return replace(sheet, series=(*sheet.series[:at], told, *sheet.series[at + 1 :]))

"""The bench's own page: does it read as it always did, and what lies on it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, MILLIMETRE
from loftwright.domain.rack import Rack
from loftwright.physics.bench.day_check import DayCheck
from loftwright.physics.bench.readings import Reading
from loftwright.report.numbers import count, fixed, listed, signed
from loftwright.services.bench_sheet import KINDS
from loftwright.services.day_check import DayRead, Master, days_wanted
from loftwright.web.views.bench_parts import WORDS
from loftwright.web.views.rack_lineage import sample_words

_LOOK: Final = {"three_point": "load and span", "frequency": "clamp and the weight on the end"}
_UNITS: Final = {"three_point": (MILLIMETRE, 3, "mm"), "frequency": (CYCLE_PER_MINUTE, 1, "cpm")}
_SHOWN: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRow:
    """One day of a master shaft; figures by kind as they are shown."""

    day: str
    figures: tuple[str, ...]
    moved: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MasterView:
    """A bench's master shaft.

    Attributes
    ----------
    kinds : tuple of (str, str, str)
        Of each kind that is read: key, words with the set-up, unit.
    """

    bench: str
    piece: str
    name: str
    said: str
    kinds: tuple[tuple[str, str, str], ...]
    rows: tuple[DayRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenRow:
    """A shaft whose sheet is open."""

    piece: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchDayView:
    """The bench's own page."""

    sentence: str
    lead: str
    masters: tuple[MasterView, ...]
    open: tuple[OpenRow, ...]


def day_view(
    rack: Rack,
    known: Sequence[tuple[Master, tuple[DayRead, ...]]],
    sheets: Mapping[str, str],
    today: date,
) -> BenchDayView:
    """Return the bench's own page.

    Parameters
    ----------
    rack : Rack
    known : sequence of (Master, tuple of DayRead)
        Every bench's master shaft with its days.
    sheets : mapping of str to str
        Open sheets by their shaft.
    today : date
    """
    views = tuple(_master(rack, master, days, today) for master, days in known)
    open_rows = tuple(
        OpenRow(piece=piece, name=sample_words(rack, rack.pieces[piece]))
        for piece in sheets
        if piece in rack.pieces
    )
    if not views:
        sentence = "No bench has a master shaft: nobody would see that one has moved."
        lead = "Mark a shaft that stays in the shop, and read it before each day’s measuring."
    else:
        moved = [one for one, (_, days) in zip(views, known, strict=True) if _moved(days, today)]
        sentence = (moved or views)[0].said
        lead = (
            "What moves the master moves every shaft of the day by the same share."
            if moved
            else "The master tells what no other shaft can: whether the bench itself has moved."
        )
    return BenchDayView(sentence=sentence, lead=lead, masters=views, open=open_rows)


def _master(rack: Rack, master: Master, days: tuple[DayRead, ...], today: date) -> MasterView:
    kinds = tuple(
        (one.kind, _how(master, at), _UNITS[one.kind][2])
        for at, one in enumerate(master.set_up.series)
        if any(one.set_up.values())
    )
    return MasterView(
        bench=master.bench,
        piece=master.piece,
        name=sample_words(rack, rack.pieces[master.piece]),
        said=_said(master, days, today),
        kinds=kinds,
        rows=tuple(_row(day, [kind for kind, _, _ in kinds]) for day in reversed(days[-_SHOWN:])),
    )


def _said(master: Master, days: tuple[DayRead, ...], today: date) -> str:
    bench = master.bench
    if not days or days[-1].day != today:
        return f"{bench} has not read its master shaft today."
    last = days[-1]
    if not last.checks:
        wanted = days_wanted(days)
        return (
            f"{bench} has read its master on {count(len(days), 'day')}: "
            f"{count(max(wanted, 1), 'day')} more, then it can be told whether it moved."
        )
    moved = _moved(days, today)
    if moved:
        kind, check = max(moved.items(), key=lambda one: abs(one[1].surprise))
        stiff = check.stiffness or 0.0
        way = "stiff" if stiff > 0.0 else "soft"
        return (
            f"{bench} reads {fixed(100.0 * abs(stiff), 1)} % {way} today (repeat "
            f"{fixed(100.0 * check.repeat, 1)} %): check {_LOOK[kind]} before you measure."
        )
    repeats = listed([f"{fixed(100.0 * one.repeat, 1)} %" for one in last.checks.values()])
    return f"{bench} reads as it always did; its readings repeat within {repeats}."


def _moved(days: tuple[DayRead, ...], today: date) -> dict[str, DayCheck]:
    """Return today's checks that say the bench moved, by kind."""
    if not days or days[-1].day != today:
        return {}
    return {kind: one for kind, one in days[-1].checks.items() if one.moved}


def _row(day: DayRead, kinds: Sequence[str]) -> DayRow:
    return DayRow(
        day=f"{day.day:%d %B %Y}".lstrip("0"),
        figures=tuple(
            _figure(kind, day.readings.get(kind), day.checks.get(kind)) for kind in kinds
        ),
        moved=any(one.moved for one in day.checks.values()),
    )


def _figure(kind: str, reading: Reading | None, check: DayCheck | None) -> str:
    if reading is None:
        return "not read"
    size, digits, unit = _UNITS[kind]
    said = f"{fixed(reading.value / size, digits)} {unit}"
    return said if check is None else f"{said}, {signed(100.0 * check.shift, 1)} %"


def _how(master: Master, at: int) -> str:
    series = master.set_up.series[at]
    sheet = master.set_up
    cells = dict(series.rows[0].cells) if series.rows else {}
    cells |= series.set_up
    said = ", ".join(
        f"{WORDS[cell].lower()} {text} {sheet.unit(cell)}"
        for cell, text in cells.items()
        if cell in series.of.cells and text
    )
    return f"{WORDS[KINDS[series.kind].read]} ({said})"

"""The day as a steel rule from 8:00 to 20:00, with a bar for every visit in its bay."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import time
from enum import StrEnum
from html import escape
from itertools import groupby
from typing import Final

from loftwright.errors import InputError
from loftwright.report.look import ACCENT, EDGE, FAIRWAY, HAIR, INK, SHEET
from loftwright.report.picture_parts import fitted, label, level_rule, picture, stroke, text_width

WIDTH: Final = 880.0
OPENS: Final = 8
CLOSES: Final = 20

_LEFT, _RIGHT = 86.0, 858.0
_TOP, _BAR, _LANE = 26.0, 50.0, 60.0


class Stage(StrEnum):
    """Where a visit stands."""

    TO_COME = "to come"
    NOW = "now"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """One visit of the day.

    Attributes
    ----------
    bay : str
        Its lane in the picture.
    name : str
        What the bar says.
    start, end : time
    stage : Stage
    """

    bay: str
    name: str
    start: time
    end: time
    stage: Stage = Stage.TO_COME

    def __post_init__(self) -> None:
        if self.end <= self.start:
            raise InputError(
                f"a visit from {_clock(self.start)} to {_clock(self.end)} does not last",
                place="end",
                mend="Give an end after the start, on the same day.",
            )


def day_picture(
    bookings: Sequence[Booking],
    bays: Sequence[str],
    *,
    now: time | None = None,
    prefix: str = "day",
) -> str:
    """Draw the day; the rule is bare when nothing is on.

    Parameters
    ----------
    bookings : sequence of Booking
        In any order; a bay's visits that overlap stand under each other.
    bays : sequence of str
        The lanes from the top; a bay that only a booking names is added below.
    now : time, optional
        Drawn as an upright line.
    prefix : str
        Beginning of the picture's ids.
    """
    lanes = list(dict.fromkeys([*bays, *(booking.bay for booking in bookings)]))
    top, parts = _TOP, []
    for bay in lanes:
        rows = _rows([booking for booking in bookings if booking.bay == bay])
        parts.append(label(0.0, top + 36.0, fitted(bay, _LEFT - 10.0), soft=True))
        for row in rows:
            ends = [*(_x(booking.start) for booking in row[1:]), _RIGHT]
            parts += [
                _bar(booking, top + 5.0, end) for booking, end in zip(row, ends, strict=False)
            ]
            top += _LANE
        parts.append(stroke(f"M{_LEFT:.1f} {top:.1f}H{_RIGHT:.1f}", colour=HAIR, width=1.0))
    base = top + 6.0
    # The line of the present stands behind the bars, so that no name is crossed out.
    parts = [*_now(now, base), *parts, _hours(base)]
    title = f"The day from {OPENS}:00 to {CLOSES}:00"
    title += "" if bookings else ", nothing is booked"
    return picture(WIDTH, base + 34.0, parts, title=title, prefix=prefix)


def day_words(bookings: Sequence[Booking], bays: Sequence[str], *, now: time | None = None) -> str:
    """Return the day in sentences, one a bay.

    Parameters
    ----------
    bookings : sequence of Booking
    bays : sequence of str
    now : time, optional
    """
    clock = f"It is {_clock(now)}. " if now else ""
    if not bookings:
        return f"{clock}Nothing is booked today."
    ordered = sorted(bookings, key=lambda one: (one.bay, one.start))
    by_bay = {bay: list(visits) for bay, visits in groupby(ordered, lambda one: one.bay)}
    told = []
    for bay in dict.fromkeys([*bays, *by_bay]):
        visits = [
            f"{one.name} {_clock(one.start)} to {_clock(one.end)}, {one.stage}"
            for one in by_bay.get(bay, [])
        ]
        told.append(f"{bay}: {'; '.join(visits) or 'free'}.")
    return clock + " ".join(told)


def _clock(moment: time) -> str:
    return f"{moment.hour}:{moment.minute:02d}"


def _x(moment: time) -> float:
    hours = moment.hour + moment.minute / 60.0
    share = (hours - OPENS) / (CLOSES - OPENS)
    return _LEFT + min(max(share, 0.0), 1.0) * (_RIGHT - _LEFT)


def _rows(bookings: Sequence[Booking]) -> list[list[Booking]]:
    """Put every visit in the first row whose last visit is over."""
    rows: list[list[Booking]] = [[]]
    for booking in sorted(bookings, key=lambda one: (one.start, one.end)):
        free = next((row for row in rows if not row or row[-1].end <= booking.start), None)
        if free is None:
            rows.append([booking])
        else:
            free.append(booking)
    return rows


def _bar(booking: Booking, top: float, end: float) -> str:
    """Draw a visit's bar; the name of a very short one stands beside it, before the next."""
    left, right = _x(booking.start), _x(booking.end)
    width = max(right - left - 2.0, 4.0)
    fill = {Stage.NOW: ACCENT, Stage.DONE: SHEET, Stage.TO_COME: FAIRWAY}[booking.stage]
    line = ACCENT if booking.stage is Stage.NOW else EDGE
    dash = ' stroke-dasharray="3 4"' if booking.stage is Stage.DONE else ""
    title = f"{booking.name}, {_clock(booking.start)} to {_clock(booking.end)}, {booking.stage}"
    return (
        f'<g><title>{escape(title)}</title><rect x="{left:.1f}" y="{top:.1f}" '
        f'width="{width:.1f}" height="{_BAR:.0f}" fill="{fill}" stroke="{line}" '
        f'stroke-width="1.5"{dash}/>{"".join(_name(booking, left, top, (width, end)))}</g>'
    )


def _name(booking: Booking, left: float, top: float, space: tuple[float, float]) -> Iterator[str]:
    """Write the name on the bar, on two lines where one is too short for it."""
    width, end = space
    room, beside = width - 10.0, width < 44.0
    if beside:
        left, room = left + width, end - left - width - 12.0
    strong = booking.stage is not Stage.DONE
    lines = [booking.name]
    if text_width(booking.name, bold=strong) > room and " " in booking.name:
        lines = booking.name.split(" ", 1)
    lines = [cut for cut in (fitted(line, room, bold=strong) for line in lines) if len(cut) > 1]
    first = top + 31.0 if len(lines) == 1 else top + 20.0
    for index, line in enumerate(lines):
        yield label(
            left + 6.0,
            first + 22.0 * index,
            line,
            bold=strong,
            soft=not strong,
            on_accent=booking.stage is Stage.NOW and not beside,
        )


def _now(now: time | None, base: float) -> Iterator[str]:
    if now is None:
        return
    x = _x(now)
    yield stroke(f"M{x:.1f} {_TOP - 2:.1f}V{base:.1f}", colour=INK, width=2.0)
    yield f'<path d="M{x - 7:.1f} {_TOP - 6:.1f}h14l-7 9z" fill="{INK}"/>'
    yield label(x, 15.0, _clock(now), anchor="middle", bold=True)


def _hours(base: float) -> str:
    ticks, numerals = [], {}
    for quarter in range(4 * (CLOSES - OPENS) + 1):
        x = _LEFT + quarter / (4.0 * (CLOSES - OPENS)) * (_RIGHT - _LEFT)
        ticks.append((x, 4.0 if quarter % 2 else 8.0 if quarter % 4 else 12.0))
        if quarter % 4 == 0:
            numerals[x] = f"{OPENS + quarter // 4}:00"
    return level_rule(ticks, numerals, base, (_LEFT, _RIGHT))

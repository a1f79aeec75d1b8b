"""The report as a PDF: tagged, titled, and the same bytes for the same content."""

import json
from collections.abc import Mapping
from pathlib import Path

from loftwright.report.content import ReportContent
from loftwright.report.fitter_page import fitter_page, told_pair, why_chart
from loftwright.report.fonts import SANS, SERIF
from loftwright.report.glyphs import STAND_IN, clean, printable
from loftwright.report.golfer_page import golfer_page
from loftwright.report.look import CAUTION, HAIR, INK, INK_2, ON_CAUTION, WASH
from loftwright.report.marks import RING_RADIUS, Mark, marks_of_fitting
from loftwright.report.room import (
    FITTER_ROOMS,
    GOLFER_ROOMS,
    MOST_ON_ONE_PAGE,
    FitterRoom,
    Reasons,
)
from loftwright.report.runs import breakable, mark_key, shortened
from loftwright.report.typesetting import compiler, pdf_bytes

_TEMPLATE = "report.typ"


def write_report(content: ReportContent, path: Path) -> None:
    """Write a report as PDF.

    Parameters
    ----------
    content : ReportContent
        What it shows.
    path : Path
        Where to; an existing file is replaced only by a whole one.

    Raises
    ------
    OSError
        If it cannot be written there; nothing is left beside it.
    """
    data = report_bytes(content)
    partial = path.with_name(f"{path.name}.part")
    try:
        partial.write_bytes(data)
        partial.replace(path)
    except OSError:
        partial.unlink(missing_ok=True)
        raise


def report_bytes(content: ReportContent) -> bytes:
    """Return a report as PDF, the golfer's page first and the fitter's after it.

    Parameters
    ----------
    content : ReportContent
        What it shows.

    Returns
    -------
    bytes
        PDF/UA-1; for up to eight clubs two pages.
    """
    marks = marks_of_fitting(content.decision, content.table)
    data = _fitting_data(content, marks)
    return pdf_bytes(compiler(_TEMPLATE, data), content.visit_date)


def _fitting_data(content: ReportContent, marks: Mapping[str, Mark]) -> dict[str, object]:
    """Return the data of the widest layout in which each of the two pages is one page."""
    why = why_chart(told_pair(content.decision), content.show)
    rooms = _fitter_rooms(content)
    golfer_rooms, fitter_rooms = iter(GOLFER_ROOMS), iter(rooms)
    golfer = _settable(golfer_page(content, marks, next(golfer_rooms)))
    fitter = _settable(fitter_page(content, marks, next(fitter_rooms), why))
    while True:
        data = {**_frame(content, marks), "golfer": golfer, "fitter": fitter}
        pages = json.loads(compiler(_TEMPLATE, data).query("<pages>", field="value", one=True))
        tighter = (
            next(golfer_rooms, None) if pages["golfer"] > 1 else None,
            next(fitter_rooms, None) if pages["fitter"] > 1 else None,
        )
        if tighter == (None, None):
            return data
        if tighter[0] is not None:
            golfer = _settable(golfer_page(content, marks, tighter[0]))
        if tighter[1] is not None:
            fitter = _settable(fitter_page(content, marks, tighter[1], why))


def _fitter_rooms(content: ReportContent) -> tuple[FitterRoom, ...]:
    """Return the rooms to try; a page that may go on keeps its reasons and ends roomy."""
    if len(content.decision.clubs) <= MOST_ON_ONE_PAGE:
        return FITTER_ROOMS
    told = tuple(room for room in FITTER_ROOMS if room.reasons is Reasons.ALL)
    return (*told, FITTER_ROOMS[0])


def _frame(content: ReportContent, marks: Mapping[str, Mark]) -> dict[str, object]:
    """Return what both pages share."""
    return {
        "title": clean(content.title),
        "author": clean(content.studio) or "Loftwright",
        "dated": content.visit_date is not None,
        "studio": shortened(content.studio, 40),
        "missing": _missing(content),
        "look": {
            "ink": INK,
            "ink2": INK_2,
            "hair": HAIR,
            "wash": WASH,
            "caution": CAUTION,
            "on-caution": ON_CAUTION,
            "sans": SANS,
            "serif": SERIF,
            "ring": RING_RADIUS,
        },
        "marks": {
            mark_key(name): {"colour": mark.colour, "points": mark.points, "bars": mark.bars}
            for name, mark in marks.items()
        },
    }


def _missing(content: ReportContent) -> str:
    """Return the line that explains the stand-in for letters, where a name needs it."""
    names = [content.golfer, content.fitter, content.studio, content.decision.home.name]
    names += [club.club for club in content.decision.clubs]
    if not any(STAND_IN in printable(name) for name in names):
        return ""
    return f"{STAND_IN} stands for a letter that the typefaces of this page do not have."


def _settable(value: object, key: str = "") -> object:
    """Return data whose words the typefaces can set; drawings and keys of marks stay."""
    if isinstance(value, dict):
        return {name: _settable(inner, name) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_settable(inner, key) for inner in value]
    if not isinstance(value, str) or key in {"svg", "mark"}:
        return value
    return clean(value) if key == "alt" else breakable(value)

"""The report as a PDF: tagged, titled, and the same bytes for the same content."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from functools import cache
from importlib.resources import files
from pathlib import Path

import typst

from loftwright.report.content import ReportContent
from loftwright.report.fitter_page import fitter_page
from loftwright.report.fonts import SANS, SERIF, font_folders
from loftwright.report.glyphs import clean, printable
from loftwright.report.golfer_page import golfer_page
from loftwright.report.look import CAUTION, HAIR, INK, INK_2, ON_CAUTION, WASH
from loftwright.report.marks import RING_RADIUS, Mark, marks_of_fitting
from loftwright.report.room import ROOMS, Room
from loftwright.report.runs import shortened

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def write_report(content: ReportContent, path: Path) -> None:
    """Write a report as PDF.

    Parameters
    ----------
    content : ReportContent
        What it shows.
    path : Path
        Where to; an existing file is replaced only by a whole one.
    """
    data = report_bytes(content)
    partial = path.with_name(f"{path.name}.part")
    partial.write_bytes(data)
    partial.replace(path)


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
    golfer, fitter = 0, 0
    while True:
        data = _data(content, marks, ROOMS[golfer], ROOMS[fitter])
        pages = json.loads(_compiler(data).query("<pages>", field="value", one=True))
        more_golfer = pages["golfer"] > 1 and golfer + 1 < len(ROOMS)
        more_fitter = pages["fitter"] > 1 and fitter + 1 < len(ROOMS)
        if not (more_golfer or more_fitter):
            break
        golfer += more_golfer
        fitter += more_fitter
    pdf = _compiler(data).compile(
        format="pdf", pdf_standards="ua-1", timestamp=_timestamp(content)
    )
    if not isinstance(pdf, bytes):
        raise TypeError(f"the typesetter returned {type(pdf).__name__}, not bytes")
    return pdf


def _timestamp(content: ReportContent) -> datetime:
    day = content.visit_date
    return _EPOCH if day is None else datetime(day.year, day.month, day.day, tzinfo=UTC)


@cache
def _template() -> bytes:
    return (files("loftwright.report") / "templates" / "report.typ").read_bytes()


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(folder) for folder in font_folders()],
    )


def _compiler(data: Mapping[str, object]) -> typst.Compiler:
    return typst.Compiler(
        _template(),
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(data, sort_keys=True)},
    )


def _data(
    content: ReportContent, marks: Mapping[str, Mark], golfer: Room, fitter: Room
) -> dict[str, object]:
    return {
        "title": clean(content.title),
        "author": clean(content.studio) or "Loftwright",
        "dated": content.visit_date is not None,
        "studio": shortened(content.studio, 40),
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
            name: {"colour": mark.colour, "points": mark.points, "bars": mark.bars}
            for name, mark in marks.items()
        },
        "golfer": _settable(golfer_page(content, marks, golfer)),
        "fitter": _settable(fitter_page(content, marks, fitter)),
    }


def _settable(value: object, key: str = "") -> object:
    """Return data whose words the typefaces can set; drawings and keys of marks stay."""
    if isinstance(value, dict):
        return {name: _settable(inner, name) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_settable(inner, key) for inner in value]
    if not isinstance(value, str) or key in {"svg", "mark"}:
        return value
    return clean(value) if key == "alt" else printable(value)

"""Sets a template as PDF: tagged, with the program's own typefaces, the same bytes each time."""

import json
from collections.abc import Mapping
from datetime import UTC, date, datetime
from functools import cache
from importlib.resources import files

import typst

from loftwright.report.fonts import font_folders

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def compiler(template: str, data: Mapping[str, object]) -> typst.Compiler:
    """Return a compiler of a template with its data.

    Parameters
    ----------
    template : str
        Its name in the folder of templates, such as ``report.typ``.
    data : mapping
        What it reads as JSON.
    """
    return typst.Compiler(
        _template(template),
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(data, sort_keys=True)},
    )


def pdf_bytes(made: typst.Compiler, day: date | None) -> bytes:
    """Return what a compiler sets as PDF/UA-1, dated by the visit and never by the clock.

    Parameters
    ----------
    made : typst.Compiler
    day : date, optional
        Of the visit.
    """
    stamp = _EPOCH if day is None else datetime(day.year, day.month, day.day, tzinfo=UTC)
    pdf = made.compile(format="pdf", pdf_standards="ua-1", timestamp=stamp)
    if not isinstance(pdf, bytes):
        raise TypeError(f"the typesetter returned {type(pdf).__name__}, not bytes")
    return pdf


@cache
def _template(name: str) -> bytes:
    return (files("loftwright.report") / "templates" / name).read_bytes()


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(folder) for folder in font_folders()],
    )

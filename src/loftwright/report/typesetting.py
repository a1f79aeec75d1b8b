"""Sets a template as PDF: tagged, with the program's own typefaces, the same bytes each time."""

import json
from collections.abc import Mapping
from datetime import UTC, date, datetime
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from loftwright.report.fonts import font_folders

if TYPE_CHECKING:
    import typst

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def compiler(template: str, data: Mapping[str, object]) -> "typst.Compiler":
    """Return a compiler of a template with its data.

    Parameters
    ----------
    template : str
        Its name in the folder of templates, such as ``report.typ``.
    data : mapping
        What it reads as JSON.
    """
    import typst  # noqa: PLC0415 - only paper needs it

    return typst.Compiler(
        _template(template),
        font_paths=typefaces(),
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(data, sort_keys=True)},
    )


def pdf_bytes(made: "typst.Compiler", day: date | None) -> bytes:
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
def typefaces() -> "typst.Fonts":
    """Return the program's own typefaces, and no other of the machine."""
    import typst  # noqa: PLC0415 - only paper needs it

    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(folder) for folder in font_folders()],
    )

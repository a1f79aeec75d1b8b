"""Labels to cut out and stick on pieces: what it is in words, and its code to scan or type."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import segno

from loftwright.domain.piece_code import code_of
from loftwright.errors import InputError
from loftwright.report.fonts import SANS, SERIF
from loftwright.report.glyphs import clean
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.typesetting import compiler, pdf_bytes

MOST_LABELS: Final = 480
QUIET: Final = 4
"""Blank modules around the code, as ISO/IEC 18004 asks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceLabel:
    """What one label says.

    Attributes
    ----------
    piece : str
        Id of the sample.
    name : str
        Of its model.
    mark : str
        What tells the sample from its like.
    facts : str
        Weight, loft, sleeve, in a line.
    """

    piece: str
    name: str
    mark: str = ""
    facts: str = ""


def labels_pdf(labels: Sequence[PieceLabel], *, studio: str, day: date) -> bytes:
    """Return sheets of labels as PDF, twenty-four to a sheet of A4.

    Parameters
    ----------
    labels : sequence of PieceLabel
    studio : str
        The shop's name, on every label; may be empty.
    day : date
        Of the printing.

    Raises
    ------
    InputError
        If there is none, or more than a print of a whole rack.
    """
    if not 1 <= len(labels) <= MOST_LABELS:
        raise InputError(
            f"{len(labels)} labels cannot be printed at once",
            place="piece",
            mend=f"Choose 1 to {MOST_LABELS} parts.",
        )
    data = {
        "title": "Labels for the rack",
        "studio": clean(studio),
        "look": {"sans": SANS, "serif": SERIF, "ink": INK, "ink2": INK_2, "edge": EDGE},
        "labels": [
            {
                "name": clean(one.name),
                "mark": clean(one.mark),
                "facts": clean(one.facts),
                "code": code_of(one.piece),
                "svg": code_svg(code_of(one.piece)),
            }
            for one in labels
        ],
    }
    return pdf_bytes(compiler("piece_labels.typ", data), day)


def code_svg(code: str) -> str:
    """Return a code as a drawing of black squares, a QR code with its quiet margin.

    Parameters
    ----------
    code : str
        As `code_of` gives it; the scanner types just this.
    """
    made = segno.make_qr(code, error="m", boost_error=False)
    modules = [(x, y) for y, row in enumerate(made.matrix) for x, bit in enumerate(row) if bit]
    side = len(made.matrix) + 2 * QUIET
    squares = "".join(f"M{x + QUIET} {y + QUIET}h1v1h-1z" for x, y in modules)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {side}" width="{side}" '
        f'height="{side}" shape-rendering="crispEdges"><path d="{squares}" fill="#000000"/></svg>'
    )

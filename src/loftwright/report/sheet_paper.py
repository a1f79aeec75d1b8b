"""The build sheet for the workshop's wall, and the tag of a bond that cures, as PDF."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.domain.cautions import Caution
from loftwright.report.fonts import SANS, SERIF
from loftwright.report.glyphs import clean
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.piece_labels import code_svg
from loftwright.report.runs import breakable
from loftwright.report.sheet_lines import BlockShown
from loftwright.report.sheet_targets import TargetShown
from loftwright.report.typesetting import compiler, pdf_bytes

BLANK: Final = "–"
NO_ADVICE: Final = (
    "No legal advice: local law, the adhesive's data sheet and the makers' instructions "
    "come first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperStep:
    """A step as it is printed, with a box for initials.

    Attributes
    ----------
    figures : tuple of str
        What is cut, added or reached in it.
    reads : tuple of str
        What is read at its hold point, with a line to write on.
    done : str
        Who did it already; empty for a box.
    """

    name: str
    hold: str
    figures: tuple[str, ...]
    reads: tuple[str, ...] = ()
    done: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPaper:
    """Everything that is printed of a build sheet.

    Attributes
    ----------
    code : str
        Of the job; it leads to the sheet on a screen.
    player : str
        Initials and hand, never a name.
    sentence : str
        What to cut and add, and what it comes to.
    not_before : str
        Until when nobody hits the club; empty for a line to fill.
    picture : str
        The shaft with its cuts, as SVG.
    departures : sequence of (str, str, str, str)
        What, on the sheet, as built, why.
    """

    code: str
    revision: int
    day: date
    studio: str
    player: str
    sentence: str
    blocks: Sequence[BlockShown]
    targets: Sequence[TargetShown]
    steps: Sequence[PaperStep]
    cautions: Sequence[Caution]
    minds: Sequence[str]
    why: Sequence[str]
    departures: Sequence[tuple[str, str, str, str]]
    glued: bool
    picture: str = ""
    not_before: str = ""


def sheet_pdf(sheet: SheetPaper) -> bytes:
    """Return a build sheet as PDF/UA-1, A4, black on white.

    Parameters
    ----------
    sheet : SheetPaper

    Returns
    -------
    bytes
        The same for the same content.
    """
    return pdf_bytes(compiler("build_sheet.typ", _data(sheet)), sheet.day)


def tag_pdf(*, code: str, not_before: str, mixed: str, adhesive: str, day: date) -> bytes:
    """Return the tag that hangs on a club whose bond cures, four to a sheet of A4.

    Parameters
    ----------
    code : str
        Of the job.
    not_before, mixed : str
        Times as people read them.
    adhesive : str
        With its batch.
    day : date
        Of the printing.
    """
    data = {
        "title": f"Do not hit, {code}",
        "look": _look(),
        "code": code,
        "svg": code_svg(code),
        "not-before": clean(not_before),
        "facts": [f"Mixed {clean(mixed)}", breakable(adhesive)],
    }
    return pdf_bytes(compiler("cure_tag.typ", data), day)


def _data(sheet: SheetPaper) -> dict[str, object]:
    return {
        "title": f"Build sheet {sheet.code}, revision {sheet.revision}",
        "studio": clean(sheet.studio),
        "look": _look(),
        "code": sheet.code,
        "svg": code_svg(sheet.code),
        "facts": [f"revision {sheet.revision}", sheet.day.isoformat(), clean(sheet.player)],
        "sentence": clean(sheet.sentence),
        "blocks": [
            {
                "title": one.title,
                "rows": [[clean(what), breakable(value)] for what, value in one.rows],
            }
            for one in sheet.blocks
        ],
        "targets": [
            [one.what, one.target, one.predicted, one.doubt, one.tolerance, _tight(one)]
            for one in sheet.targets
        ],
        "steps": [
            {
                "name": one.name,
                "hold": one.hold,
                "figures": [breakable(figure) for figure in one.figures],
                "reads": [clean(read) for read in one.reads],
                "done": clean(one.done),
            }
            for one in sheet.steps
        ],
        "cautions": [clean(one.says) for one in sheet.cautions],
        "advice": NO_ADVICE,
        "minds": [clean(one) for one in sheet.minds],
        "why": [breakable(one) for one in sheet.why],
        "departures": [[breakable(one) for one in row] for row in sheet.departures],
        "glued": sheet.glued,
        "picture": sheet.picture,
        "not-before": clean(sheet.not_before),
    }


def _tight(one: TargetShown) -> str:
    return "bench cannot tell" if one.tight else ""


def _look() -> dict[str, str]:
    return {"sans": SANS, "serif": SERIF, "ink": INK, "ink2": INK_2, "edge": EDGE}

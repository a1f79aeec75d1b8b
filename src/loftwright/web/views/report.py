"""What leaves a fitting: the two pages in short, pictures to publish, and the balls."""

from collections.abc import Iterable
from dataclasses import dataclass, fields
from typing import Final

from loftwright.domain.names import OWN
from loftwright.evidence.result import Decision
from loftwright.report.decided_pictures import choice_drawing, ranges_drawing
from loftwright.report.fitter_page import fitter_page
from loftwright.report.glyphs import BREAK
from loftwright.report.golfer_words import how_sure, next_steps
from loftwright.report.marks import deal_marks
from loftwright.report.numbers import count
from loftwright.report.room import FITTER_ROOMS
from loftwright.report.runs import Run
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.report.wording import objection, sentence
from loftwright.services.bay_now import BayNow
from loftwright.services.fitting_report import report_content
from loftwright.services.publishing import PICTURES, Refused, publication, refusal
from loftwright.web.views.evidence_pictures import Picture
from loftwright.web.views.nothing_yet import nothing_yet

NOTHING_YET: Final = "Nothing to report yet: two clubs with two balls each are enough."
_SURE_LINES: Final = 5
_BLOCK: Final = {
    "samples": "Samples",
    "obtained": "How obtained",
    "ball": "Ball",
    "device": "Device class",
    "golfers": "Golfers",
    "dates": "Dates",
    "program": "Program",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperPage:
    """One page of the report in short."""

    heading: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureRow:
    """A picture to publish."""

    name: str
    title: str
    ranges: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportView:
    """The page.

    Attributes
    ----------
    ready : bool
        Whether there is anything to print.
    speaks : str
        What units the paper and the pictures speak in.
    block : tuple of (str, str)
        How the pictures came about, as it will stand under them.
    refused : Refused, optional
        Why nothing may be published.
    readings : int
        All that stands in the record, warm-up and strangers' balls among them.
    """

    sentence: str
    under: str
    ready: bool
    pages: tuple[PaperPage, ...]
    speaks: str
    picture: Picture | None
    pictures: tuple[PictureRow, ...]
    block: tuple[tuple[str, str], ...]
    refused: Refused | None
    balls: int
    readings: int


def report_view(bay: BayNow, decision: Decision | None, show: Show) -> ReportView:
    """Return the page of what leaves a fitting.

    Parameters
    ----------
    bay : BayNow
    decision : Decision, optional
        None while no ball can be compared.
    show : Show
    """
    balls = len(bay.now.balls)
    return ReportView(
        sentence=_sentence(bay, decision, balls),
        under=_under(bay, decision),
        ready=decision is not None,
        pages=_pages(bay, decision, show) if decision is not None else (),
        speaks=_speaks(show),
        picture=_picture(decision, show) if decision is not None else None,
        pictures=tuple(
            PictureRow(name=name, title=one.title, ranges=one.ranges)
            for name, one in PICTURES.items()
        ),
        block=_block(bay, decision) if decision is not None else (),
        refused=refusal(bay),
        balls=balls,
        readings=len(bay.now.swings),
    )


def _speaks(show: Show) -> str:
    units = "metres and millimetres" if show.units == "metric" else "yards, feet and inches"
    mark = ", with a decimal comma" if show.decimal == "comma" else ""
    return f"Paper and pictures speak in {units}{mark}, as the settings say."


def _sentence(bay: BayNow, decision: Decision | None, balls: int) -> str:
    if decision is None:
        return nothing_yet(bay, NOTHING_YET)
    if not bay.now.closed:
        return f"Not closed yet: it prints what {count(balls, 'ball')} say so far."
    return f"Ready to hand over: two pages from {count(balls, 'ball')}."


def _under(bay: BayNow, decision: Decision | None) -> str:
    if decision is None:
        return "Balls come in on the bay’s page."
    when = report_content(bay, decision).date_words
    invented = " Every ball in it is invented, and it says so." if bay.fitting.invented else ""
    return f"It bears {when}, the day of the visit, whenever it is printed.{invented}"


def _pages(bay: BayNow, decision: Decision, show: Show) -> tuple[PaperPage, ...]:
    content = report_content(bay, decision)
    marks = deal_marks([club.club for club in decision.clubs], OWN)
    sure = how_sure(decision, marks, _SURE_LINES)
    golfers = map(_plain, (*sure, *next_steps(decision, marks)))
    told = fitter_page(content, marks, FITTER_ROOMS[0], None)
    fitters = (told["rows"], *told["odd"], *told["refused"], _plain(told["next"]), *told["home"])
    return (
        PaperPage(
            heading="For the golfer",
            says=(sentence(decision, show), objection(decision, show), *golfers),
        ),
        PaperPage(heading="For the fitter", says=(_plain(told["sentence"]), *fitters)),
    )


def _plain(line: Iterable[Run]) -> str:
    words = (run.get("text") or run.get("strong") or run.get("club") or "" for run in line)
    return "".join(words).replace(BREAK, "")


def _picture(decision: Decision, show: Show) -> Picture | None:
    marks = deal_marks([club.club for club in decision.clubs], OWN)
    drawing = choice_drawing(decision, marks, show) or ranges_drawing(
        decision, marks, show, out={}
    )
    if drawing is None:
        return None
    return Picture(heading="", svg=for_screen(drawing.svg), words=drawing.words)


def _block(bay: BayNow, decision: Decision) -> tuple[tuple[str, str], ...]:
    block = publication(bay, decision, "as each picture says")
    return tuple(
        (_BLOCK[field.name], getattr(block, field.name))
        for field in fields(block)
        if field.name in _BLOCK
    )

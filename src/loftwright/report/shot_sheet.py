"""The paper sheet of a visit: a line and a face to mark for every ball, in black and white."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.domain.golfer import Hand
from loftwright.errors import InputError
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH
from loftwright.report.face_picture import FaceMap, bare_face, face_map
from loftwright.report.fonts import SANS, SERIF
from loftwright.report.glyphs import clean
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.marks import RING_RADIUS, deal_marks
from loftwright.report.pencil import drawing
from loftwright.report.runs import breakable, mark_key, shortened
from loftwright.report.typesetting import compiler, pdf_bytes

ROWS_A_PAGE: Final = 20
MOST_BALLS: Final = 200
_TRADE: Final = ("mph", "deg", "rpm", "deg", "yd")
_METRIC: Final = ("m/s", "deg", "rpm", "deg", "m")
_COLUMNS: Final = ("Speed", "Launch", "Spin", "Start line", "Carry")
_AIR: Final = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotSheet:
    """What the sheet of a visit says.

    Attributes
    ----------
    golfer : str
        Initials, no more.
    balls : tuple of str
        The club of every planned ball, in order; lines without a club fill the page.
    clubs : tuple of str
        The fitting's clubs in the order in which they joined.
    own : str, optional
        The golfer's own club.
    first : int
        Number of the first ball on it.
    hand : Hand
    turned : bool
        Faces as the fitter holds the club, crown down.
    metric : bool
        Units above the columns.
    day : date, optional
    sheet, bay, studio : str
        The sheet's own name, by which it is typed in later; where it is used.
    """

    golfer: str
    balls: tuple[str, ...] = ()
    clubs: tuple[str, ...] = ()
    own: str | None = None
    first: int = 1
    hand: Hand = Hand.RIGHT
    turned: bool = False
    metric: bool = False
    day: date | None = None
    sheet: str = ""
    bay: str = ""
    studio: str = ""

    def __post_init__(self) -> None:
        if len(self.balls) > MOST_BALLS or not 1 <= self.first <= 9999:
            raise InputError(
                f"a sheet of {len(self.balls)} balls from ball {self.first} cannot be printed",
                place="sheet",
                mend=f"Print {MOST_BALLS} balls at most, numbered from 1.",
            )


def planned_balls(sets: Sequence[tuple[str, int]]) -> tuple[str, ...]:
    """Return the club of every ball of a plan's sets, in order."""
    return tuple(club for club, balls in sets for _ in range(balls))


def shot_sheet_bytes(sheet: ShotSheet) -> bytes:
    """Return the sheet as PDF/UA-1: A4, twenty balls a page, forty on both sides of a sheet.

    Parameters
    ----------
    sheet : ShotSheet

    Returns
    -------
    bytes
        The same for the same content.
    """
    return pdf_bytes(compiler("shot_sheet.typ", _data(sheet)), sheet.day)


def _data(sheet: ShotSheet) -> dict[str, object]:
    view = face_map(sheet.hand, turned=sheet.turned)
    toe_left = view.toe_sign < 0.0
    crown_up = view.high_sign < 0.0
    marks = deal_marks((*sheet.clubs, *sheet.balls), sheet.own)
    pages = max(1, -(-len(sheet.balls) // ROWS_A_PAGE))
    clubs = [*sheet.balls, *[""] * (pages * ROWS_A_PAGE - len(sheet.balls))]
    side = "left" if toe_left else "right"
    return {
        "title": f"Shot sheet {clean(sheet.sheet)}".strip(),
        "author": clean(sheet.studio) or "Loftwright",
        "dated": sheet.day is not None,
        "studio": shortened(sheet.studio, 40) or "Loftwright",
        "facts": [breakable(fact) for fact in _facts(sheet)],
        "view": _view(sheet),
        "toe-left": toe_left,
        "words": ["TOE", "HEEL"] if toe_left else ["HEEL", "TOE"],
        "ends": ["CROWN", "SOLE"] if crown_up else ["SOLE", "CROWN"],
        "side": side,
        "face": _face(view),
        "columns": [list(pair) for pair in zip(_COLUMNS, _units(sheet), strict=True)],
        "rows": [
            {
                "ball": sheet.first + place,
                "club": breakable(shortened(club, 26)),
                "mark": mark_key(club) if club else "",
            }
            for place, club in enumerate(clubs)
        ],
        "page-rows": ROWS_A_PAGE,
        "look": {"ink": INK, "ink2": INK_2, "edge": EDGE, "sans": SANS, "serif": SERIF}
        | {"ring": RING_RADIUS},
        "marks": {
            mark_key(name): {"points": mark.points, "bars": mark.bars}
            for name, mark in marks.items()
            if name
        },
    }


def _units(sheet: ShotSheet) -> tuple[str, ...]:
    return _METRIC if sheet.metric else _TRADE


def _facts(sheet: ShotSheet) -> list[str]:
    day = sheet.day.isoformat() if sheet.day is not None else "Day: ________"
    named = f"Sheet {sheet.sheet}" if sheet.sheet else "Sheet: ________"
    return [f"Golfer {sheet.golfer}", day, *([sheet.bay] if sheet.bay else []), named]


def _view(sheet: ShotSheet) -> str:
    held = "as you hold the club, crown down" if sheet.turned else "seen from the front, crown up"
    hand = "left-handed" if sheet.hand is Hand.LEFT else "right-handed"
    return f"Faces {held}, {hand} club"


def _face(view: FaceMap) -> str:
    """Return the outline of a face with its middle and ticks every ten millimetres, as SVG."""
    width, height = (2000.0 * half for half in (FACE_HALF_WIDTH, FACE_HALF_HEIGHT))
    centre = (0.5 * width + _AIR, 0.5 * height + _AIR)
    small = FaceMap(
        toe_sign=view.toe_sign, high_sign=view.high_sign, centre=centre, mm_per_unit=1.0
    )
    x, y = centre
    ticks = "".join(f"M{x + at:.0f} {y - 1.6:.1f}v3.2" for at in range(-30, 31, 10) if at)
    ticks += "".join(f"M{x - 1.6:.1f} {y + at:.0f}h3.2" for at in (-10, 10))
    cross = f"M{x - 4:.1f} {y:.1f}h8M{x:.1f} {y - 4:.1f}v8"
    guides = f'<path d="{cross}{ticks}" fill="none" stroke="{EDGE}" stroke-width="0.9"/>'
    return drawing(width + 2.0 * _AIR, height + 2.0 * _AIR, [bare_face(small), guides])

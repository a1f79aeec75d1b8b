"""The pictures of what was seen, in the colours of the page, each with its twin in words."""

from collections.abc import Mapping
from dataclasses import dataclass

from loftwright.bay.now import FittingNow
from loftwright.domain.golfer import Hand
from loftwright.evidence.result import Decision, Pair
from loftwright.report.decided_pictures import (
    Drawing,
    parts_drawing,
    ranges_drawing,
    strikes_drawing,
)
from loftwright.report.marks import Mark
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing and the same facts in words; without a heading where its block says enough."""

    heading: str
    svg: str
    words: str


def ranges_picture(
    decision: Decision, marks: Mapping[str, Mark], show: Show, out: Mapping[str, str]
) -> Picture | None:
    """Return the differences of the clubs with their ranges: both figures where both exist."""
    return _picture(ranges_drawing(decision, marks, show, out=out))


def parts_picture(pair: Pair, show: Show) -> Picture | None:
    """Return the stepped bar that carries one plain average to the other."""
    return _picture(parts_drawing(pair, show))


def strikes_picture(now: FittingNow, marks: Mapping[str, Mark], hand: Hand) -> Picture | None:
    """Return where each club was struck, with one scatter that all share."""
    return _picture(strikes_drawing(now, marks, hand))


def _picture(drawing: Drawing | None, heading: str = "") -> Picture | None:
    if drawing is None:
        return None
    return Picture(heading=heading, svg=for_screen(drawing.svg), words=drawing.words)

"""A fitting with clubs that are no drivers among its clubs."""

from dataclasses import replace

from bays import Bay, a_bay, club_card
from loftwright.constants import DEGREE, INCH
from loftwright.domain.acts import ClubJoined
from loftwright.domain.fitting import ClubCard

WOOD = (15.0 * DEGREE, 42.5 * INCH)
IRON = (31.0 * DEGREE, 37.5 * INCH)


def card_of(club: str, what: tuple[float, float] = WOOD) -> ClubCard:
    """Return a club's card with the loft and the length of another kind."""
    loft, length = what
    return replace(club_card(club), loft=loft, length=length, head_piece="head-wood")


def with_wood(*hit: str, every: bool = False, balls: int = 4) -> Bay:
    """Return a bay in which Cedar is a fairway wood, or every club is, with balls hit."""
    bay = a_bay()
    for club in ("Own", "Ash", "Birch", "Cedar") if every else ("Cedar",):
        bay.do(ClubJoined(club=club, card=card_of(club)))
    for club in hit:
        bay.hand(club)
        bay.balls(balls)
    return bay

"""The golfer's hand as tables of shots say it."""

from loftwright.domain.golfer import Hand
from loftwright.intake.options import Handedness


def handedness(hand: Hand) -> Handedness:
    """Return a hand in the word of a table's options."""
    return "left" if hand is Hand.LEFT else "right"

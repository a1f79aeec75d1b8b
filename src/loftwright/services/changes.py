"""What would change a fitting's answer: another home, or another place on the face."""

from loftwright.domain.golfer import Hand
from loftwright.evidence.what_changes import Answer, usual_changes, what_changes
from loftwright.services.evidence import Compared


def what_would_change(found: Compared, hand: Hand) -> tuple[Answer, ...]:
    """Return who would lead under each change that is looked at, without a new ball.

    Parameters
    ----------
    found : Compared
    hand : Hand
        Whose toe lies to the left of the middle for a left-hander.

    Returns
    -------
    tuple of Answer
        None while fewer than two clubs may be ranked.
    """
    comparison = found.comparison
    if comparison is None:
        return ()
    toe = -1.0 if hand is Hand.LEFT else 1.0
    return what_changes(comparison, usual_changes(comparison.home), toe)

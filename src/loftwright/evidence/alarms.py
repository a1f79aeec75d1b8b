"""All doubts that the balls of a fitting raise against how it was written down."""

from loftwright.evidence.alarm import Alarm
from loftwright.evidence.club_alarm import patterns_of, still_this_club
from loftwright.evidence.column_doubts import column_alarms
from loftwright.evidence.delivery_doubts import delivery_alarms
from loftwright.evidence.leftover import leftover, taught
from loftwright.evidence.mark_alarms import mirrored_marks, shifted_marks
from loftwright.evidence.run_alarm import strange_run
from loftwright.evidence.visit import Setup

__all__ = ("Alarm", "alarms")


def alarms(setup: Setup) -> tuple[Alarm, ...]:
    """Return the doubts of a fitting, those about its marks first.

    Parameters
    ----------
    setup : Setup
        Of the newest state; it need not be fitted.

    Returns
    -------
    tuple of Alarm
        At most one of a kind, but for columns that look calculated or contradict the balls.
        While the marks look mirrored their shift is not asked for.
    """
    if not len(setup.balls):
        return ()
    left, clubs, responses = leftover(setup), setup.balls.clubs, setup.columns.responses
    mirrored = mirrored_marks(left)
    loft, learned = setup.slopes.parts[list(responses), 4], taught(left)
    found = (
        mirrored,
        None if mirrored else shifted_marks(left),
        strange_run(learned, loft, responses, clubs),
        still_this_club(learned, patterns_of(setup, learned), clubs),
    )
    raised = (one for one in found if one is not None)
    return (*raised, *column_alarms(setup.balls), *delivery_alarms(setup))

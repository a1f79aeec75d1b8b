"""A fitting's choice as it stands: every way to go on, and what would change the answer."""

from dataclasses import dataclass

from loftwright.evidence.what_changes import Answer
from loftwright.services.bay_now import BayNow
from loftwright.services.changes import what_would_change
from loftwright.services.choice import choose
from loftwright.services.evidence import Desk
from loftwright.services.studio import Studio
from loftwright.services.unhit import beside_those_hit
from loftwright.services.ways_on import Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A choice, and who would lead if something were otherwise."""

    choice: Choice
    answers: tuple[Answer, ...]


def chosen_now(studio: Studio, desk: Desk, bay: BayNow) -> Chosen:
    """Return the choice of a fitting in its bay.

    Parameters
    ----------
    studio : Studio
    desk : Desk
        Where the comparison that the bay was drawn from is kept.
    bay : BayNow
    """
    rack, convention = studio.store.rack(), bay.settings.convention
    evidence = bay.evidence
    found = desk.compared(
        bay.fitting.id, bay.now, bay.golfer, convention, evidence.table.shifts, evidence.pinned
    )
    beside = beside_those_hit(found, rack, bay.golfer.hand, convention)
    return Chosen(
        choice=choose(bay.now, evidence.decision, rack, convention, beside),
        answers=what_would_change(found, bay.golfer.hand),
    )

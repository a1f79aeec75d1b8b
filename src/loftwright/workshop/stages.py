"""Which steps of a job are behind it."""

from collections.abc import Sequence

from loftwright.domain.after_acts import FollowedUp
from loftwright.domain.check_acts import Outcome, PickedUp, Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order_acts import Agreed, Quoted, Withdrawn
from loftwright.domain.sheet_acts import Bonded, Deviated, SheetIssued
from loftwright.workshop.standing import newest, standing


def stages_done(record: Sequence[JobEntry]) -> frozenset[str]:
    """Return the steps that are done: order, build, final-check, follow-up.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    """
    stands = standing(record)
    done = set()
    if agreed_quote(record) is not None:
        done.add("order")
    checked = newest(stands, Received)
    if checked is not None and checked.outcome is Outcome.ACCEPT and not changed_since(stands):
        done.add("build")
    picked = newest(stands, PickedUp)
    if picked is not None and picked.taken:
        done.add("final-check")
    asked = newest(stands, FollowedUp)
    if asked is not None and asked.again is None:
        done.add("follow-up")
    return frozenset(done)


def changed_since(stands: Sequence[JobEntry]) -> bool:
    """Return whether a club was changed since its newest final check, so that it says nothing.

    Parameters
    ----------
    stands : sequence of JobEntry
        The entries that stand, in order.
    """
    kinds = (Received, SheetIssued, Deviated, Bonded)
    last = next((one.act for one in reversed(stands) if isinstance(one.act, kinds)), None)
    return last is not None and not isinstance(last, Received)


def agreed_quote(record: Sequence[JobEntry]) -> Quoted | None:
    """Return the quote that the golfer agreed to, unless another came or the order is off."""
    stands = standing(record)
    last = next((one for one in reversed(stands) if isinstance(one.act, Quoted | Withdrawn)), None)
    if last is None or not isinstance(last.act, Quoted):
        return None
    agreed = any(isinstance(one.act, Agreed) and one.sequence > last.sequence for one in stands)
    return last.act if agreed else None

"""What stands after a club was taken: when it is asked after, what was said, what was played."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta, tzinfo

from loftwright.domain.after_acts import FollowedUp, Played, Round
from loftwright.domain.check_acts import PickedUp, PickUpBegun, Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import ClubSpec
from loftwright.domain.order_acts import Quoted, Withdrawn
from loftwright.workshop.standing import newest, standing


@dataclass(frozen=True, slots=True, kw_only=True)
class AfterNow:
    """A club that its golfer has, and what was heard of it since.

    Attributes
    ----------
    taken : date
        In the shop's zone.
    spec : ClubSpec or None
        What was ordered; None where no quote stands.
    asked : tuple of FollowedUp
        Since it was taken, in order.
    due : date or None
        When it is to be asked after next; None when nobody asks again.
    rounds : tuple of Round
        By day; of the same day and course the newest one.
    """

    taken: date
    spec: ClubSpec | None
    asked: tuple[FollowedUp, ...]
    due: date | None
    rounds: tuple[Round, ...]


def after_now(record: Sequence[JobEntry], days: int, zone: tzinfo | None) -> AfterNow | None:
    """Return what stands of a club that was taken; None while none is with its golfer.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    days : int
        From the club to the first question.
    zone : tzinfo or None
        The shop's, in which days are told.

    Notes
    -----
    A club that is taken anew, as after a rework, is asked after anew; what was heard before stays
    on record and counts no more. So do rounds that were played before that day. A club that was
    only hit again because of a complaint is not taken anew.
    """
    stands = standing(record)
    picks = [one for one in stands if isinstance(one.act, PickedUp)]
    if not picks or not _taken(picks[-1]):
        return None
    new = (one for one in reversed(picks) if _taken(one) and not _hit_again(stands, one))
    picked = next(new, picks[-1])
    since = [one.act for one in stands if one.sequence > picked.sequence]
    if any(isinstance(act, Withdrawn) for act in since):
        return None
    taken = picked.at.astimezone(zone).date()
    asked = tuple(act for act in since if isinstance(act, FollowedUp))
    return AfterNow(
        taken=taken,
        spec=spec_of([one for one in stands if one.sequence < picked.sequence]),
        asked=asked,
        due=asked[-1].again if asked else taken + timedelta(days=days),
        rounds=_rounds([one.act for one in stands if isinstance(one.act, Played)], taken),
    )


def spec_of(stands: Sequence[JobEntry]) -> ClubSpec | None:
    """Return the club of the newest quote among entries that stand; None without one."""
    quoted = newest(stands, Quoted)
    return None if quoted is None else quoted.quote.spec


def _taken(entry: JobEntry) -> bool:
    return isinstance(entry.act, PickedUp) and entry.act.taken


def _hit_again(stands: Sequence[JobEntry], picked: JobEntry) -> bool:
    """Return whether a pick-up only followed from hitting a club again for a complaint."""
    before = (
        one.act
        for one in reversed(stands)
        if one.sequence < picked.sequence and isinstance(one.act, PickUpBegun | Received)
    )
    last = next(before, None)
    return isinstance(last, PickUpBegun) and last.complaint


def _rounds(played: Sequence[Played], taken: date) -> tuple[Round, ...]:
    newest = {(one.day, _plain(one.course)): one for act in played for one in act.rounds}
    since = (one for one in newest.values() if one.day >= taken)
    return tuple(sorted(since, key=lambda one: (one.day, _plain(one.course))))


def _plain(course: str) -> str:
    return " ".join(course.casefold().split())

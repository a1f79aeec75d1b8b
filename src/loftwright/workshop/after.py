"""What stands after a club was taken: when it is asked after, what was said, what was played."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta, tzinfo

from loftwright.domain.after_acts import FollowedUp, Played, Round
from loftwright.domain.check_acts import PickedUp
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import ClubSpec
from loftwright.domain.order_acts import Quoted, Withdrawn
from loftwright.workshop.standing import standing


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
    on record and counts no more. So do rounds that were played before that day.
    """
    stands = standing(record)
    picked = next((one for one in reversed(stands) if isinstance(one.act, PickedUp)), None)
    if picked is None or not isinstance(picked.act, PickedUp) or not picked.act.taken:
        return None
    since = [one.act for one in stands if one.sequence > picked.sequence]
    if any(isinstance(act, Withdrawn) for act in since):
        return None
    taken = picked.at.astimezone(zone).date()
    asked = tuple(act for act in since if isinstance(act, FollowedUp))
    return AfterNow(
        taken=taken,
        spec=_spec(stands),
        asked=asked,
        due=asked[-1].again if asked else taken + timedelta(days=days),
        rounds=_rounds([one.act for one in stands if isinstance(one.act, Played)], taken),
    )


def _spec(stands: Sequence[JobEntry]) -> ClubSpec | None:
    quoted = (one.act for one in reversed(stands) if isinstance(one.act, Quoted))
    last = next(quoted, None)
    return None if last is None else last.quote.spec


def _rounds(played: Sequence[Played], taken: date) -> tuple[Round, ...]:
    newest = {(one.day, _plain(one.course)): one for act in played for one in act.rounds}
    since = (one for one in newest.values() if one.day >= taken)
    return tuple(sorted(since, key=lambda one: (one.day, _plain(one.course))))


def _plain(course: str) -> str:
    return " ".join(course.casefold().split())

"""Who is due to be asked how the club does, and what was answered and played."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.domain.after_acts import Complained, FollowedUp, Played, Round
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.undoing import written
from loftwright.errors import InputError, NotFoundError
from loftwright.services.golfers import KnownGolfer, known_golfer
from loftwright.services.job import job_act
from loftwright.services.job_parts import MOST_AT_ONCE, JobParts, job_record
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.workshop.after import AfterNow, after_now
from loftwright.workshop.complaint import complaint_now

MOST_SHOWN: Final = 20
"""Golfers of a list that its page shows; the others come when these are done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A golfer who has a club that was made, and what was heard since.

    Attributes
    ----------
    golfer : KnownGolfer
    after : AfterNow
    complaint : bool
        Whether one is open.
    """

    fitting: str
    golfer: KnownGolfer
    invented: bool
    after: AfterNow
    complaint: bool

    @property
    def may_ask(self) -> bool:
        """Whether the golfer, or a minor's guardian, agreed to be asked."""
        return self.golfer.golfer.consents.contact


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowUps:
    """Everybody who has a club, by what is to be done.

    Attributes
    ----------
    due : tuple of Taken
        To be asked now, those who have waited longest first.
    not_contacted : tuple of Taken
        Would be due, but did not agree to be asked.
    later : tuple of Taken
        Due on a later day, the next one first.
    counts : tuple of (int, int, int)
        How many there are of each, for of many only the first are told.
    unread : int
        Jobs that are still to be read, as after a new version of the program.
    """

    due: tuple[Taken, ...]
    not_contacted: tuple[Taken, ...]
    later: tuple[Taken, ...]
    counts: tuple[int, int, int]
    unread: int = 0


def follow_ups(studio: Studio) -> FollowUps:
    """Return who is to be asked, who is not, and who is later; of each the first ones."""
    today, contact = studio.today(), studio.store.contact()
    golfers = {one.fitting: one.golfer for one in studio.store.outlines()}
    found, left = _open(studio)
    told = [one for one in found if golfers[one[1]] in contact]
    agreed = [contact[golfers[fitting]] for _, fitting in told]
    due = [one for one, may in zip(told, agreed, strict=True) if may and one[0] <= today]
    not_asked = [one for one, may in zip(told, agreed, strict=True) if not may and one[0] <= today]
    later = [one for one, may in zip(told, agreed, strict=True) if may and one[0] > today]
    days = read_terms(studio).terms.follow_up_days
    shown = [
        tuple(_taken(studio, fitting, days) for _, fitting in some[:MOST_SHOWN])
        for some in (due, not_asked, later)
    ]
    return FollowUps(
        due=shown[0],
        not_contacted=shown[1],
        later=shown[2],
        counts=(len(due), len(not_asked), len(later)),
        unread=left,
    )


def how_many_due(studio: Studio) -> int:
    """Return how many golfers are to be asked now."""
    today, contact = studio.today(), studio.store.contact()
    due = {fitting for day, fitting in _open(studio)[0] if day <= today}
    return sum(
        contact.get(one.golfer, False) for one in studio.store.outlines() if one.fitting in due
    )


def read_due(
    studio: Studio, most: int | None = MOST_AT_ONCE
) -> tuple[dict[str, date | None], int]:
    """Return the day on which each club is to be asked after, and how many jobs are unread.

    Parameters
    ----------
    studio : Studio
    most : int, optional
        How many jobs that went on may be read now; all of them without it.
    """
    days, zone = read_terms(studio).terms.follow_up_days, studio.zone

    def due(record: tuple[JobEntry, ...]) -> date | None:
        after = after_now(record, days, zone)
        return None if after is None else after.due

    return _DUE.over(studio, f"due after {days} days in {zone}", due, most)


def _open(studio: Studio) -> tuple[list[tuple[date, str]], int]:
    """Return every club that is to be asked after on some day, the first first; and the unread."""
    due, left = read_due(studio)
    return sorted((day, fitting) for fitting, day in due.items() if day is not None), left


_DUE: Final[JobParts[date | None]] = JobParts(
    write=lambda day: "" if day is None else day.isoformat(),
    read=lambda text: date.fromisoformat(text) if text else None,
)


def taken_club(studio: Studio, fitting: str) -> AfterNow | None:
    """Return what stands of a fitting's club; None while the golfer has none.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    """
    days = read_terms(studio).terms.follow_up_days
    return after_now(studio.store.job_record(fitting), days, studio.zone)


def ask(
    studio: Studio,
    fitting: str,
    asked: FollowedUp,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down that a golfer was asked.

    Raises
    ------
    InputError
        If the golfer has no club, or a day cannot be.
    ConflictError
        If the record went on since the page was drawn.
    """
    after = _must_be_taken(studio, fitting)
    day_must_be(asked.day, after.taken, studio.today())
    if asked.again is not None and asked.again <= studio.today():
        raise InputError(
            f"{asked.again:%Y-%m-%d} is no later day",
            place="again",
            mend="Give a day after today, or leave it empty to ask no more.",
        )
    return job_act(studio, fitting, [asked], by=by, key=key, seen=seen)


def add_rounds(
    studio: Studio,
    fitting: str,
    rounds: Sequence[Round],
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down rounds that were played with the club; all of them or none.

    Raises
    ------
    InputError
        If the golfer has no club, or a day cannot be.
    ConflictError
        If the record went on since the page was drawn.
    """
    after = _must_be_taken(studio, fitting)
    for one in rounds:
        day_must_be(one.day, after.taken, studio.today())
    return job_act(studio, fitting, [Played(rounds=tuple(rounds))], by=by, key=key, seen=seen)


def complain(
    studio: Studio,
    fitting: str,
    said: Complained,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down a complaint.

    Raises
    ------
    InputError
        If the golfer has no club, a complaint is open, or the day cannot be.
    ConflictError
        If the record went on since the page was drawn.
    """
    with studio.lock:
        after = _must_be_taken(studio, fitting)
        day_must_be(said.day, after.taken, studio.today())
        record = studio.store.job_record(fitting)
        if complaint_now(record).open is not None and not written(record, key):
            raise InputError(
                "a complaint is open already",
                place="words",
                mend="End it first, or go on with it.",
            )
        return job_act(studio, fitting, [said], by=by, key=key, seen=seen)


def day_must_be(day: date, taken: date, today: date) -> None:
    """Demand that something happened between the pick-up and today.

    Parameters
    ----------
    day, taken, today : date

    Raises
    ------
    InputError
        If it did not.
    """
    if day > today:
        raise InputError(
            f"{day:%Y-%m-%d} is still to come",
            place="day",
            mend=f"Give a day up to today, {today:%Y-%m-%d}.",
        )
    if day < taken:
        raise InputError(
            f"on {day:%Y-%m-%d} the golfer did not have the club",
            place="day",
            mend=f"It was taken on {taken:%Y-%m-%d}: give that day or a later one.",
        )


def _must_be_taken(studio: Studio, fitting: str) -> AfterNow:
    after = taken_club(studio, fitting)
    if after is None:
        raise InputError(
            "the golfer does not have the club",
            place="job",
            mend="Write the pick-up down first.",
        )
    return after


def _taken(studio: Studio, fitting: str, days: int) -> Taken:
    opened = studio.store.fitting(fitting).value
    record = job_record(studio, fitting)
    after = after_now(record, days, studio.zone)
    if after is None:
        raise NotFoundError(
            "this club went back meanwhile", place=fitting, mend="Open the page again."
        )
    return Taken(
        fitting=fitting,
        golfer=known_golfer(studio, opened.golfer),
        invented=opened.invented,
        after=after,
        complaint=complaint_now(record).open is not None,
    )

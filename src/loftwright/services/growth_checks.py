"""When it is to be looked whether minors have outgrown their clubs, and when again."""

from calendar import monthrange
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from loftwright.errors import ConflictError, InputError
from loftwright.services.follow_up import MOST_SHOWN
from loftwright.services.golfers import KnownGolfer, known_golfer
from loftwright.services.studio import Studio

MONTHS: Final = 6
"""From a visit to a proposed check (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthCheck:
    """A minor with a day on which it is to be looked."""

    golfer: KnownGolfer
    day: date


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthChecks:
    """Every minor with such a day, the first day first.

    Attributes
    ----------
    shown : tuple of GrowthCheck
        Of many only the first.
    due, later : int
        How many days have come, and how many are still to come.
    """

    shown: tuple[GrowthCheck, ...]
    due: int
    later: int


def growth_checks(studio: Studio, most: int = MOST_SHOWN) -> GrowthChecks:
    """Return which minors are to be looked at, now and later."""
    days = sorted((day, golfer) for golfer, day in studio.store.growth_checks().items())
    due = sum(day <= studio.today() for day, _ in days)
    return GrowthChecks(
        shown=tuple(
            GrowthCheck(golfer=known_golfer(studio, golfer), day=day)
            for day, golfer in days[:most]
        ),
        due=due,
        later=len(days) - due,
    )


def how_many_growth_checks(studio: Studio) -> int:
    """Return how many minors are to be looked at now."""
    today = studio.today()
    return sum(day <= today for day in studio.store.growth_checks().values())


def proposed_check(visit: date) -> date:
    """Return the day that is proposed after a visit: six months on, or that month's last day."""
    years, month = divmod(visit.month - 1 + MONTHS, 12)
    year, month = visit.year + years, month + 1
    return date(year, month, min(visit.day, monthrange(year, month)[1]))


def move_growth_check(studio: Studio, golfer: str, day: date | None, *, was: date | None) -> None:
    """Say when a minor is to be looked at next, because it was done or has to wait.

    Parameters
    ----------
    studio : Studio
    golfer : str
    day : date, optional
        No check any more without it.
    was : date, optional
        The day that the page showed.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    InputError
        If the golfer is no minor, or the day is no later one.
    ConflictError
        If somebody else moved the day since the page was drawn.
    """
    with studio.lock:
        known = known_golfer(studio, golfer)
        if not known.golfer.minor:
            raise InputError(
                "this golfer is no minor",
                place="golfer",
                mend="Tick on the golfer’s page that it is one.",
            )
        if known.identity.growth_check != was:
            raise ConflictError(
                "somebody else moved this growth check meanwhile",
                place="golfer",
                mend="Look at the day that stands now.",
            )
        if day is not None and day <= studio.today():
            raise InputError(
                f"{day:%Y-%m-%d} is no later day",
                place="day",
                mend="Give a day after today.",
            )
        identity = replace(known.identity, growth_check=day)
        studio.store.change_identity(known.golfer.id, identity)

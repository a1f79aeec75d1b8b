"""The shop's day: every fitting that is open or was visited today, and what it needs next."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum
from itertools import dropwhile, islice

from loftwright.bay.now import FittingNow
from loftwright.domain.fitting import Fitting
from loftwright.errors import NotFoundError
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.closed_visits import ClosedVisit, closed_visit
from loftwright.services.evidence import Desk
from loftwright.services.golfers import forget_old_limits
from loftwright.services.one_golfer import who_is
from loftwright.services.overviews import closed_ones, may_be_open, unsettled
from loftwright.services.studio import Studio
from loftwright.services.visit_start import pace_now, plan_seconds


class Need(StrEnum):
    """What a fitting needs next, the most urgent first."""

    BAY = "bay"
    START = "start"
    PLAN = "plan"
    DAY = "day"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FittingToday:
    """A fitting of the day.

    Attributes
    ----------
    name : str
        The golfer's.
    now : FittingNow, optional
        As it stands; of a closed one nothing more is told.
    begins, ends : datetime, optional
        Of today's visit; while it is on, the end is the plan's.
    bay : BayNow, optional
        Where a visit is on.
    """

    fitting: Fitting
    name: str
    now: FittingNow | None
    need: Need
    begins: datetime | None = None
    ends: datetime | None = None
    bay: BayNow | None = None


def fittings_today(studio: Studio, desk: Desk) -> tuple[FittingToday, ...]:
    """Return the fittings of the day, those that need somebody soonest first.

    Limits of earlier days are forgotten on the way.
    """
    today = studio.today()
    forget_old_limits(studio, today)
    found = []
    for outline in unsettled(studio):
        if outline.bay_check:
            continue
        closed = closed_visit(studio, outline)
        if closed is None:
            found.append(_open_today(studio, desk, studio.store.fitting(outline.fitting).value))
        elif closed.day == today:
            found.append(
                _closed_today(studio, studio.store.fitting(outline.fitting).value, closed)
            )
    order = list(Need)
    return tuple(sorted(found, key=lambda one: (order.index(one.need), _soonest(one))))


def fittings_in_progress(studio: Studio) -> tuple[Fitting, ...]:
    """Return the fittings whose visit of today is on, into which balls come."""
    return tuple(
        studio.store.fitting(one.fitting).value
        for one in may_be_open(studio)
        if _need(now := studio.standing(one.fitting), here=_is_here(studio, now)) is Need.BAY
    )


def is_in_progress(studio: Studio, fitting: str) -> bool:
    """Return whether a fitting's visit of today is on; not of one that nobody opened."""
    try:
        now = studio.standing(fitting)
    except NotFoundError:
        return False
    return _need(now, here=_is_here(studio, now)) is Need.BAY


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingDone:
    """A closed fitting.

    Attributes
    ----------
    day : date
        Of its newest visit, or when it was opened if it had none.
    """

    fitting: Fitting
    name: str
    day: date
    clubs: int
    balls: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DonePage:
    """Some closed fittings, the last one first.

    Attributes
    ----------
    fittings : tuple of FittingDone
    more : bool
        Whether there are older ones.
    """

    fittings: tuple[FittingDone, ...]
    more: bool


def fittings_done(
    studio: Studio, most: int, *, before: str = "", golfers: Collection[str] | None = None
) -> DonePage:
    """Return the newest closed fittings.

    Parameters
    ----------
    studio : Studio
    most : int
    before : str
        Only fittings opened before this one; all without it.
    golfers : collection of str, optional
        Only theirs, by their records.
    """
    theirs = (
        one.fitting
        for one in closed_ones(studio)
        if not one.bay_check and (golfers is None or one.golfer in golfers)
    )
    behind = islice(dropwhile(lambda one: one != before, theirs), 1, None) if before else theirs
    found = list(islice(behind, most + 1))
    return DonePage(
        fittings=tuple(_done(studio, one) for one in found[:most]), more=len(found) > most
    )


def _done(studio: Studio, fitting: str) -> FittingDone:
    opened, now = studio.store.fitting(fitting).value, studio.standing(fitting)
    return FittingDone(
        fitting=opened,
        name=who_is(studio, opened.golfer).name,
        day=opened.opened if now.visit is None else now.visit.day,
        clubs=len({ball.club for ball in now.balls}),
        balls=len(now.balls),
    )


def _open_today(studio: Studio, desk: Desk, fitting: Fitting) -> FittingToday:
    now = studio.standing(fitting.id)
    here = _is_here(studio, now)
    need = _need(now, here=here)
    begins = now.visit.opened if here and now.visit is not None else None
    ends = None
    if begins is not None and now.plan is not None:
        seconds = now.plan.plan.seconds
        whole = plan_seconds(now.plan.plan, pace_now(studio, now)) if seconds is None else seconds
        ends = now.plan.made + timedelta(seconds=whole)
    return FittingToday(
        fitting=fitting,
        name=who_is(studio, fitting.golfer).name,
        now=now,
        need=need,
        begins=begins,
        ends=ends,
        bay=bay_now(studio, desk, fitting.id, words_only=True) if need is Need.BAY else None,
    )


def _closed_today(studio: Studio, fitting: Fitting, visit: ClosedVisit) -> FittingToday:
    return FittingToday(
        fitting=fitting,
        name=who_is(studio, fitting.golfer).name,
        now=None,
        need=Need.DONE,
        begins=visit.begins,
        ends=visit.ends,
    )


def _is_here(studio: Studio, now: FittingNow) -> bool:
    return now.visit is not None and now.visit.day == studio.today()


def _need(now: FittingNow, *, here: bool) -> Need:
    if now.closed:
        return Need.DONE
    if here:
        return Need.BAY
    if now.visits:
        return Need.DAY
    return Need.PLAN if now.plan is None else Need.START


def _soonest(one: FittingToday) -> float:
    """Return when a fitting needs somebody; those without an hour by their day, newest first."""
    if one.ends is not None:
        return one.ends.timestamp()
    return -float(one.fitting.opened.toordinal())

"""The shop's day: every fitting that is open or was visited today, and what it needs next."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.domain.acts import Closed
from loftwright.domain.fitting import Fitting
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.golfers import forget_old_limits
from loftwright.services.one_golfer import who_is
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
    begins, ends : datetime, optional
        Of today's visit; while it is on, the end is the plan's.
    bay : BayNow, optional
        Where a visit is on.
    """

    fitting: Fitting
    name: str
    now: FittingNow
    need: Need
    begins: datetime | None = None
    ends: datetime | None = None
    bay: BayNow | None = None


def fittings_today(studio: Studio, desk: Desk) -> tuple[FittingToday, ...]:
    """Return the fittings of the day, those that need somebody soonest first.

    Limits of earlier days are forgotten on the way.
    """
    forget_old_limits(studio, studio.today())
    found = []
    for kept in studio.store.fittings():
        if kept.value.bay_check:
            continue
        one = _today(studio, desk, kept.value)
        if one is not None:
            found.append(one)
    order = list(Need)
    return tuple(sorted(found, key=lambda one: (order.index(one.need), _soonest(one))))


def fittings_in_progress(studio: Studio) -> tuple[Fitting, ...]:
    """Return the fittings whose visit of today is on, into which balls come."""
    return tuple(
        kept.value
        for kept in studio.store.fittings()
        if _need(now := studio.standing(kept.value.id), here=_is_here(studio, now)) is Need.BAY
    )


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


def fittings_done(studio: Studio, most: int) -> tuple[FittingDone, ...]:
    """Return the newest closed fittings, the last one first."""
    found: list[FittingDone] = []
    for kept in studio.store.fittings():
        if len(found) == most:
            break
        if kept.value.bay_check:
            continue
        now = studio.standing(kept.value.id)
        if now.closed:
            found.append(
                FittingDone(
                    fitting=kept.value,
                    name=who_is(studio, kept.value.golfer).name,
                    day=kept.value.opened if now.visit is None else now.visit.day,
                    clubs=len({ball.club for ball in now.balls}),
                    balls=len(now.balls),
                )
            )
    return tuple(found)


def _today(studio: Studio, desk: Desk, fitting: Fitting) -> FittingToday | None:
    record = studio.record(fitting.id)
    now = replay(record)
    here = _is_here(studio, now)
    if now.closed and not here:
        return None
    need = _need(now, here=here)
    begins = now.visit.opened if here and now.visit is not None else None
    closing = next((entry.at for entry in reversed(record) if isinstance(entry.act, Closed)), None)
    ends = closing if now.closed else None
    if begins is not None and not now.closed and now.plan is not None:
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

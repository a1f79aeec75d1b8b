"""A visit begins by its plan, and is planned again when it runs late."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.domain.acts import Act, Planned, VisitOpened
from loftwright.domain.fitting import DeviceCard, PlanCard, Strip
from loftwright.domain.names import OWN
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError
from loftwright.evidence.plan import FEWEST_CLUBS, MINUTE, Pace, fewest_balls
from loftwright.services.acting import act
from loftwright.services.fittings import Wish, plan_visit
from loftwright.services.shop_beliefs import newest_version
from loftwright.services.studio import Studio

WARM_PACE: Final = Pace(talk=0.0, warm_up=0.0, baseline=0.0)
"""Once the golfer is warm, talk and warm-up lie behind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """What is settled before the first swing.

    Attributes
    ----------
    pain : bool
        Whether anything hurts, the golfer is dizzy or was operated on lately.
    """

    device: DeviceCard
    strip: Strip
    pain: bool


def start_visit(
    studio: Studio,
    fitting: str,
    start: Start,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> FittingNow:
    """Open a visit today by the plan that stands, pinned to what the shop has learned by now.

    Parameters
    ----------
    studio : Studio
    fitting : str
    start : Start
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the page showed.

    Raises
    ------
    InputError
        If something hurts, or nothing is planned.
    ConflictError
        If a visit is open today already, somebody else planned since the page was drawn, or the
        fitting is closed.
    """
    if start.pain:
        raise InputError(
            "pain, dizziness or a recent operation: nobody swings today",
            place="pain",
            mend="Ask a doctor or a physiotherapist first. Nothing of it is written down.",
        )
    opened = studio.store.fitting(fitting).value
    record = studio.record(fitting)
    now = replay(record)
    if written(record, key):
        return now
    if now.closed:
        raise ConflictError(
            "this fitting is closed", place="visit", mend="Open another one, or undo the closing."
        )
    if visit_is_open(studio, now):
        raise ConflictError(
            "a visit is open today already", place="visit", mend="Go on in the bay."
        )
    plan = standing_plan(studio, fitting)
    if plan is None:
        raise InputError("nothing is planned yet", place="plan", mend="Make the plan first.")
    acts: list[Act] = [
        VisitOpened(
            day=studio.today(),
            bay=opened.bay,
            device=start.device,
            strip=start.strip,
            learned=newest_version(studio, invented=opened.invented),
        ),
        Planned(plan=plan),
    ]
    return act(studio, fitting, acts, by=by, key=key, seen=seen)


def visit_is_open(studio: Studio, now: FittingNow) -> bool:
    """Return whether the newest visit is today's."""
    return now.visit is not None and now.visit.day == studio.today()


def standing_plan(studio: Studio, fitting: str) -> PlanCard | None:
    """Return the newest plan: that of the visit, or one made for the next visit."""
    now = studio.standing(fitting)
    return None if now.plan is None else now.plan.plan


def pace_now(studio: Studio, now: FittingNow) -> Pace:
    """Return how long things take from now on: without talk and warm-up once these are over."""
    warm = now.visit is not None and now.visit.warm and visit_is_open(studio, now)
    return WARM_PACE if warm else Pace()


def plan_seconds(plan: PlanCard, pace: Pace) -> float:
    """Return how long a plan takes, closing words included [s]."""
    changes = max(len(plan.sets) - 1, 0)
    return pace.before() + plan.balls * pace.ball + changes * pace.change + pace.closing


def seconds_left(studio: Studio, now: FittingNow) -> float:
    """Return how long the golfer is still here by the plan, made with a limit or not [s]."""
    if now.plan is None:
        return 0.0
    seconds = now.plan.plan.seconds
    whole = plan_seconds(now.plan.plan, pace_now(studio, now)) if seconds is None else seconds
    if not visit_is_open(studio, now):
        return whole
    gone = max((studio.now() - now.plan.made).total_seconds(), 0.0)
    return max(whole - gone, 0.0)


def plan_again(
    studio: Studio,
    fitting: str,
    seconds: float,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> FittingNow:
    """Plan what is left of a visit into the time that is left.

    The clubs still in are wanted, as many balls as the plan has left; what does not fit is given
    up, the warm-up never.

    Parameters
    ----------
    studio : Studio
    fitting : str
    seconds : float
        From now to the golfer's going.
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the page showed.

    Raises
    ------
    InputError
        If nothing is planned, or the time does not suffice for a comparison of two clubs.
    ConflictError
        If somebody else planned since the page was drawn.
    """
    now = studio.standing(fitting)
    if now.plan is None:
        raise InputError("nothing is planned yet", place="plan", mend="Make the plan first.")
    if seconds <= 0.0:
        raise InputError(
            "no minute is left by the plan",
            place="minutes",
            mend="Say how many minutes there are, or close the fitting.",
        )
    wanted = _clubs_wanted(now)
    left = balls_left(now)
    if len(wanted) + _own(now) < FEWEST_CLUBS:
        raise InputError(
            "one club alone is left in the plan", place="clubs", mend="Let another club join."
        )
    wish = Wish(
        assemblies=wanted,
        balls=max(left, fewest_balls(len(wanted) + _own(now))),
        seconds=seconds,
        blind=now.plan.plan.blind,
    )
    return plan_visit(studio, fitting, wish, by=by, key=key, pace=pace_now(studio, now), seen=seen)


def balls_left(now: FittingNow) -> int:
    """Return the balls that the plan has left."""
    if now.plan is None:
        return 0
    return max(now.plan.plan.balls - (len(now.balls) - now.plan.swings_before), 0)


def late_by(studio: Studio, now: FittingNow, minutes: float) -> float:
    """Return what is left of a visit that runs so many minutes late [s]."""
    return max(seconds_left(studio, now) - minutes * MINUTE, 0.0)


def _clubs_wanted(now: FittingNow) -> tuple[str, ...]:
    """Return the rack's ids of the plan's clubs that are still in, the own one left out."""
    planned: Sequence[str] = [] if now.plan is None else [name for name, _ in now.plan.plan.sets]
    return tuple(
        club.card.assembly
        for club in now.clubs
        if club.name in planned and club.name != OWN and not club.out
    )


def _own(now: FittingNow) -> int:
    return int(now.club(OWN) is not None)

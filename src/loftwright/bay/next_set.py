"""What the plan asks for next: stay with this club, or hand over another."""

from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.domain.names import OWN

SET_OF_BALLS: Final = 3


class Step(StrEnum):
    """What to do next."""

    OPEN = "open"
    """Open a visit."""
    WARM_UP = "warm_up"
    STAY = "stay"
    """More balls of this set."""
    HAND_OVER = "hand_over"
    FREE = "free"
    """The set is full, and the plan leaves it to the evidence which club comes next."""
    DONE = "done"
    """Every planned ball was hit."""
    STOP = "stop"
    """Pain, or the cap of swings: nobody swings again today."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextSet:
    """What comes next by the plan.

    Attributes
    ----------
    club : str, optional
        The club to hit.
    balls : int
        How many of its set are still to be hit.
    """

    step: Step
    club: str | None = None
    balls: int = 0


def next_set(now: FittingNow, cap: int) -> NextSet:
    """Return what comes next.

    Parameters
    ----------
    now : FittingNow
    cap : int
        Swings of a visit after which nobody swings again.

    Returns
    -------
    NextSet

    Notes
    -----
    Until every club had its first set, and whenever the own club's turn comes, the plan's order
    holds; else the evidence chooses, unless the plan comes in its order throughout.
    """
    barred = _barred(now, cap)
    if barred is not None:
        return barred
    clubs = [club.name for club in now.clubs if not club.out]
    runs = _runs(now)
    sets = list(now.plan.plan.sets) if now.plan else []
    in_order = now.plan is not None and now.plan.plan.in_order
    current = _consume(sets, runs)
    if now.in_hand in clubs:
        run = runs[-1][1] if runs and runs[-1][0] == now.in_hand else 0
        wanted = current if run else _first_set(sets, now.in_hand)
        turn = run > 0 or not in_order or sets[:1] == [(now.in_hand, wanted)]
        if run < wanted and turn:
            return NextSet(step=Step.STAY, club=now.in_hand, balls=wanted - run)
    left = [(club, balls) for club, balls in sets if club in clubs]
    if now.plan and not left:
        return NextSet(step=Step.DONE)
    if in_order:
        return NextSet(step=Step.HAND_OVER, club=left[0][0], balls=left[0][1])
    return _ordered(left, {club for club, _ in runs}) or NextSet(
        step=Step.FREE, balls=SET_OF_BALLS
    )


def sets_hit(now: FittingNow) -> tuple[tuple[int, ...], int | None]:
    """Return which of the plan's sets were hit, and which one is in hand.

    Parameters
    ----------
    now : FittingNow

    Returns
    -------
    hit : tuple of int
        Places in the plan, from 0. A set that was left for another club counts as hit.
    in_hand : int, optional
        The set of the club in hand whose balls are not all hit.
    """
    sets = now.plan.plan.sets if now.plan else ()
    hit: list[int] = []
    runs = _runs(now)
    if not runs and now.in_hand is not None:
        runs = [(now.in_hand, 0)]
    for run, (club, length) in enumerate(runs, 1):
        place = next((at for at, one in enumerate(sets) if one[0] == club and at not in hit), None)
        if place is None:
            continue
        if run == len(runs) and length < sets[place][1]:
            return tuple(hit), place if club == now.in_hand else None
        if length:
            hit.append(place)
    return tuple(hit), None


def _barred(now: FittingNow, cap: int) -> NextSet | None:
    """Return what must come before any ball that counts, if something must."""
    if now.visit is None:
        return NextSet(step=Step.OPEN)
    if now.pain or now.swings_today >= cap:
        return NextSet(step=Step.STOP)
    if not now.visit.warm:
        own = now.club(OWN)
        return NextSet(step=Step.WARM_UP, club=OWN if own and not own.out else None)
    return None


def _ordered(left: list[tuple[str, int]], hit: set[str]) -> NextSet | None:
    """Return the plan's next set where the order holds: the own club's turn, or a first set."""
    fresh = next((one for one in left if one[0] not in hit), None)
    wanted = left[0] if left and left[0][0] == OWN else fresh
    if wanted is None:
        return None
    return NextSet(step=Step.HAND_OVER, club=wanted[0], balls=wanted[1])


def _runs(now: FittingNow) -> list[tuple[str, int]]:
    """Return club and length of every run of balls since the plan was made."""
    since = now.plan.swings_before if now.plan else 0
    clubs = [swing.club or "" for swing in now.balls[since:]]
    runs = [(club, len(list(balls))) for club, balls in groupby(clubs)]
    # Handing over the same club again begins a set, and a new club in hand has no ball yet.
    if runs and now.in_hand is not None and runs[-1][0] != now.in_hand:
        runs.append((now.in_hand, 0))
    return runs


def _consume(sets: list[tuple[str, int]], runs: list[tuple[str, int]]) -> int:
    """Take the set that each run fulfils out of the plan; return the last one's balls."""
    size = SET_OF_BALLS
    for club, length in runs:
        if length == 0:
            continue
        planned = next((one for one in sets if one[0] == club), None)
        size = SET_OF_BALLS
        if planned is not None:
            sets.remove(planned)
            size = planned[1]
    return size


def _first_set(sets: list[tuple[str, int]], club: str) -> int:
    return next((balls for name, balls in sets if name == club), SET_OF_BALLS)

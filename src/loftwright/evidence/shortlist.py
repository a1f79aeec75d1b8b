"""Which shafts to try, before a ball is hit: few, unlike each other, and only as a weak guess."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np

from loftwright.constants import DEGREE, GRAM
from loftwright.domain.golfer import Wish
from loftwright.domain.home import Home
from loftwright.domain.likeness import Likeness, likeness
from loftwright.domain.sections import BOUNDS
from loftwright.domain.shortlist import ShaftOnHand, Sought
from loftwright.evidence.flight_map import conditions_at, outcomes
from loftwright.evidence.shaft_guess import Guess, NoGuess, guesses
from loftwright.evidence.shaft_prior import Belief, Effect
from loftwright.evidence.slopes import NOMINAL_ATTACK, NOMINAL_LOFT
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many

MOST: Final = 3
LIKE_MASS: Final = 4.0 * GRAM
"""Shafts as near in weight as this feel alike (judgement)."""
LOFT_STEP: Final = 1.0 * DEGREE


class Without(StrEnum):
    """Why no shaft can be named."""

    NOTHING = ""
    OWN_NOT_MEASURED = "own_not_measured"
    NONE_MEASURED = "none_measured"


class LeftOutFor(StrEnum):
    """Why a shaft is not on the list."""

    ELSEWHERE = "elsewhere"
    TOO_SHORT = "too_short"
    LIKE_OWN = "like_own"
    LIKE_ANOTHER = "like_another"
    OTHER_WAY = "other_way"
    ENOUGH = "enough"
    NO_SWING = "no_swing"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LeftOut:
    """A shaft that is not on the list.

    Attributes
    ----------
    other : str
        Name of the shaft that it plays like.
    by : float
        What it lacks to the club's length [m].
    words : str
        Who has it, or why it cannot be swung.
    """

    shaft: ShaftOnHand
    why: LeftOutFor
    other: str = ""
    by: float = 0.0
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoftStep:
    """What one degree more of dynamic loft does at the golfer's speed and home.

    Attributes
    ----------
    launch, spin, ball_speed, total : float
        [rad], [rad s^-1], [m s^-1], [m]
    """

    launch: float
    spin: float
    ball_speed: float
    total: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shortlist:
    """What to try, before a ball is hit.

    Attributes
    ----------
    sought : Sought
    loft : LoftStep
    shafts : tuple of Guess
        At most `MOST`, the likeliest to do what is wished first, none a near-copy of another.
    left_out : tuple of LeftOut
    too_close : bool
        Whether no shaft's change is as large as its doubt.
    without : Without
        Why there are no shafts.
    """

    sought: Sought
    loft: LoftStep
    shafts: tuple[Guess, ...]
    left_out: tuple[LeftOut, ...]
    too_close: bool
    without: Without


class Lacks(StrEnum):
    """What a shortlist cannot be made without."""

    OWN_CLUB = "own_club"
    HEAD_SPEED = "head_speed"
    DRIVER = "driver"
    """The own club is none."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Listed:
    """A shortlist, or what it lacks.

    Attributes
    ----------
    shortlist : Shortlist, optional
    lacks : tuple of Lacks
        Empty if there is one.
    own : str
        What the own shaft is called; empty where it is not known.
    own_reason : str
        Why the own shaft's profile is not at hand.
    """

    shortlist: Shortlist | None
    lacks: tuple[Lacks, ...] = ()
    own: str = ""
    own_reason: str = ""


def shortlist(sought: Sought, others: Sequence[ShaftOnHand]) -> Shortlist:
    """Return what to try for a golfer, before a ball is hit.

    Parameters
    ----------
    sought : Sought
    others : sequence of ShaftOnHand

    Returns
    -------
    Shortlist

    Raises
    ------
    InputError, ConvergenceError
        If the own shaft cannot be swung in its club at the golfer's speed.

    Notes
    -----
    Published means of the face are null, and twist is not modelled: no shaft is named for a
    straighter ball. Those that differ most from the own one come first then.
    """
    without = Without.NOTHING
    if sought.own is None:
        without = Without.OWN_NOT_MEASURED
    elif not others:
        without = Without.NONE_MEASURED
    here = [one for one in others if not one.elsewhere]
    left_out = [
        LeftOut(shaft=one, why=LeftOutFor.ELSEWHERE, words=one.elsewhere)
        for one in others
        if one.elsewhere
    ]
    chosen: list[Guess] = []
    if sought.own is not None:
        found = guesses(sought, sought.own, here)
        chosen, dropped = _chosen(sought.wish, sought.own.name, found)
        left_out += dropped
    return Shortlist(
        sought=sought,
        loft=loft_step(sought.head_speed, sought.home),
        shafts=tuple(chosen),
        left_out=tuple(left_out),
        too_close=not any(figure(one, sought.wish).distinguishable for one in chosen),
        without=without,
    )


def figure(guess: Guess, wish: Wish) -> Belief:
    """Return what a wish is judged by: launch, or head speed for distance.

    For a straighter ball it is the face, of which nothing is known beforehand.
    """
    effect = {
        Wish.DISTANCE: Effect.HEAD_SPEED,
        Wish.HIGHER: Effect.LAUNCH,
        Wish.LOWER: Effect.LAUNCH,
        Wish.STRAIGHTER: Effect.FACE,
    }[wish]
    return guess.beliefs[effect]


def loft_step(head_speed: float, home: Home) -> LoftStep:
    """Return what one degree more of dynamic loft does to a usual drive at a speed.

    Parameters
    ----------
    head_speed : float
        [m s^-1]
    home : Home

    Notes
    -----
    A centre strike of the reference head at 14.5 degrees of dynamic loft, half a degree down, by
    differences of half a degree to both sides.
    """
    rows = np.zeros((2, 7))
    rows[:, 0], rows[:, 1] = head_speed, NOMINAL_ATTACK
    rows[:, 4] = NOMINAL_LOFT + np.array([-0.5, 0.5]) * LOFT_STEP
    launches = strike_many(REFERENCE_HEAD, rows)[:, :5]
    totals = outcomes(launches, conditions_at(home))[:, 1]
    speed, launch, spin = (launches[1] - launches[0])[:3]
    return LoftStep(
        launch=float(launch),
        spin=float(spin),
        ball_speed=float(speed),
        total=float(totals[1] - totals[0]),
    )


def near_copies(apart: Likeness) -> bool:
    """Return whether nothing tells two shafts apart: every section was seen and is alike."""
    told = any(one.told for one in apart.bending.values())
    seen = len(apart.bending) == len(BOUNDS)
    weight = apart.mass
    return seen and not told and weight is not None and abs(weight.value) < LIKE_MASS


def _chosen(
    wish: Wish, own: str, found: Sequence[Guess | NoGuess]
) -> tuple[list[Guess], list[LeftOut]]:
    chosen: list[Guess] = []
    left_out = [_no_guess(one) for one in found if isinstance(one, NoGuess)]
    able = [one for one in found if isinstance(one, Guess)]
    for guess in sorted(able, key=lambda one: -_worth(one, wish)):
        why, other = _against(guess, wish, own, chosen)
        if why is None:
            chosen.append(guess)
        else:
            left_out.append(LeftOut(shaft=guess.shaft, why=why, other=other))
    return chosen, left_out


def _against(
    guess: Guess, wish: Wish, own: str, chosen: Sequence[Guess]
) -> tuple[LeftOutFor | None, str]:
    """Return why a shaft is not taken, and the shaft that it plays like."""
    if near_copies(guess.apart):
        return LeftOutFor.LIKE_OWN, own
    for other in chosen:
        if near_copies(likeness(guess.played, other.played)):
            return LeftOutFor.LIKE_ANOTHER, other.shaft.name
    if _worth(guess, wish) < 0.0 and figure(guess, wish).distinguishable:
        return LeftOutFor.OTHER_WAY, ""
    return (LeftOutFor.ENOUGH, "") if len(chosen) >= MOST else (None, "")


def _worth(guess: Guess, wish: Wish) -> float:
    """Return by how many of its doubts a shaft is believed to do what is wished."""
    if wish is Wish.STRAIGHTER:
        return guess.apart.distance or 0.0
    belief = figure(guess, wish)
    return (-1.0 if wish is Wish.LOWER else 1.0) * belief.mean / belief.sd


def _no_guess(one: NoGuess) -> LeftOut:
    if one.too_short_by > 0.0:
        return LeftOut(shaft=one.shaft, why=LeftOutFor.TOO_SHORT, by=one.too_short_by)
    return LeftOut(shaft=one.shaft, why=LeftOutFor.NO_SWING, words=one.reason)

"""Deals a virtual golfer's shots with their hidden truth."""

from dataclasses import dataclass, field
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
    YARD,
)
from loftwright.domain.home import Home
from loftwright.domain.shot import Shot
from loftwright.errors import InputError
from loftwright.training.clubs import CLUB_NAMES, make_clubs
from loftwright.training.device import device_named
from loftwright.training.golfer import VirtualGolfer, make_golfer
from loftwright.training.sequence import ORDERS
from loftwright.training.truth import ClubTruth, truth_arrays
from loftwright.training.visit import Disturbances, VisitArrays, simulate_visit

MOST_BALLS: Final = 2000
FIRST_DATA_LINE: Final = 2

# What the shot table prints: unit and digits after the point of each field.
_LAUNCH_PRINTED: Final = (
    ("ball_speed", MILE_PER_HOUR, 1),
    ("launch", DEGREE, 1),
    ("spin", REVOLUTION_PER_MINUTE, 0),
    ("axis", DEGREE, 1),
    ("direction", DEGREE, 1),
)
_DELIVERY_PRINTED: Final = (
    ("head_speed", MILE_PER_HOUR, 1),
    ("attack", DEGREE, 1),
    ("path", DEGREE, 1),
    ("face", DEGREE, 1),
)
_STRIKE_PRINTED: Final = (("strike_toe", MILLIMETRE, 1), ("strike_high", MILLIMETRE, 1))
_CARRY_PRINTED: Final = (("carry", YARD, 1),)


@dataclass(frozen=True, slots=True, kw_only=True)
class DealOptions:
    """What to deal.

    Attributes
    ----------
    seed : int
        The same seed and options give the same deal.
    clubs : int
        The golfer's own among them.
    balls : int
        Hit by the golfer; ghosts come on top.
    golfer : str
        An ability: tour, low, mid, high or senior.
    no_difference : bool
        All clubs the same.
    moves_strike : bool
        Clubs move strike and head speed further than usual.
    head_speed : float, optional
        The golfer's mean instead of the ability's [m s^-1].
    hand : str
        `right` or `left`.
    ghosts, misreads, unordered_marks
        As in `Disturbances`.
    device : str
        `full`, `no-marks`, `ball-only` or `speed-and-carry`.
    strength : float
        Multiplies what clubs do.
    order : str
        `sets` as a plan has them, or `blocks` of every club once.
    home : Home
        Where the truth is stated.
    """

    seed: int
    clubs: int = 6
    balls: int = 48
    golfer: str = "mid"
    no_difference: bool = False
    moves_strike: bool = False
    head_speed: float | None = None
    hand: str = "right"
    ghosts: int = 0
    misreads: int | None = None
    unordered_marks: int = 0
    device: str = "full"
    strength: float = 1.0
    order: str = "sets"
    home: Home = field(default_factory=Home)

    def __post_init__(self) -> None:
        if self.seed < 0:
            raise InputError(f"{self.seed} is no seed", place="seed", mend="Give 0 or more.")
        if not self.clubs <= self.balls + self.ghosts <= MOST_BALLS:
            raise InputError(
                f"{self.balls} balls and {self.ghosts} ghosts cannot be dealt for "
                f"{self.clubs} clubs",
                place="balls",
                mend=f"Give at least one ball a club and at most {MOST_BALLS} rows.",
            )
        if self.order not in ORDERS:
            raise InputError(
                f"{self.order!r} is no order", place="order", mend=f"Give {', '.join(ORDERS)}."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class BallTruth:
    """What was true of one row.

    Attributes
    ----------
    row : int
        Line of the written table.
    strike_toe, strike_high : float, optional
        Where the ball was struck [m]; none for a ghost.
    odd : bool
        Mishit or misread.
    ghost : bool
        No swing of the golfer.
    """

    row: int
    strike_toe: float | None
    strike_high: float | None
    odd: bool
    ghost: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Truth:
    """What a deal hides.

    Attributes
    ----------
    seed : int
    golfer : VirtualGolfer
    home : Home
        Where carry, total and offline are true.
    clubs : tuple of str
    figures : ClubTruth
        Rows in the order of `clubs`.
    balls : tuple of BallTruth
    """

    seed: int
    golfer: VirtualGolfer
    home: Home
    clubs: tuple[str, ...]
    figures: ClubTruth
    balls: tuple[BallTruth, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Deal:
    """Shots as a file of them would give them, and what they hide."""

    shots: tuple[Shot, ...]
    truth: Truth


def deal(options: DealOptions) -> Deal:
    """Deal the shots of one virtual visit.

    Parameters
    ----------
    options : DealOptions

    Returns
    -------
    Deal
        Shots rounded to what the shot table prints, so that file and memory agree.

    Raises
    ------
    InputError
        If the options cannot be dealt.

    Notes
    -----
    Golfer, clubs, order and balls have independent streams of the seed: another number of balls
    leaves golfer and clubs as they are.
    """
    streams = np.random.SeedSequence(options.seed).spawn(4)
    for_golfer, for_clubs, for_order, for_balls = (
        np.random.Generator(np.random.PCG64(stream)) for stream in streams
    )
    device = device_named(options.device)
    golfer = make_golfer(options.golfer, for_golfer, options.head_speed, options.hand)
    clubs = make_clubs(
        options.clubs,
        for_clubs,
        strength=options.strength,
        no_difference=options.no_difference,
        moves_strike=options.moves_strike,
    )
    sequence = ORDERS[options.order](options.clubs, options.balls, for_order)
    disturbances = Disturbances(
        ghosts=options.ghosts,
        misreads=options.misreads,
        unordered_marks=options.unordered_marks,
    )
    visit = simulate_visit(golfer, clubs, sequence, for_balls, device, disturbances)
    names = CLUB_NAMES[: options.clubs]
    return Deal(
        shots=shots_of(visit, names),
        truth=Truth(
            seed=options.seed,
            golfer=golfer,
            home=options.home,
            clubs=names,
            figures=truth_arrays(golfer, clubs, options.home, device),
            balls=_ball_truths(visit),
        ),
    )


def shots_of(visit: VisitArrays, names: tuple[str, ...]) -> tuple[Shot, ...]:
    """Return the rows of a visit as shots, rounded to what the shot table prints.

    Parameters
    ----------
    visit : VisitArrays
    names : tuple of str
        Of the clubs.

    Returns
    -------
    tuple of Shot
    """
    return tuple(
        Shot(
            row=FIRST_DATA_LINE + index,
            order=index,
            ball=str(index + 1),
            club=names[club],
            mark_set=_set_name(visit.mark_set, index),
            **_printed(visit.launch[index], _LAUNCH_PRINTED),
            **_printed(visit.delivery[index], _DELIVERY_PRINTED),
            **_printed(visit.strike[index], _STRIKE_PRINTED),
            **_printed(visit.carry[index : index + 1], _CARRY_PRINTED),
        )
        for index, club in enumerate(visit.club.tolist())
    )


def _printed(values: FloatArray, fields: tuple[tuple[str, float, int], ...]) -> dict[str, Any]:
    return {
        name: round(value / unit, digits) * unit
        for value, (name, unit, digits) in zip(values.tolist(), fields, strict=True)
        if not np.isnan(value)
    }


def _set_name(mark_set: IntArray, index: int) -> str | None:
    number = int(mark_set[index])
    return None if number < 0 else str(number + 1)


def _ball_truths(visit: VisitArrays) -> tuple[BallTruth, ...]:
    truths = []
    for index, (toe, high) in enumerate(visit.true_strike.tolist()):
        ghost = bool(visit.ghost[index])
        truths.append(
            BallTruth(
                row=FIRST_DATA_LINE + index,
                strike_toe=None if ghost else toe,
                strike_high=None if ghost else high,
                odd=bool(visit.odd[index]),
                ghost=ghost,
            )
        )
    return tuple(truths)

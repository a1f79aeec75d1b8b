"""Does the check of a built club against the tested one mean what it says? Simulated pick-ups.

Golfers are made by impact and flight. On a first day they hit their own club, the tested one and
another; on a second day, with a device and a form of that day, the built club, in rotation with
the tested one or without it. What the built club truly does to the swing or the ball is a row of
the study.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.constants import DEGREE, GRAM
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.domain.tolerances import Tolerances
from loftwright.evidence.balls import Balls
from loftwright.evidence.build_changes import HALF_INCH, LOFT_SHARE_DOUBT, length_changed
from loftwright.evidence.build_limits import SAMPLE_SHARE, build_limits
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import compare
from loftwright.evidence.same_club import FEWEST_BUILT, SameClub, same_club
from loftwright.evidence.visit import Beliefs
from loftwright.physics.head_variation import VARIATIONS, varied_head
from loftwright.physics.heads import Head
from loftwright.physics.impact import strike_many
from loftwright.training.clubs import CLUB_SPREAD
from loftwright.training.device import (
    DEVICES,
    GREATEST_MISREAD,
    LAUNCH_NOISE,
    LEAST_MISREAD,
    MARK_ERROR,
    MISREAD_SHARE,
    UNMARKED_SHARE,
    Device,
    delivery_as_read,
)
from loftwright.training.golfer import (
    FACE,
    HEAD_SPEED,
    LOFT,
    SWING_UNITS,
    TOE,
    VirtualGolfer,
    make_golfer,
)
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.truth_study import ABILITIES
from loftwright.training.visit import MISHIT_SHARE

OWN_CLUB, TESTED, OTHER, BUILT = range(4)
NAMES: Final = (OWN, *TREES[:3])
FIRST_DAY: Final = 24
"""Balls of the first day, shared by the first three clubs."""

DAY_FORM: Final[FloatArray] = frozen_array(
    np.array([1.0, 0.5, 0.7, 0.7, 0.7, 2.0, 2.0]) * SWING_UNITS
)
"""How a golfer's mean swing strays from day to day: standard deviations (judgement)."""
STRANGE: Final = 2.0
"""A strange shaft does this many times what shafts usually do."""

_INERTIA_OF_GRAM: Final = 12.7 / 2850.0
"""Share of a driver's inertia about its top that a gram of head adds."""
_POWER: Final = -0.26
_SPIN: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Made:
    """How the built club differs from the tested one: in what it does to a swing, and its head."""

    shift: FloatArray
    head: Head


Maker = Callable[[VirtualGolfer, np.random.Generator], Made]


def _equal(golfer: VirtualGolfer, _: np.random.Generator) -> Made:
    return Made(shift=np.zeros(7), head=golfer.head)


def _in_tolerance(golfer: VirtualGolfer, rng: np.random.Generator) -> Made:
    """Loft and face anywhere within tolerance, and another sample of the head."""
    usual, shift = Tolerances(), np.zeros(7)
    shift[LOFT], shift[FACE] = rng.uniform(-1.0, 1.0, 2) * [usual.loft, usual.face]
    by = np.sqrt(2.0) * SAMPLE_SHARE * rng.standard_normal(len(VARIATIONS))
    return Made(shift=shift, head=varied_head(golfer.head, by))


def _loft(degrees: float) -> Maker:
    def made(golfer: VirtualGolfer, rng: np.random.Generator) -> Made:
        shift = np.zeros(7)
        shift[LOFT] = -degrees * DEGREE * (1.0 + LOFT_SHARE_DOUBT * rng.standard_normal())
        return Made(shift=shift, head=golfer.head)

    return made


def _heavy_head(golfer: VirtualGolfer, _: np.random.Generator) -> Made:
    shift = np.zeros(7)
    shift[HEAD_SPEED] = _POWER * 3.0 * _INERTIA_OF_GRAM * golfer.mean[HEAD_SPEED]
    return Made(shift=shift, head=replace(golfer.head, mass=golfer.head.mass + 3.0 * GRAM))


def _long(golfer: VirtualGolfer, rng: np.random.Generator) -> Made:
    change = length_changed(HALF_INCH, float(golfer.mean[HEAD_SPEED]))
    shift = np.append(change.shift, [0.0, 0.0]) + change.doubt * rng.standard_normal(7)
    return Made(shift=shift, head=golfer.head)


def _strange_shaft(golfer: VirtualGolfer, rng: np.random.Generator) -> Made:
    return Made(shift=STRANGE * CLUB_SPREAD * rng.standard_normal(7), head=golfer.head)


def _open_face(golfer: VirtualGolfer, _: np.random.Generator) -> Made:
    shift = np.zeros(7)
    shift[FACE] = 2.0 * DEGREE
    return Made(shift=shift, head=golfer.head)


MADE: Final[Mapping[str, Maker]] = MappingProxyType(
    {
        "the same club": _equal,
        "another sample, within tolerance": _in_tolerance,
        "1 degree strong": _loft(1.0),
        "3 g more in the head": _heavy_head,
        "half an inch long": _long,
        "a strange shaft": _strange_shaft,
        "face 2 degrees open": _open_face,
        "3 degrees strong": _loft(3.0),
    }
)
"""What was built in place of the tested club."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rotation:
    """The second day: sets of balls in order, and what measures them.

    Attributes
    ----------
    sets : tuple of (int, int)
        Club and balls.
    """

    sets: tuple[tuple[int, int], ...]
    device: str = "full"

    @property
    def of_the_tested(self) -> bool:
        """Whether the tested club is hit again."""
        return any(club == TESTED for club, _ in self.sets)

    @property
    def sequence(self) -> IntArray:
        """The club of each ball."""
        return np.repeat(
            np.array([club for club, _ in self.sets]), [balls for _, balls in self.sets]
        )


ROTATION: Final = ((TESTED, 3), (BUILT, 4), (TESTED, 3), (BUILT, 4))
DAYS: Final[Mapping[str, Rotation]] = MappingProxyType(
    {
        "6 tested, 8 built": Rotation(sets=ROTATION),
        "3 tested, 6 built": Rotation(sets=((BUILT, 3), (TESTED, 3), (BUILT, 3))),
        "6 tested, 8 built, ball data alone": Rotation(sets=ROTATION, device="ball-only"),
        "tested on the first day, 6 own, 8 built": Rotation(
            sets=((OWN_CLUB, 3), (BUILT, 4), (OWN_CLUB, 3), (BUILT, 4))
        ),
        "12 tested, 16 built": Rotation(sets=2 * ROTATION),
    }
)
"""How the second day goes."""


def pick_up(made: str, day: str, ability: str, seed: int) -> tuple[SameClub, ...]:
    """Simulate one pick-up and return what is said after every ball of the second day.

    Parameters
    ----------
    made, day : str
        Keys of `MADE` and `DAYS`.
    ability : str
    seed : int
        The same golfer, form and first day for every row.

    Returns
    -------
    tuple of SameClub
        From the first ball on which anything may be said; the last is the answer.
    """
    balls = _balls(made, DAYS[day], ability, seed)
    first = FIRST_DAY + FEWEST_BUILT
    rotation = DAYS[day].of_the_tested
    return tuple(_said(balls, upto, rotation=rotation) for upto in range(first, len(balls) + 1))


def answer(made: str, day: str, ability: str, seed: int) -> SameClub:
    """Simulate one pick-up and return what is said after its last ball."""
    balls = _balls(made, DAYS[day], ability, seed)
    return _said(balls, len(balls), rotation=DAYS[day].of_the_tested)


def _said(balls: Balls, upto: int, *, rotation: bool) -> SameClub:
    traits = tuple(ClubTraits(head=f"head {one}", shaft=f"shaft {one}") for one in NAMES)
    comparison = compare(balls.take(np.arange(upto)), Home(), Beliefs(traits=traits))
    limits = build_limits(comparison, Tolerances())
    return same_club(comparison, limits, NAMES[BUILT], NAMES[TESTED], rotation=rotation)


def _balls(made: str, day: Rotation, ability: str, seed: int) -> Balls:
    rng = np.random.default_rng(np.random.PCG64(seed))
    for_golfer, for_clubs, for_made, for_first, for_second = rng.spawn(5)
    golfer = make_golfer(ability, for_golfer)
    shifts = CLUB_SPREAD * for_clubs.standard_normal((len(NAMES), 7))
    built = MADE[made](golfer, for_made)
    shifts[BUILT] = shifts[TESTED] + built.shift
    heads = (golfer.head, golfer.head, golfer.head, built.head)
    device = DEVICES[day.device]
    first = shuffled_blocks(3, FIRST_DAY, for_first)
    parts = [
        _visit(golfer, shifts, heads, sequence, device, one)
        for sequence, one in ((first, for_first), (day.sequence, for_second))
    ]
    launch, delivery, marks, order = (np.concatenate(one) for one in zip(*parts, strict=True))
    club = np.concatenate([first, day.sequence])
    return Balls(
        clubs=NAMES,
        own=OWN_CLUB,
        club=club,
        row=np.arange(1, 1 + len(club)),
        order=order,
        launch=launch,
        delivery=delivery,
        marks=marks,
        mark_set=np.full(len(club), -1),
        carry=np.full(len(club), np.nan),
        visit=np.repeat([0, 1], [len(first), len(day.sequence)]),
    )


def _visit(
    golfer: VirtualGolfer,
    shifts: FloatArray,
    heads: tuple[Head, ...],
    sequence: IntArray,
    device: Device,
    rng: np.random.Generator,
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Return launch, delivery, marks and order of a day's balls, with its form and device."""
    count = len(sequence)
    order = np.arange(count, dtype=np.float64)
    form = DAY_FORM * rng.standard_normal(7)
    reads = LAUNCH_NOISE * rng.standard_normal(5)
    swings = golfer.swings(
        rng.standard_normal((count, 7)),
        shifts[sequence] + form,
        ball=order,
        mishit=rng.random(count) < MISHIT_SHARE,
    )
    launch = np.empty((count, 5))
    for club, head in enumerate(heads):
        with_it = sequence == club
        launch[with_it] = strike_many(head, swings[with_it], golfer.law)
    noise = rng.standard_normal((count, 5))
    misread = np.flatnonzero(rng.random(count) < MISREAD_SHARE)
    noise[misread, rng.integers(0, 5, len(misread))] *= rng.uniform(
        LEAST_MISREAD, GREATEST_MISREAD, len(misread)
    )
    launch += reads + LAUNCH_NOISE * noise
    launch[:, _SPIN] = np.abs(launch[:, _SPIN])
    delivery = delivery_as_read(swings, rng.standard_normal((count, 4)))
    marks = swings[:, TOE:] + MARK_ERROR * rng.standard_normal((count, 2))
    marks[rng.random(count) < UNMARKED_SHARE] = np.nan
    if not device.delivery:
        delivery = np.full_like(delivery, np.nan)
    if not device.marks:
        marks = np.full_like(marks, np.nan)
    return launch, delivery, marks, order


def to_record(found: tuple[SameClub, ...]) -> dict[str, Any]:
    """Return what was said as plain values that JSON holds: the answer, and any *not* on the way.

    Parameters
    ----------
    found : tuple of SameClub
        From `pick_up`, or the answer alone.
    """
    last = found[-1]
    return {
        "against": last.against,
        "differs": [one.name for one in last.differing],
        "more": last.more,
        "ever_not": any(one.differing for one in found),
        "wide": [one.name for one in last.numbers if not one.within],
    }


def ability_of(number: int) -> str:
    """Return the ability of a numbered golfer."""
    return ABILITIES[number % len(ABILITIES)]

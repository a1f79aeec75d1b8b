"""One visit of a virtual golfer as arrays: what the device shows, and what was true."""

from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.flight_map import conditions_at
from loftwright.physics.flight import fly_many
from loftwright.physics.impact import strike_many
from loftwright.training.device import (
    CARRY_ERROR,
    DEVICES,
    GREATEST_MISREAD,
    LAUNCH_NOISE,
    LEAST_MISREAD,
    MISREAD_SHARE,
    Device,
    marks_in_sets,
    read_delivery,
    read_marks,
)
from loftwright.training.ghosts import ghost_readings
from loftwright.training.golfer import TOE, VirtualGolfer

MISHIT_SHARE: Final = 0.05
_SPIN: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Disturbances:
    """What goes wrong in the bay beyond the usual.

    Attributes
    ----------
    ghosts : int
        Rows that are no swing of the golfer: waggles and a neighbour's balls.
    misreads : int, optional
        Balls with one launch number 4 to 8 times its noise off; without it 4 % of the balls.
    unordered_marks : int
        Balls of one club after which their marks are read together in unknown order; 0 for
        marks read ball by ball.
    """

    ghosts: int = 0
    misreads: int | None = None
    unordered_marks: int = 0

    def __post_init__(self) -> None:
        for name in ("ghosts", "misreads", "unordered_marks"):
            count = getattr(self, name)
            if count is not None and count < 0:
                raise InputError(f"{count} is no number of them", place=name)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VisitArrays:
    """Rows of a visit in the order in which the device wrote them.

    SI and radians. Launch is in world signs; delivery, marks and strike are in the golfer's.

    Attributes
    ----------
    club : IntArray, shape (n,)
        Index of the club.
    launch : FloatArray, shape (n, 5)
        Ball speed, launch, spin, axis, direction as read; NaN where not measured.
    delivery : FloatArray, shape (n, 4)
        Head speed, attack, path, face as read; NaN where not measured.
    strike : FloatArray, shape (n, 2)
        Marks as read, toe and high; NaN without one.
    mark_set : IntArray, shape (n,)
        Set whose marks are in unknown order; -1 for a ball with its own.
    carry : FloatArray, shape (n,)
        As the device shows it, in still air at sea level; NaN where not measured.
    true_strike : FloatArray, shape (n, 2)
        NaN for a ghost.
    mishit, misread, ghost : BoolArray, shape (n,)
    """

    club: IntArray
    launch: FloatArray
    delivery: FloatArray
    strike: FloatArray
    mark_set: IntArray
    carry: FloatArray
    true_strike: FloatArray
    mishit: BoolArray
    misread: BoolArray
    ghost: BoolArray

    def __post_init__(self) -> None:
        for column in fields(self):
            copy = np.array(getattr(self, column.name))
            copy.flags.writeable = False
            object.__setattr__(self, column.name, copy)

    @property
    def odd(self) -> BoolArray:
        """Balls that were mishit or misread."""
        return self.mishit | self.misread


def simulate_visit(
    golfer: VirtualGolfer,
    clubs: FloatArray,
    sequence: IntArray,
    rng: np.random.Generator,
    device: Device = DEVICES["full"],
    disturbances: Disturbances | None = None,
    first: int = 0,
) -> VisitArrays:
    """Hit a sequence of balls and read them.

    Parameters
    ----------
    golfer : VirtualGolfer
    clubs : FloatArray, shape (S, 7)
        What each club does to the swing.
    sequence : IntArray, shape (n,)
        The club of each ball.
    rng : numpy.random.Generator
        Swings, readings and disturbances each have a stream of their own, so that a device that
        shows less shows the same balls.
    device : Device, optional
    disturbances : Disturbances, optional
    first : int, optional
        Swings of the visit before the first of these.

    Returns
    -------
    VisitArrays
        With one more row for every ghost.

    Raises
    ------
    InputError
        If more balls are to be misread than are hit.

    Notes
    -----
    A left-hander's visit is a right-hander's in a mirror, readings and ghosts too.

    The golfer starts cold: 1.5 mph slower and 2 mm lower on the face, gone after some eight
    balls. Five balls in a hundred are mishit, their strike straying 2.5 times as far.
    """
    wanted = disturbances or Disturbances()
    swinging, reading, disturbing = rng.spawn(3)
    count = len(sequence)
    normals = swinging.standard_normal((count, 7))
    mishit = swinging.random(count) < MISHIT_SHARE
    swings = golfer.swings(
        normals, clubs[sequence], ball=first + np.arange(count, dtype=np.float64), mishit=mishit
    )
    true_launch = strike_many(golfer.head, swings, golfer.law)

    launch, misread = _read_launch(true_launch, device, wanted.misreads, reading)
    delivery = read_delivery(swings, reading)
    marks = read_marks(swings, reading)
    lot = disturbing.random(count) if wanted.unordered_marks else np.zeros(count)
    marks, mark_set = marks_in_sets(marks, sequence, wanted.unordered_marks, lot)
    carry = _carry(true_launch) if device.carry else np.full(count, np.nan)
    carry += CARRY_ERROR * reading.standard_normal(count)

    slots, launch_of, delivery_of, carry_of = _ghosts(wanted.ghosts, count, device, disturbing)
    rows = np.maximum(slots - 1, 0)
    blank = np.full((wanted.ghosts, 2), np.nan)
    nothing = np.zeros(wanted.ghosts, dtype=np.bool_)
    return VisitArrays(
        club=np.insert(sequence, slots, sequence[rows]),
        launch=golfer.in_the_world(
            _shown(np.insert(launch, slots, launch_of, axis=0), np.array(device.launch))
        ),
        delivery=_shown(np.insert(delivery, slots, delivery_of, axis=0), device.delivery),
        strike=_shown(np.insert(marks, slots, blank, axis=0), device.marks),
        mark_set=np.insert(mark_set, slots, -1)
        if device.marks
        else np.full(count + len(slots), -1),
        carry=np.insert(carry, slots, carry_of),
        true_strike=np.insert(swings[:, TOE:], slots, blank, axis=0),
        mishit=np.insert(mishit, slots, nothing),
        misread=np.insert(misread, slots, nothing),
        ghost=np.insert(np.zeros(count, dtype=np.bool_), slots, ~nothing),
    )


def _shown(values: FloatArray, shown: BoolArray | bool) -> FloatArray:
    return np.where(shown, values, np.nan)


def _read_launch(
    true_launch: FloatArray, device: Device, misreads: int | None, rng: np.random.Generator
) -> tuple[FloatArray, BoolArray]:
    """Return launches with noise and misread cells, and which rows are misread."""
    count = len(true_launch)
    noise = rng.standard_normal((count, 5))
    lot = rng.random(count)
    size = rng.uniform(LEAST_MISREAD, GREATEST_MISREAD, count)
    side = np.where(rng.random(count) < 0.5, -1.0, 1.0)
    place = rng.random(count)
    if misreads is None:
        misread = lot < MISREAD_SHARE
    elif misreads <= count:
        misread = np.argsort(np.argsort(lot)) < misreads
    else:
        raise InputError(f"{misreads} balls cannot be misread among {count}", place="misreads")
    present = np.flatnonzero(device.launch)
    rows = np.flatnonzero(misread)
    cells = present[(place[rows] * len(present)).astype(np.int64)]
    noise[rows, cells] = size[rows] * side[rows]
    launch = true_launch + LAUNCH_NOISE * noise
    launch[:, _SPIN] = np.abs(launch[:, _SPIN])
    return launch, misread


def _carry(launches: FloatArray) -> FloatArray:
    return np.array(fly_many(launches, conditions_at(Home())).carry)


def _ghosts(
    count: int, balls: int, device: Device, rng: np.random.Generator
) -> tuple[IntArray, FloatArray, FloatArray, FloatArray]:
    """Return before which balls ghosts stand and what the device shows of them."""
    slots = np.sort(rng.integers(0, balls + 1, count))
    launch, delivery = ghost_readings(count, rng)
    carry = _carry(launch) if device.carry else np.full(count, np.nan)
    return slots, launch, delivery, carry

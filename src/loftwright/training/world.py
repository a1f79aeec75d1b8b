"""A simulated fitting whose balls are the same whatever the order in which clubs are hit.

The k-th ball with a club is one and the same swing, reading and mark under every order and
method, but for what the order itself does: warm-up, and the hand-over that went before. So
methods that choose their own next club can be set against fixed orders ball for ball.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    REVOLUTION_PER_MINUTE,
)
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.balls import Balls
from loftwright.physics.head_variation import VARIATIONS, varied_head
from loftwright.physics.heads import Head
from loftwright.physics.impact import strike_many
from loftwright.training.clubs import make_clubs
from loftwright.training.device import (
    ATTACK_ERROR,
    FACE_ERROR,
    FACE_TO_PATH_ERROR,
    GREATEST_MISREAD,
    HEAD_SPEED_ERROR,
    LAUNCH_NOISE,
    LEAST_MISREAD,
    MARK_ERROR,
    MISREAD_SHARE,
    UNMARKED_SHARE,
    Device,
)
from loftwright.training.golfer import TOE, VirtualGolfer, make_golfer
from loftwright.training.truth import ClubTruth, truth_arrays
from loftwright.training.visit import MISHIT_SHARE

MOST_BALLS: Final = 60
TRUE_SWINGS: Final = 512
_SPIN: Final = 2
_NOBODY: Final = -1

HANDOVER_SHIFT: Final[FloatArray] = frozen_array(
    [
        0.3 * MILE_PER_HOUR,
        0.2 * DEGREE,
        60.0 * REVOLUTION_PER_MINUTE,
        0.4 * DEGREE,
        0.2 * DEGREE,
    ]
)
"""Hidden shift of launch from one hand-over to the next: sd of the five numbers (assumed)."""

_SPEED_RATIO: Final = 1.44
_FORMULA_SPIN: Final = (500.0 * REVOLUTION_PER_MINUTE, 170.0 * REVOLUTION_PER_MINUTE / DEGREE)


@dataclass(frozen=True, slots=True, kw_only=True)
class World:
    """How a simulated fitting really is.

    Attributes
    ----------
    device : Device
        What is measured.
    clubs : int
    strength : float
        Factor on what clubs do.
    no_difference, moves_strike : bool
        Clubs that do nothing; clubs that move strike and head speed further.
    own_best : bool
        The truly best club is the golfer's own.
    mark_error : float
        True error of a mark [m].
    spin_factor_sd : float
        How the spin factor of golfers' heads and balls varies.
    two_heads : bool
        Every second club has another head, with strike slopes of its own.
    mishits, misreads : float
        Shares of the balls.
    handovers : float
        Factor on the hidden shift at every change of club.
    derived_speed, formula_spin : bool
        Head speed and spin that the device calculates and shows as if measured.
    """

    device: Device
    clubs: int = 6
    strength: float = 1.0
    no_difference: bool = False
    moves_strike: bool = False
    own_best: bool = False
    mark_error: float = MARK_ERROR
    spin_factor_sd: float = 0.0
    two_heads: bool = False
    mishits: float = MISHIT_SHARE
    misreads: float = MISREAD_SHARE
    handovers: float = 0.0
    derived_speed: bool = False
    formula_spin: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SimulatedFitting:
    """One golfer with clubs, and every ball that could be hit.

    Attributes
    ----------
    shifts : FloatArray, shape (S, 7)
        What each club does to the swing.
    heads : tuple of Head
        One a club.
    names : tuple of str
    truth : ClubTruth
    """

    world: World
    golfer: VirtualGolfer
    shifts: FloatArray
    heads: tuple[Head, ...]
    names: tuple[str, ...]
    truth: ClubTruth
    _chance: "_Chance"

    def play(self, sequence: IntArray) -> Balls:
        """Return the balls of a sequence of clubs, as a fitter reads them.

        Parameters
        ----------
        sequence : IntArray, shape (n,)
            The club of each ball; at most 60 of each.

        Returns
        -------
        Balls
        """
        count = len(sequence)
        chance, world, device = self._chance, self.world, self.world.device
        turn = np.array([int((sequence[:ball] == sequence[ball]).sum()) for ball in range(count)])
        at = (sequence, turn)
        swings = self.golfer.swings(
            chance.swings[at],
            self.shifts[sequence],
            ball=np.arange(count, dtype=np.float64),
            mishit=chance.mishit[at] < world.mishits,
        )
        launch = np.empty((count, 5))
        for head in set(self.heads):
            with_it = np.array([self.heads[club] is head for club in sequence])
            launch[with_it] = strike_many(head, swings[with_it], self.golfer.law)
        handover = np.cumsum(np.diff(sequence, prepend=_NOBODY) != 0) - 1
        launch += world.handovers * HANDOVER_SHIFT * chance.handover[handover]
        noise = chance.reading[at].copy()
        wrong = np.flatnonzero(chance.misread[at] < world.misreads)
        cells = (chance.cell[at][wrong] * 5).astype(np.int64)
        noise[wrong, cells] = chance.size[at][wrong]
        launch += LAUNCH_NOISE * noise
        launch[:, _SPIN] = np.abs(launch[:, _SPIN])
        if world.formula_spin:
            launch[:, _SPIN] = _FORMULA_SPIN[0] + _FORMULA_SPIN[1] * launch[:, 1]
        delivery = _read(swings, chance.delivery[at])
        if world.derived_speed:
            delivery[:, 0] = launch[:, 0] / _SPEED_RATIO
        marks = swings[:, TOE:] + world.mark_error * chance.mark[at]
        marks[chance.unmarked[at] < UNMARKED_SHARE] = np.nan
        shown = np.array(device.columns) & device.delivery
        return Balls(
            clubs=self.names,
            own=0,
            club=np.asarray(sequence, dtype=np.int64),
            row=np.arange(2, 2 + count),
            order=np.arange(count, dtype=np.float64),
            launch=launch,
            delivery=np.where(shown, delivery, np.nan),
            marks=marks if device.marks else np.full((count, 2), np.nan),
            mark_set=np.full(count, -1, dtype=np.int64),
            carry=np.full(count, np.nan),
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Chance:
    """All that is left to chance: by club and turn, the hand-overs by their number."""

    swings: FloatArray
    mishit: FloatArray
    reading: FloatArray
    misread: FloatArray
    cell: FloatArray
    size: FloatArray
    delivery: FloatArray
    mark: FloatArray
    unmarked: FloatArray
    handover: FloatArray


def simulate_fitting(world: World, ability: str, seed: int) -> SimulatedFitting:
    """Draw a golfer, clubs and every ball.

    Parameters
    ----------
    world : World
    ability : str
    seed : int
        The same draws for every world, so that worlds can be compared.

    Returns
    -------
    SimulatedFitting
    """
    rng = np.random.default_rng(np.random.PCG64(seed))
    for_golfer, for_clubs, for_law, for_balls = rng.spawn(4)
    golfer = make_golfer(ability, for_golfer)
    spin = golfer.law.spin_factor + world.spin_factor_sd * float(for_law.standard_normal())
    golfer = replace(golfer, law=replace(golfer.law, spin_factor=spin))
    shifts = make_clubs(
        world.clubs,
        for_clubs,
        strength=world.strength,
        no_difference=world.no_difference,
        moves_strike=world.moves_strike,
    )
    other = varied_head(golfer.head, for_law.standard_normal(len(VARIATIONS)))
    heads = tuple(
        other if world.two_heads and club % 2 else golfer.head for club in range(world.clubs)
    )
    truth = truth_arrays(golfer, shifts, Home(), world.device, TRUE_SWINGS, heads)
    if world.own_best:
        order = np.arange(world.clubs)
        best = int(np.argmax(truth.as_you_swing_it.total))
        order[[0, best]] = best, 0
        shifts, heads = shifts[order], tuple(heads[club] for club in order)
        truth = truth_arrays(golfer, shifts, Home(), world.device, TRUE_SWINGS, heads)
    return SimulatedFitting(
        world=world,
        golfer=golfer,
        shifts=shifts,
        heads=heads,
        names=(OWN, *TREES)[: world.clubs],
        truth=truth,
        _chance=_chance(world.clubs, for_balls),
    )


def _chance(clubs: int, rng: np.random.Generator) -> _Chance:
    shape = (clubs, MOST_BALLS)
    side = np.where(rng.random(shape) < 0.5, -1.0, 1.0)
    return _Chance(
        swings=rng.standard_normal((*shape, 7)),
        mishit=rng.random(shape),
        reading=rng.standard_normal((*shape, 5)),
        misread=rng.random(shape),
        cell=rng.random(shape),
        size=side * rng.uniform(LEAST_MISREAD, GREATEST_MISREAD, shape),
        delivery=rng.standard_normal((*shape, 4)),
        mark=rng.standard_normal((*shape, 2)),
        unmarked=rng.random(shape),
        handover=rng.standard_normal((MOST_BALLS + 1, 5)),
    )


def _read(swings: FloatArray, normals: FloatArray) -> FloatArray:
    """Return head speed, attack, path and face as read; path is face less face-to-path."""
    noise = normals * [HEAD_SPEED_ERROR, ATTACK_ERROR, FACE_TO_PATH_ERROR, FACE_ERROR]
    delivery = swings[:, :4] + noise
    delivery[:, 2] = swings[:, 2] + noise[:, 3] - noise[:, 2]
    return np.asarray(delivery)

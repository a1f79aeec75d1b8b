"""A simulated fitting whose balls are the same whatever the order in which clubs are hit.

The k-th ball with a club is one and the same swing, reading and mark under every order and
method, but for what the order itself does: warm-up, and the hand-over that went before. So
methods that choose their own next club can be set against fixed orders ball for ball.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import DEGREE, REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.balls import Balls
from loftwright.physics.head_variation import VARIATIONS, varied_head
from loftwright.physics.heads import Head
from loftwright.physics.impact import strike_many
from loftwright.training.chance import Chance, draw_chance, places_of
from loftwright.training.clubs import make_clubs
from loftwright.training.device import (
    LAUNCH_NOISE,
    MARK_ERROR,
    MISREAD_SHARE,
    UNMARKED_SHARE,
    Device,
    delivery_as_read,
    marks_in_sets,
)
from loftwright.training.golfer import TOE, VirtualGolfer, make_golfer
from loftwright.training.truth import ClubTruth, truth_arrays
from loftwright.training.visit import MISHIT_SHARE

TRUE_SWINGS: Final = 512
_SPIN: Final = 2

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
    unordered_marks : int
        Balls of a club after which their marks are read together in unknown order; 0 for marks
        read ball by ball.
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
    unordered_marks: int = 0
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
    beyond : FloatArray, shape (S, 5), optional
        What each club adds to launch beyond swing and impact.
    """

    world: World
    golfer: VirtualGolfer
    shifts: FloatArray
    heads: tuple[Head, ...]
    names: tuple[str, ...]
    truth: ClubTruth
    _chance: Chance
    beyond: FloatArray | None = None

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
        at = places_of(sequence)
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
        if self.beyond is not None:
            launch += self.beyond[sequence]
        launch += world.handovers * chance.handed_over(sequence)
        launch += LAUNCH_NOISE * chance.noise(at, world.misreads)
        launch[:, _SPIN] = np.abs(launch[:, _SPIN])
        if world.formula_spin:
            launch[:, _SPIN] = _FORMULA_SPIN[0] + _FORMULA_SPIN[1] * launch[:, 1]
        delivery = delivery_as_read(swings, chance.delivery[at])
        if world.derived_speed:
            delivery[:, 0] = launch[:, 0] / _SPEED_RATIO
        marks = swings[:, TOE:] + world.mark_error * chance.mark[at]
        marks[chance.unmarked[at] < UNMARKED_SHARE] = np.nan
        marks, mark_set = marks_in_sets(marks, sequence, world.unordered_marks, chance.shuffle[at])
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
            mark_set=mark_set if device.marks else np.full(count, -1, dtype=np.int64),
            carry=np.full(count, np.nan),
        )


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
    return fitting_of(world, golfer, shifts, heads, truth, for_balls)


def fitting_of(
    world: World,
    golfer: VirtualGolfer,
    shifts: FloatArray,
    heads: tuple[Head, ...],
    truth: ClubTruth,
    rng: np.random.Generator,
    beyond: FloatArray | None = None,
) -> SimulatedFitting:
    """Return the fitting of a golfer with given clubs, every ball drawn.

    Parameters
    ----------
    world : World
    golfer : VirtualGolfer
    shifts : FloatArray, shape (S, 7)
        What each club does to the swing.
    heads : tuple of Head
        One a club.
    truth : ClubTruth
        Of these clubs.
    rng : numpy.random.Generator
        For the balls.
    beyond : FloatArray, shape (S, 5), optional
        What each club adds to launch beyond swing and impact.
    """
    return SimulatedFitting(
        world=world,
        golfer=golfer,
        shifts=shifts,
        heads=heads,
        names=(OWN, *TREES)[: len(heads)],
        truth=truth,
        _chance=draw_chance(len(heads), rng),
        beyond=beyond,
    )

"""A virtual bay whose launch follows swing and strike by straight lines, and clubs act on launch.

It knows no impact model, so it tests the comparison of clubs apart from the physics the
comparison takes its first slopes from. Its figures are assumptions, written in mph, degrees,
rpm and millimetres; no real golfer is claimed to be like them.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.balls import Balls
from loftwright.training.chance import MOST_BALLS, Chance, draw_chance, places_of
from loftwright.training.device import (
    MARK_ERROR,
    MISREAD_SHARE,
    UNMARKED_SHARE,
    delivery_as_read,
)
from loftwright.training.golfer import MISHIT_FACTOR, TOE, WARM_UP_BALLS
from loftwright.training.truth import SWINGS, ClubTruth, even_normals, figures_of
from loftwright.training.visit import MISHIT_SHARE

LAUNCH_UNITS: Final[FloatArray] = frozen_array(
    [MILE_PER_HOUR, DEGREE, REVOLUTION_PER_MINUTE, DEGREE, DEGREE]
)
BASE_LAUNCH: Final[FloatArray] = frozen_array([150.0, 12.5, 2600.0, 0.0, 0.0])
BASE_HEAD_SPEED: Final = 101.0
HEAD_SPEED_BETWEEN: Final = 4.0

# Columns: toe and high per 10 mm, head speed per mph, attack, face to path, face per degree.
SLOPES: Final[FloatArray] = frozen_array(
    [
        [0.0, 0.0, 1.78 / 1.2, 0.0, 0.0, 0.0],
        [0.0, 1.5, 0.0, 0.8, 0.0, 0.0],
        [0.0, -600.0, 0.0, -60.0, 0.0, 0.0],
        [-6.0, 0.0, 0.0, 0.0, 1.2, 0.0],
        [0.0, 0.0, 0.0, 0.0, 0.0, 0.85],
    ]
)
BENDS: Final[FloatArray] = frozen_array([[-1.5, -1.5], *[[0.0, 0.0]] * 4])
SLOPE_BETWEEN: Final = 0.2

STRIKE_OFFSET: Final[FloatArray] = frozen_array([4.0, 3.0])
STRIKE_SPREAD: Final[FloatArray] = frozen_array([8.0, 6.0])
STRIKE_SPREAD_BETWEEN: Final = 0.15
SWING_SPREAD: Final[FloatArray] = frozen_array([1.2, 0.9, 1.4, 1.2])
COLD_SPEED: Final = -1.5
COLD_HIGH: Final = -2.0
RESIDUAL: Final[FloatArray] = frozen_array([0.6, 0.5, 130.0, 1.0, 0.4])
CLUB_EFFECT: Final[FloatArray] = frozen_array([0.7, 0.5, 150.0, 0.6, 0.25])
_TEN_MILLIMETRES: Final = 10.0
_SPIN: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearGolfer:
    """One golfer of the linear bay, in printed units.

    Attributes
    ----------
    head_speed : float
    strike, strike_sd : FloatArray, shape (2,)
        Mean and standard deviation, toe and high.
    slopes : FloatArray, shape (5, 6)
    bends : FloatArray, shape (5, 2)
        Launch per square of 10 mm of strike.
    """

    head_speed: float
    strike: FloatArray
    strike_sd: FloatArray
    slopes: FloatArray
    bends: FloatArray

    def mean_launch(self, shift: FloatArray) -> FloatArray:
        """Return mean launches once warm, shape (S, 5).

        Parameters
        ----------
        shift : FloatArray, shape (S, 3)
            Of strike toe, strike high and head speed.
        """
        strike = (self.strike + shift[:, :2]) / _TEN_MILLIMETRES
        square = strike**2 + (self.strike_sd / _TEN_MILLIMETRES) ** 2
        speed = self.head_speed - BASE_HEAD_SPEED + shift[:, 2:]
        linear = np.hstack([strike, speed]) @ self.slopes[:, :3].T
        launch: FloatArray = BASE_LAUNCH + linear + square @ self.bends.T
        return launch

    def launch_covariance(self) -> FloatArray:
        """Return the covariance of balls with one club, shape (5, 5)."""
        sd = self.strike_sd / _TEN_MILLIMETRES
        along = self.slopes[:, :2] + 2.0 * self.bends * self.strike / _TEN_MILLIMETRES
        spread = np.hstack(
            [along * sd, np.sqrt(2.0) * self.bends * sd**2, self.slopes[:, 2:] * SWING_SPREAD]
        )
        covariance: FloatArray = spread @ spread.T + np.diag(RESIDUAL**2)
        return covariance


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearWorld:
    """How a fitting of the linear bay really is.

    Attributes
    ----------
    clubs : int
    no_difference : bool
        All clubs the same.
    strike_moves, speed_moves : float
        Standard deviation of what clubs do to the mean strike [m] and head speed [m s^-1].
    mishits, misreads : float
        Shares of the balls.
    mark_error : float
        Of a mark [m].
    handovers : float
        Factor on the hidden shift at every change of club.
    """

    clubs: int = 6
    no_difference: bool = False
    strike_moves: float = 0.0
    speed_moves: float = 0.0
    mishits: float = MISHIT_SHARE
    misreads: float = MISREAD_SHARE
    mark_error: float = MARK_ERROR
    handovers: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearFitting:
    """One golfer of the linear bay with clubs, and every ball that could be hit.

    Attributes
    ----------
    effects : FloatArray, shape (S, 5)
        What each club does to the launch, in itself, in printed units.
    shift : FloatArray, shape (S, 3)
        What each club does to strike toe and high and to head speed, in printed units.
    names : tuple of str
    """

    world: LinearWorld
    golfer: LinearGolfer
    effects: FloatArray
    shift: FloatArray
    names: tuple[str, ...]
    _chance: Chance

    @property
    def as_you_swing_it(self) -> FloatArray:
        """Mean launch with each club once warm, SI, shape (S, 5)."""
        return (self.golfer.mean_launch(self.shift) + self.effects) * LAUNCH_UNITS

    @property
    def from_the_same_swing(self) -> FloatArray:
        """The same without what clubs do to strike and speed."""
        return (self.golfer.mean_launch(0.0 * self.shift) + self.effects) * LAUNCH_UNITS

    @property
    def launch_covariance(self) -> FloatArray:
        """Covariance of balls with one club, SI, shape (5, 5)."""
        covariance: FloatArray = self.golfer.launch_covariance()
        return covariance * np.outer(LAUNCH_UNITS, LAUNCH_UNITS)

    def truth(self, home: Home, balls: int = SWINGS) -> ClubTruth:
        """Return what the clubs truly do at home.

        Parameters
        ----------
        home : Home
        balls : int, optional
            Flown with each club; their launches follow a normal law.

        Returns
        -------
        ClubTruth
        """
        spread = even_normals(balls)[:, :5] @ np.linalg.cholesky(self.launch_covariance).T
        return ClubTruth(
            as_you_swing_it=figures_of(self.as_you_swing_it[:, None] + spread, home),
            from_the_same_swing=figures_of(self.from_the_same_swing[:, None] + spread, home),
        )

    def play(self, sequence: IntArray) -> Balls:
        """Return the balls of a sequence of clubs, as a fitter reads them.

        Parameters
        ----------
        sequence : IntArray, shape (n,)
            The club of each ball.

        Returns
        -------
        Balls

        Notes
        -----
        Balls are mishit, misread and unmarked, and the golfer warms up, as elsewhere.
        """
        count, chance, world = len(sequence), self._chance, self.world
        at = places_of(sequence)
        swings = self._swings(sequence, chance.swings[at], chance.mishit[at] < world.mishits)
        strike = swings[:, :2] / _TEN_MILLIMETRES
        columns = np.hstack([strike, swings[:, 2:3] - BASE_HEAD_SPEED, swings[:, 3:]])
        launch = BASE_LAUNCH + columns @ self.golfer.slopes.T + strike**2 @ self.golfer.bends.T
        launch += self.effects[sequence] + RESIDUAL * chance.noise(at, world.misreads)
        launch += world.handovers * chance.handed_over(sequence) / LAUNCH_UNITS
        launch[:, _SPIN] = np.abs(launch[:, _SPIN])
        golf_swings = _as_swings(swings)
        marks = golf_swings[:, TOE:] + world.mark_error * chance.mark[at]
        marks[chance.unmarked[at] < UNMARKED_SHARE] = np.nan
        return Balls(
            clubs=self.names,
            own=0,
            club=np.asarray(sequence, dtype=np.int64),
            row=np.arange(2, 2 + count),
            order=np.arange(count, dtype=np.float64),
            launch=launch * LAUNCH_UNITS,
            delivery=delivery_as_read(golf_swings, chance.delivery[at]),
            marks=marks,
            mark_set=np.full(count, -1, dtype=np.int64),
            carry=np.full(count, np.nan),
        )

    def _swings(self, sequence: IntArray, normals: FloatArray, mishit: BoolArray) -> FloatArray:
        """Return toe, high, head speed, attack, face to path and face, shape (n, 6)."""
        golfer, shift = self.golfer, self.shift[sequence]
        cold = np.exp(-np.arange(len(sequence)) / WARM_UP_BALLS)
        stray = golfer.strike_sd * normals[:, :2]
        stray[mishit] *= MISHIT_FACTOR
        strike = golfer.strike + shift[:, :2] + stray
        strike[:, 1] += COLD_HIGH * cold
        rest = SWING_SPREAD * normals[:, 2:6]
        rest[:, 0] += golfer.head_speed + shift[:, 2] + COLD_SPEED * cold
        return np.hstack([strike, rest])


def make_linear_golfer(rng: np.random.Generator) -> LinearGolfer:
    """Draw one golfer: speed, mean strike, spread of strikes and every slope."""
    head_speed = BASE_HEAD_SPEED + HEAD_SPEED_BETWEEN * float(rng.standard_normal())
    strike = STRIKE_OFFSET * rng.standard_normal(2)
    strike_sd = STRIKE_SPREAD * (1.0 + STRIKE_SPREAD_BETWEEN * rng.standard_normal(2))
    return LinearGolfer(
        head_speed=head_speed,
        strike=strike,
        strike_sd=np.maximum(strike_sd, 0.5 * STRIKE_SPREAD),
        slopes=SLOPES * (1.0 + SLOPE_BETWEEN * rng.standard_normal(SLOPES.shape)),
        bends=BENDS * (1.0 + SLOPE_BETWEEN * rng.standard_normal(BENDS.shape)),
    )


def simulate_linear(world: LinearWorld, seed: int, most: int = MOST_BALLS) -> LinearFitting:
    """Draw golfer, clubs and every ball of the linear bay.

    Parameters
    ----------
    world : LinearWorld
    seed : int
        The same draws for every world, so that worlds can be compared.
    most : int, optional
        Balls with one club.

    Returns
    -------
    LinearFitting
    """
    for_golfer, for_clubs, for_balls = np.random.default_rng(np.random.PCG64(seed)).spawn(3)
    golfer = make_linear_golfer(for_golfer)
    effects = CLUB_EFFECT * for_clubs.standard_normal((world.clubs, 5))
    strike, speed = world.strike_moves / MILLIMETRE, world.speed_moves / MILE_PER_HOUR
    shift = for_clubs.standard_normal((world.clubs, 3)) * [strike, strike, speed]
    if world.no_difference:
        effects, shift = np.zeros_like(effects), np.zeros_like(shift)
    return LinearFitting(
        world=world,
        golfer=golfer,
        effects=effects,
        shift=shift,
        names=(OWN, *TREES)[: world.clubs],
        _chance=draw_chance(world.clubs, for_balls, most),
    )


def _as_swings(swings: FloatArray) -> FloatArray:
    """Return the linear bay's columns as swing columns in SI, shape (n, 7)."""
    toe, high, speed, attack, face_to_path, face = swings.T
    return np.column_stack(
        [
            speed * MILE_PER_HOUR,
            attack * DEGREE,
            (face - face_to_path) * DEGREE,
            face * DEGREE,
            np.full(len(swings), np.nan),
            toe * MILLIMETRE,
            high * MILLIMETRE,
        ]
    )

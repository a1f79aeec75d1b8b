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
from loftwright.training.device import (
    GREATEST_MISREAD,
    LEAST_MISREAD,
    MISREAD_SHARE,
    read_delivery,
    read_marks,
)
from loftwright.training.golfer import MISHIT_FACTOR, WARM_UP_BALLS
from loftwright.training.truth import SWINGS, ClubTruth, even_normals, figures_of
from loftwright.training.visit import MISHIT_SHARE, VisitArrays

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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearVisit:
    """Balls of the linear bay with their truth.

    Attributes
    ----------
    visit : VisitArrays
        SI and radians, full device without carry.
    effects : FloatArray, shape (S, 5)
        What each club does to the launch, in itself.
    as_you_swing_it, from_the_same_swing : FloatArray, shape (S, 5)
        Mean launch with each club, with and without what it does to strike and speed.
    launch_covariance : FloatArray, shape (5, 5)
        Of balls with one club.
    """

    visit: VisitArrays
    effects: FloatArray
    as_you_swing_it: FloatArray
    from_the_same_swing: FloatArray
    launch_covariance: FloatArray


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


def simulate_linear(
    clubs: int,
    sequence: IntArray,
    rng: np.random.Generator,
    *,
    no_difference: bool = False,
    strike_moves: float = 0.0,
    speed_moves: float = 0.0,
) -> LinearVisit:
    """Draw golfer and clubs of the linear bay, and hit a sequence of balls.

    Parameters
    ----------
    clubs : int
    sequence : IntArray, shape (n,)
        The club of each ball.
    rng : numpy.random.Generator
        Golfer, clubs, swings and readings each have a stream of their own.
    no_difference : bool, optional
        All clubs the same.
    strike_moves, speed_moves : float, optional
        Standard deviation of what clubs do to the mean strike [m] and head speed [m s^-1].

    Returns
    -------
    LinearVisit

    Notes
    -----
    Balls are mishit, misread and unmarked, and the golfer warms up, as in
    `loftwright.training.visit.simulate_visit`.
    """
    for_golfer, for_clubs, swinging, reading = rng.spawn(4)
    golfer = make_linear_golfer(for_golfer)
    effects = CLUB_EFFECT * for_clubs.standard_normal((clubs, 5))
    shift = for_clubs.standard_normal((clubs, 3))
    shift *= [strike_moves / MILLIMETRE, strike_moves / MILLIMETRE, speed_moves / MILE_PER_HOUR]
    if no_difference:
        effects, shift = np.zeros_like(effects), np.zeros_like(shift)

    swings, mishit = _swings(golfer, shift[sequence], swinging)
    residual, misread = _residuals(len(sequence), swinging)
    strike = swings[:, :2] / _TEN_MILLIMETRES
    columns = np.hstack([strike, swings[:, 2:3] - BASE_HEAD_SPEED, swings[:, 3:]])
    launch = BASE_LAUNCH + columns @ golfer.slopes.T + strike**2 @ golfer.bends.T
    launch += effects[sequence] + RESIDUAL * residual
    launch[:, _SPIN] = np.abs(launch[:, _SPIN])
    golf_swings = _as_swings(swings)
    nothing = np.zeros(len(sequence), dtype=np.bool_)
    visit = VisitArrays(
        club=sequence,
        launch=launch * LAUNCH_UNITS,
        delivery=read_delivery(golf_swings, reading),
        strike=read_marks(golf_swings, reading),
        mark_set=np.full(len(sequence), -1),
        carry=np.full(len(sequence), np.nan),
        true_strike=golf_swings[:, 5:],
        mishit=mishit,
        misread=misread,
        ghost=nothing,
    )
    return LinearVisit(
        visit=visit,
        effects=effects * LAUNCH_UNITS,
        as_you_swing_it=(golfer.mean_launch(shift) + effects) * LAUNCH_UNITS,
        from_the_same_swing=(golfer.mean_launch(0.0 * shift) + effects) * LAUNCH_UNITS,
        launch_covariance=golfer.launch_covariance() * np.outer(LAUNCH_UNITS, LAUNCH_UNITS),
    )


def linear_truth(linear: LinearVisit, home: Home, balls: int = SWINGS) -> ClubTruth:
    """Return what the clubs of a linear visit truly do at home.

    Parameters
    ----------
    linear : LinearVisit
    home : Home
    balls : int, optional
        Flown with each club; their launches follow a normal law.

    Returns
    -------
    ClubTruth
    """
    spread = even_normals(balls)[:, :5] @ np.linalg.cholesky(linear.launch_covariance).T
    return ClubTruth(
        as_you_swing_it=figures_of(linear.as_you_swing_it[:, None] + spread, home),
        from_the_same_swing=figures_of(linear.from_the_same_swing[:, None] + spread, home),
    )


def _swings(
    golfer: LinearGolfer, shift: FloatArray, rng: np.random.Generator
) -> tuple[FloatArray, BoolArray]:
    """Return toe, high, head speed, attack, face to path, face; and which are mishit."""
    count = len(shift)
    cold = np.exp(-np.arange(count) / WARM_UP_BALLS)
    mishit = rng.random(count) < MISHIT_SHARE
    stray = golfer.strike_sd * rng.standard_normal((count, 2))
    stray[mishit] *= MISHIT_FACTOR
    strike = golfer.strike + shift[:, :2] + stray
    strike[:, 1] += COLD_HIGH * cold
    rest = SWING_SPREAD * rng.standard_normal((count, 4))
    rest[:, 0] += golfer.head_speed + shift[:, 2] + COLD_SPEED * cold
    return np.hstack([strike, rest]), mishit


def _residuals(count: int, rng: np.random.Generator) -> tuple[FloatArray, BoolArray]:
    """Return residuals in their own standard deviations, and which balls are misread."""
    residual = rng.standard_normal((count, 5))
    misread = rng.random(count) < MISREAD_SHARE
    cell = rng.integers(0, 5, count)
    size = rng.uniform(LEAST_MISREAD, GREATEST_MISREAD, count)
    size *= np.where(rng.random(count) < 0.5, -1.0, 1.0)
    residual[misread, cell[misread]] = size[misread]
    return residual, misread


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

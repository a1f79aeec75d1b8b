"""Fittings made for tests: a mid golfer's balls through the impact model."""

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.evidence.balls import Balls
from loftwright.evidence.model import NoiseClass
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many

NAMES = ("Own", "Ash", "Birch", "Cedar", "Elm", "Fir", "Hazel", "Larch")

_MEAN = np.array([94.0 * MILE_PER_HOUR, -0.5 * DEGREE, 0.0, 0.0, 14.5 * DEGREE, 0.0, 0.0])
_SPREAD = np.array(
    [
        1.8 * MILE_PER_HOUR,
        1.4 * DEGREE,
        2.2 * DEGREE,
        2.5 * DEGREE,
        1.7 * DEGREE,
        11.0 * MILLIMETRE,
        7.5 * MILLIMETRE,
    ]
)
_CLUBS = np.array(
    [
        0.3 * MILE_PER_HOUR,
        0.2 * DEGREE,
        0.5 * DEGREE,
        0.5 * DEGREE,
        0.5 * DEGREE,
        0.75 * MILLIMETRE,
        0.75 * MILLIMETRE,
    ]
)
_NOISE = np.array(
    [
        0.45 * MILE_PER_HOUR,
        0.25 * DEGREE,
        60.0 * REVOLUTION_PER_MINUTE,
        1.1 * DEGREE,
        0.25 * DEGREE,
    ]
)


def made_balls(
    seed: int,
    *,
    clubs: int = 4,
    balls: int = 24,
    missing_marks: float = 0.2,
    missing_cells: float = 0.0,
    delivery: bool = True,
    effects: float = 1.0,
    set_of: int = 0,
) -> Balls:
    """Return balls hit in shuffled blocks; `set_of` balls of a club share marks in no order."""
    rng = np.random.default_rng(seed)
    club = np.concatenate([rng.permutation(clubs) for _ in range(-(-balls // clubs))])[:balls]
    if set_of:
        club = np.repeat(club, set_of)[:balls]
    shift = effects * rng.normal(size=(clubs, 7)) * _CLUBS
    swings = _MEAN + rng.normal(size=(balls, 7)) * _SPREAD + shift[club]
    swings[:, 4] = np.maximum(swings[:, 4], swings[:, 1] + 4.0 * DEGREE)
    launch = strike_many(REFERENCE_HEAD, swings) + rng.normal(size=(balls, 5)) * _NOISE
    launch[rng.random((balls, 5)) < missing_cells] = np.nan
    marks = swings[:, 5:] + rng.normal(size=(balls, 2)) * 1.75 * MILLIMETRE
    marks[rng.random(balls) < missing_marks] = np.nan
    seen = swings[:, :4].copy() if delivery else np.full((balls, 4), np.nan)
    mark_set = np.full(balls, -1)
    if set_of:
        mark_set = np.arange(balls) // set_of
        for name in np.unique(mark_set):
            rows = np.flatnonzero(mark_set == name)
            marks[rows] = marks[rng.permutation(rows)]
    return Balls(
        clubs=NAMES[:clubs],
        own=0,
        club=club,
        row=np.arange(balls) + 2,
        order=np.arange(balls, dtype=np.float64),
        launch=launch,
        delivery=seen,
        marks=marks,
        mark_set=mark_set,
        carry=np.full(balls, np.nan),
    )


def with_launch(balls: Balls, launch: FloatArray) -> Balls:
    """Return the same balls with other launch numbers."""
    return Balls(
        clubs=balls.clubs,
        own=balls.own,
        club=balls.club,
        row=balls.row,
        order=balls.order,
        launch=launch,
        delivery=balls.delivery,
        marks=balls.marks,
        mark_set=balls.mark_set,
        carry=balls.carry,
    )


def complete_rows(responses: int, covariates: int) -> NoiseClass:
    """Return the noise class of rows of which everything is known."""
    return NoiseClass(
        observed=np.ones(responses, dtype=np.bool_),
        directions=np.zeros((0, covariates)),
        variances=np.zeros(0),
    )

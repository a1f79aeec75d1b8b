"""How often measured delivery columns are doubted, rightly and wrongly, with hidden truth.

In every fitting all that the inverse takes for doubtful is drawn anew: the heads, the spin kept
by the ball, the golfer's usual swing, what the device calls head speed, and by how much it and
whoever reads the marks are steadily off in what the inverse starts from.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.evidence.balls import Balls
from loftwright.evidence.delivery_doubts import SPEED_SCALE, STANDS_OFF, standings
from loftwright.evidence.scales import DELIVERY_NAMES
from loftwright.evidence.visit import Beliefs, set_up
from loftwright.physics.ball_reading import GOOD
from loftwright.physics.delivery_belief import UNKNOWN_CLUB
from loftwright.physics.head_variation import VARIATIONS, varied_head
from loftwright.training.device import Device
from loftwright.training.golfer import ABILITIES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.world import World, simulate_fitting

LOOKS: Final = (20, 30, 40, 50, 60)
"""Balls after which the columns are looked at."""

USUAL_SD: Final[FloatArray] = frozen_array(np.array([2.5, 3.0, 2.5, 2.0]) * DEGREE)
"""Of golfers' usual attack, path, face and loft about their ability's: with what varies from ball
to ball they make up what is believed of a delivery (assumption)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offset:
    """A steady error of one delivery column.

    Attributes
    ----------
    column : str
        One of head_speed, attack, path, face.
    by : float
        [m/s or rad]
    """

    column: str
    by: float


RIGHT: Final = Offset(column="face", by=0.0)
"""A device that is right."""

OFFSETS: Final = (
    Offset(column="face", by=2.0 * DEGREE),
    Offset(column="path", by=3.0 * DEGREE),
    Offset(column="path", by=5.0 * DEGREE),
    Offset(column="attack", by=3.0 * DEGREE),
    Offset(column="attack", by=6.0 * DEGREE),
    Offset(column="head_speed", by=3.0 * MILE_PER_HOUR),
    Offset(column="head_speed", by=6.0 * MILE_PER_HOUR),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubted:
    """How often columns were doubted.

    Attributes
    ----------
    offset : Offset
    fittings : int
    any_column : float
        Share of fittings with any column doubted after any look.
    this_column : tuple of float
        Share with the offset's own column doubted after each look.
    """

    offset: Offset
    fittings: int
    any_column: float
    this_column: tuple[float, ...]


def doubted(
    device: Device,
    offset: Offset,
    seeds: Sequence[int],
    *,
    looks: Sequence[int] = LOOKS,
    threshold: float = STANDS_OFF,
) -> Doubted:
    """Count fittings in which delivery columns are doubted.

    Parameters
    ----------
    device : Device
    offset : Offset
    seeds : sequence of int
        One fitting each, abilities in turn.
    looks : sequence of int
        Balls after which the columns are looked at; no fitting has more than the last.
    threshold : float
        Standard deviations from which on a column is doubted.
    """
    place = DELIVERY_NAMES.index(offset.column)
    over = np.array(
        [
            [scores_of(off(first, offset)) >= threshold for first in _looks(device, seed, looks)]
            for seed in seeds
        ]
    )
    return Doubted(
        offset=offset,
        fittings=len(seeds),
        any_column=float(over.any(axis=(1, 2)).mean()),
        this_column=tuple(float(one) for one in over[:, :, place].mean(axis=0)),
    )


def scores_of(balls: Balls) -> FloatArray:
    """Return by how many standard deviations each column stands off, shape (4,); 0 if untold."""
    scores = np.zeros(len(DELIVERY_NAMES))
    for one in standings(set_up(balls, Beliefs())):
        scores[DELIVERY_NAMES.index(one.column)] = abs(one.score)
    return scores


def off(balls: Balls, offset: Offset) -> Balls:
    """Return balls whose column reads off.

    Parameters
    ----------
    balls : Balls
    offset : Offset
    """
    delivery = balls.delivery.copy()
    delivery[:, DELIVERY_NAMES.index(offset.column)] += offset.by
    return replace(balls, delivery=delivery)


def right_fitting(device: Device, seed: int, count: int) -> Balls:
    """Return the balls of a fitting whose delivery columns are right.

    Parameters
    ----------
    device : Device
    seed : int
        Its remainder by the number of abilities is the golfer's.
    count : int
        Balls.
    """
    ability = list(ABILITIES)[seed % len(ABILITIES)]
    world = World(device=device, spin_factor_sd=UNKNOWN_CLUB.sd("spin_factor"), two_heads=True)
    drawn = simulate_fitting(world, ability, seed)
    hidden, playing, steady = np.random.default_rng(np.random.PCG64(seed)).spawn(3)
    one, other = (
        varied_head(drawn.golfer.head, hidden.standard_normal(len(VARIATIONS))) for _ in range(2)
    )
    mean = drawn.golfer.mean.copy()
    mean[1:5] += USUAL_SD * hidden.standard_normal(4)
    rolls = UNKNOWN_CLUB.sd("tangential_restitution") * float(hidden.standard_normal())
    law = replace(drawn.golfer.law, tangential_restitution=rolls)
    drawn = replace(
        drawn,
        golfer=replace(drawn.golfer, head=one, law=law, mean=mean),
        heads=tuple(other if club % 2 else one for club in range(world.clubs)),
    )
    return _steadily_off(drawn.play(shuffled_blocks(world.clubs, count, playing)), steady)


def _steadily_off(balls: Balls, rng: np.random.Generator) -> Balls:
    """Return balls with what the inverse knows to be steadily off."""
    delivery = balls.delivery.copy()
    delivery[:, 0] *= 1.0 + SPEED_SCALE * rng.standard_normal()
    speed, rise, spin, axis, direction = balls.launch.T
    back, side = spin * np.cos(axis), spin * np.sin(axis)
    by = rng.standard_normal(5)
    back, side = back + GOOD.back_spin * by[2], side + GOOD.side_spin * by[3]
    launch = np.column_stack(
        [
            speed + GOOD.ball_speed * by[0],
            rise + GOOD.launch * by[1],
            np.hypot(back, side),
            np.arctan2(side, back),
            direction + GOOD.direction * by[4],
        ]
    )
    marks = balls.marks + GOOD.mark * rng.standard_normal(2)
    return replace(balls, launch=launch, delivery=delivery, marks=marks)


def _looks(device: Device, seed: int, looks: Sequence[int]) -> list[Balls]:
    balls = right_fitting(device, seed, max(looks))
    return [balls.take(np.arange(count)) for count in looks]

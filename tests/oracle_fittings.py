"""Seeded fittings of six kinds on which the comparison is set against sampling."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from hashlib import sha256
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.visit import Beliefs
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.training.device import DEVICES, Device
from loftwright.training.sequence import shuffled_blocks, shuffled_sets
from loftwright.training.world import World, simulate_fitting

COARSE: Final = 6.0 * MILLIMETRE
"""Error of a mark told in words; a whole number of the model's steps above the usual one."""

_MARKS_ONLY: Final = Device(delivery=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class OracleFitting:
    """A fitting to be sampled.

    Attributes
    ----------
    make : callable
        Returns its balls.
    beliefs : Beliefs
    why : str
        What is peculiar to it.
    exact : bool
        Nothing of its covariates is unknown, so that with normal errors and known spreads the
        comparison's equations hold exactly.
    """

    make: Callable[[], Balls]
    why: str
    beliefs: Beliefs = field(default_factory=Beliefs)
    exact: bool = False


def _played(
    world: World, ability: str, seed: int, balls: int, in_sets: bool = False
) -> tuple[Balls, np.random.Generator]:
    rng = np.random.default_rng(seed + 7)
    order = (shuffled_sets if in_sets else shuffled_blocks)(world.clubs, balls, rng)
    return simulate_fitting(world, ability, seed).play(order), rng


def _everything() -> Balls:
    return _played(World(device=DEVICES["full"], clubs=4), "mid", 4101, 24)[0]


def _every_ball_marked() -> Balls:
    balls = _played(World(device=DEVICES["full"], clubs=4), "low", 4102, 36)[0]
    return balls.take(np.flatnonzero(np.isfinite(balls.marks).all(axis=1)))


def _ball_only_two_days() -> Balls:
    balls, rng = _played(World(device=DEVICES["ball-only"], clubs=5), "mid", 4103, 30)
    second = np.arange(30) >= 14
    launch = balls.launch + np.where(
        second[:, None], np.array([1.5 * MILE_PER_HOUR, 0.8 * DEGREE, 20.0, 0.02, 0.0]), 0.0
    )
    launch[rng.random((30, 5)) < 0.06] = np.nan
    return replace(
        balls,
        launch=launch,
        visit=second.astype(np.int64),
        order=np.where(second, balls.order - 14.0, balls.order),
    )


def _no_marks() -> Balls:
    return _played(World(device=DEVICES["no-marks"], clubs=4, misreads=0.0), "mid", 4104, 20)[0]


def _left_hander() -> Balls:
    world = World(device=DEVICES["full"], clubs=6, mishits=0.15, misreads=0.12, two_heads=True)
    balls = _played(world, "high", 4105, 36)[0]
    return replace(
        balls,
        launch=balls.launch * [1.0, 1.0, 1.0, -1.0, -1.0],
        delivery=balls.delivery * [1.0, 1.0, -1.0, -1.0],
        marks=balls.marks * [-1.0, 1.0],
    )


def _sets_of_three() -> Balls:
    world = World(device=_MARKS_ONLY, clubs=4)
    balls, rng = _played(world, "mid", 4106, 24)
    marks = balls.marks.copy()
    club = np.repeat(np.tile(np.arange(4), 2), 3)
    # The same swings in runs of one club, as marks in sets are taken.
    rows = np.concatenate(
        [
            np.flatnonzero(balls.club == one).reshape(2, 3)[turn]
            for turn in (0, 1)
            for one in range(4)
        ]
    )
    balls = replace(balls.take(rows), order=np.arange(24.0), row=np.arange(2, 26))
    marks = marks[rows]
    mark_set = np.arange(24) // 3
    for name in range(8):
        marks[mark_set == name] = marks[rng.permutation(np.flatnonzero(mark_set == name))]
    return replace(balls, club=club, marks=marks, mark_set=mark_set)


def _coarse_and_few() -> Balls:
    balls, rng = _played(World(device=DEVICES["full"], clubs=8), "tour", 4107, 24)
    coarse = rng.random(24) < 0.4
    stray = rng.normal(size=(24, 2)) * np.sqrt(COARSE**2 - (1.75 * MILLIMETRE) ** 2)
    launch, delivery = balls.launch.copy(), balls.delivery.copy()
    launch[rng.random(24) < 0.15, 2] = np.nan
    delivery[rng.random((24, 4)) < 0.05] = np.nan
    return replace(
        balls,
        launch=launch,
        delivery=delivery,
        marks=balls.marks + np.where(coarse[:, None], stray, 0.0),
        mark_error=np.where(coarse, COARSE, 1.75 * MILLIMETRE),
    )


_TWO_HEADS: Final = tuple(
    ClubTraits(
        head=f"head {club % 2}",
        shaft=f"shaft {club // 2}",
        shift=(0.0, 0.0, 0.0, 0.0, 0.4 * DEGREE * (club % 2)),
    )
    for club in range(6)
)

FITTINGS: Final[Mapping[str, OracleFitting]] = MappingProxyType(
    {
        "everything-measured": OracleFitting(
            make=_everything, why="mid golfer, 4 clubs, 24 balls, one ball in five unmarked"
        ),
        "every-ball-marked": OracleFitting(
            make=_every_ball_marked, why="low handicap, 4 clubs, only marked balls", exact=True
        ),
        "ball-only-two-days": OracleFitting(
            make=_ball_only_two_days,
            why="mid golfer, 5 clubs, 30 balls on two days, numbers missing, no delivery",
            exact=True,
        ),
        "delivery-no-marks": OracleFitting(
            make=_no_marks, why="mid golfer, 4 clubs, 20 balls, nothing marked", exact=True
        ),
        "left-hander": OracleFitting(
            make=_left_hander,
            why="high handicap, left-handed, 6 clubs of 2 heads and 3 shafts, 36 balls, "
            "15 % mishits and 12 % misreadings",
            beliefs=Beliefs(head=REFERENCE_HEAD.mirrored(), traits=_TWO_HEADS),
        ),
        "marks-in-sets": OracleFitting(
            make=_sets_of_three,
            why="mid golfer, 4 clubs, 24 balls, marks of three balls in unknown order",
        ),
        "coarse-and-few": OracleFitting(
            make=_coarse_and_few,
            why="tour golfer, 8 clubs, 24 balls, coarse marks, spin and delivery missing",
        ),
    }
)


def digest(balls: Balls) -> str:
    """Return a fingerprint of the balls, to a millionth of each quantity.

    Rounded, so that a machine whose last digit differs makes the same balls.
    """
    found = sha256()
    for name in ("club", "order", "visit", "mark_set", "launch", "delivery", "marks"):
        values = np.asarray(getattr(balls, name), dtype=np.float64)
        rounded = np.round(values * 1e6) + 0.0
        found.update(name.encode() + np.where(np.isnan(rounded), -1e30, rounded).tobytes())
    found.update(np.round(balls.mark_error * 1e6).tobytes())
    return found.hexdigest()[:16]

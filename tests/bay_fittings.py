"""Fittings of virtual golfers with what goes wrong in a bay: days, marks, settings and labels."""

from dataclasses import replace
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.evidence.balls import Balls
from loftwright.training.balls import balls_of
from loftwright.training.clubs import make_clubs
from loftwright.training.golfer import LOFT, VirtualGolfer, make_golfer
from loftwright.training.sequence import shuffled_sets
from loftwright.training.visit import VisitArrays, simulate_visit

NAMES = ("Own", "Ash", "Birch", "Cedar", "Elm", "Fir", "Hazel", "Larch")
OTHER_DEVICE = np.array(
    [
        2.0 * MILE_PER_HOUR,
        1.0 * DEGREE,
        300.0 * REVOLUTION_PER_MINUTE,
        2.0 * DEGREE,
        1.0 * DEGREE,
    ]
)
"""What a second device shows more of everything; an assumption."""
ONE_STEP_WEAK = 1.77 * DEGREE
COARSE = 6.0 * MILLIMETRE
PER_BALL = (
    "club",
    "order",
    "launch",
    "delivery",
    "marks",
    "mark_set",
    "carry",
    "mark_error",
    "set_aside",
)


def seeded(seed: int) -> np.random.Generator:
    return np.random.default_rng(np.random.PCG64(seed))


def drawn(
    seed: int, ability: str, clubs: int, strength: float = 1.0
) -> tuple[VirtualGolfer, FloatArray, np.random.Generator]:
    """Return a golfer, what the clubs do to the swing, and what to go on drawing from."""
    rng = seeded(seed)
    return make_golfer(ability, rng), make_clubs(clubs, rng, strength=strength), rng


def fitting(
    seed: int, ability: str, *, balls: int = 40, clubs: int = 5, strength: float = 1.0
) -> Balls:
    """Return a fitting with everything measured, in sets of three."""
    golfer, shifts, rng = drawn(seed, ability, clubs, strength)
    sequence = shuffled_sets(clubs, balls, rng)
    return balls_of(simulate_visit(golfer, shifts, sequence, rng), NAMES[:clubs])


def without_delivery(balls: Balls) -> Balls:
    return replace(balls, delivery=np.full_like(balls.delivery, np.nan))


def first(balls: Balls, count: int) -> Balls:
    return balls.take(np.arange(count))


def with_dropped_read(balls: Balls, at: int = 7) -> Balls:
    """Return the balls without one that was hit and not read, every later mark a ball late."""
    kept = balls.take(np.delete(np.arange(len(balls)), at))
    marks = np.array(kept.marks)
    marks[at:] = balls.marks[at:-1]
    return replace(kept, marks=marks)


def with_mark_left_out(balls: Balls, at: int = 7) -> Balls:
    """Return the balls with one mark not tapped, every later mark a ball early."""
    marks = np.array(balls.marks)
    marks[at:-1] = balls.marks[at + 1 :]
    marks[-1] = np.nan
    return replace(balls, marks=marks)


def with_wrong_setting(
    seed: int, ability: str, *, balls: int, run: int = 6, club: int = 2, clubs: int = 5
) -> tuple[Balls, IntArray]:
    """Return a fitting and the newest balls of a club, which were hit a sleeve step weak."""
    golfer, shifts, rng = drawn(seed, ability, clubs)
    sequence = shuffled_sets(clubs, balls, rng)
    wrong = np.flatnonzero(sequence == club)[-run:]
    weak = np.vstack([shifts, shifts[club]])
    weak[-1, LOFT] += ONE_STEP_WEAK
    hit = sequence.copy()
    hit[wrong] = clubs
    visit = replace(simulate_visit(golfer, weak, hit, rng), club=sequence)
    return balls_of(visit, NAMES[:clubs]), wrong.astype(np.int64)


def joined_visits(visits: tuple[Balls, ...]) -> Balls:
    """Return visits one after the other as one fitting."""
    whole: dict[str, Any] = {
        name: np.concatenate([getattr(one, name) for one in visits]) for name in PER_BALL
    }
    count = len(whole["club"])
    return replace(
        visits[0],
        row=np.arange(count) + 2,
        visit=np.repeat(np.arange(len(visits)), [len(one) for one in visits]),
        **whole,
    )


def two_visits(
    seed: int,
    ability: str,
    *,
    clubs: tuple[tuple[int, ...], tuple[int, ...]] = ((0, 1, 2), (0, 2, 3, 4)),
    balls: tuple[int, int] = (24, 24),
    offset: FloatArray = OTHER_DEVICE,
) -> tuple[VirtualGolfer, FloatArray, Balls]:
    """Return golfer, what five clubs do, and two visits that share some of them."""
    golfer, shifts, rng = drawn(seed, ability, 5)
    visits = []
    for hit, count in zip(clubs, balls, strict=True):
        blocks = [rng.permutation(hit) for _ in range(-(-count // len(hit)))]
        sequence = np.concatenate(blocks)[:count].astype(np.int64)
        visits.append(balls_of(simulate_visit(golfer, shifts, sequence, rng), NAMES[:5]))
    visits[1] = replace(visits[1], launch=visits[1].launch + offset)
    return golfer, shifts, joined_visits((visits[0], visits[1]))


def with_coarse_marks(visit: VisitArrays, balls: Balls, rng: np.random.Generator) -> Balls:
    """Return the balls with half their marks told in words, and how far each mark may be off."""
    coarse = rng.random(len(balls)) < 0.5
    told = visit.true_strike + COARSE * rng.standard_normal((len(balls), 2))
    marks = np.where(coarse[:, None] & np.isfinite(balls.marks), told, balls.marks)
    return replace(balls, marks=marks, mark_error=np.where(coarse, COARSE, balls.mark_error))

"""How much of the shafts behind simulated benches their ranges hold."""

from collections.abc import Sequence
from typing import NamedTuple

from bench_readings import LENGTH, TRUTHS, bending_at
from loftwright.physics.bench.measure import measure
from slipped_benches import bench_of, readings_of


class Held(NamedTuple):
    """Of the places that a bench saw: how many 95 % ranges hold the truth."""

    held: int
    seen: int


def held(seed: int) -> Held:
    """Return how much of one bench's shaft its ranges hold."""
    bench = bench_of(seed)
    piece = measure(LENGTH, readings_of(bench.rows)).piece
    truth = bending_at(bench.truth, piece.stations)
    field = piece.bending
    inside = (field.low() <= truth) & (truth <= field.high())
    return Held(int((inside & field.seen).sum()), int(field.seen.sum()))


def coverage(benches: Sequence[Held]) -> float:
    """Return which share of the places seen the ranges hold."""
    return sum(one.held for one in benches) / sum(one.seen for one in benches)


def truth_of(seed: int) -> str:
    """Return the name of a bench's shaft."""
    return list(TRUTHS)[seed % len(TRUTHS)]

"""Visits of virtual golfers, dealt into a file and read from it again.

Nothing but the shot table passes from the one to the other.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from loftwright.evidence.result import Decision
from loftwright.intake.options import Handedness, ReadOptions
from loftwright.services.read import Reading, read_fitting
from loftwright.services.training import Deal, DealOptions, deal_fitting

IN_TURN = ("tour", "low", "mid", "high")
"""The abilities that seeds take by turns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """One visit: what was dealt, and what was read of its shot table."""

    seed: int
    ability: str
    dealt: Deal
    reading: Reading

    @property
    def decision(self) -> Decision:
        """What was decided."""
        return self.reading.decision


def ability_of(seed: int) -> str:
    """Return the ability of a seed, seeds from 1 taking the abilities by turns."""
    return IN_TURN[(seed - 1) % len(IN_TURN)]


def fitting(folder: Path, options: DealOptions) -> Fitting:
    """Deal one visit into a folder and read it, with the hand and home it was dealt with."""
    shots = folder / f"shots-{options.seed}.csv"
    dealt = deal_fitting(options, shots)
    hand: Handedness = "left" if options.hand == "left" else "right"
    reading = read_fitting(shots, options=ReadOptions(hand=hand), home=options.home)
    return Fitting(seed=options.seed, ability=options.golfer, dealt=dealt, reading=reading)


def fittings(folder: Path, options: DealOptions, seeds: range) -> Iterator[Fitting]:
    """Deal and read one visit a seed, the abilities by turns."""
    for seed in seeds:
        yield fitting(folder, replace(options, seed=seed, golfer=ability_of(seed)))

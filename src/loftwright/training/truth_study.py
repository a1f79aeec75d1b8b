"""One simulated fitting of the truth study, decided by every method and set against its truth."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any, Final, Protocol

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import YARD
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import Comparison
from loftwright.evidence.decide import next_club, state_of
from loftwright.evidence.result import State
from loftwright.training.chance import MOST_BALLS
from loftwright.training.judging import Outcome, judge
from loftwright.training.sequence import ORDERS
from loftwright.training.truth import ClubTruth

ABILITIES: Final = ("tour", "low", "mid", "high", "senior")
BUDGETS: Final = (20, 30, 40, 60)
SET_OF_BALLS: Final = 3
FIRST_ROUNDS: Final = 2
SEEDS_APART: Final = 100_000
"""Abilities take seeds from blocks of their own, so that no two fittings share their chance."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Judged:
    """One fitting of one method, decided after each number of balls.

    Attributes
    ----------
    outcomes : tuple of Outcome
        One a budget.
    stop : int
        Balls at which the stopping rule stopped; the last budget plus one if it never did.
    stop_regret : float
        What the pick of that moment gives up [m].
    """

    outcomes: tuple[Outcome, ...]
    stop: int
    stop_regret: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StudyFitting:
    """One golfer by every method.

    Attributes
    ----------
    seed : int
    plain : FloatArray, shape (budgets, 3)
        What the picks of averages, trimmed averages and least squares give up [m].
    model : Judged
        In the scenario's order.
    guided : Judged, optional
        With the next club by the model's own advice.
    """

    seed: int
    plain: FloatArray
    model: Judged
    guided: Judged | None


class Drawn(Protocol):
    """A fitting of a scenario once golfer, clubs and balls are drawn, and how it is read."""

    @property
    def clubs(self) -> int:
        """How many there are."""

    @property
    def truth(self) -> ClubTruth:
        """What the clubs truly do."""

    @property
    def worth(self) -> FloatArray:
        """Every club's true value [m]."""

    def play(self, sequence: IntArray) -> Balls:
        """Return the balls of a sequence of clubs."""

    def compare(self, balls: Balls) -> Comparison:
        """Return the comparison of the clubs after some balls."""

    def plain_worth(self, balls: Balls) -> list[FloatArray]:
        """Return what each plain method holds the clubs for."""


class Kind(Protocol):
    """A kind of fitting: golfers made by physics, or those of the linear bay."""

    @property
    def order(self) -> str:
        """How the clubs take turns, unless guided."""

    @property
    def guided(self) -> bool:
        """Whether it is also played by the model's own advice."""

    def draw(self, ability: str, seed: int, /) -> Drawn:
        """Draw one fitting."""


def study_fitting(
    kind: Kind, ability: str, number: int, budgets: Sequence[int] = BUDGETS
) -> StudyFitting:
    """Simulate one golfer and decide the fitting by every method.

    Parameters
    ----------
    kind : Kind
    ability : str
    number : int
        Of the golfer; the same golfer, clubs and balls for the same number in every scenario.
    budgets : sequence of int, optional
        Balls after which it is decided.

    Returns
    -------
    StudyFitting
    """
    seed = seed_of(ability, number)
    drawn = kind.draw(ability, seed)
    worth = drawn.worth
    rng = np.random.default_rng([seed, 1])
    balls = drawn.play(ORDERS[kind.order](drawn.clubs, MOST_BALLS, rng))
    firsts = {budget: balls.take(np.arange(budget)) for budget in budgets}
    plain = [
        [worth.max() - worth[int(np.argmax(held))] for held in drawn.plain_worth(first)]
        for first in firsts.values()
    ]
    compared = ((budget, drawn.compare(first)) for budget, first in firsts.items())
    guided = None
    if kind.guided:
        guided = _judged(guided_play(drawn, rng, budgets), drawn, budgets)
    return StudyFitting(
        seed=seed,
        plain=np.array(plain),
        model=_judged(compared, drawn, budgets),
        guided=guided,
    )


def seed_of(ability: str, number: int) -> int:
    """Return the seed of a numbered golfer; those of one ability share none with another."""
    return SEEDS_APART * ABILITIES.index(ability) + number


def guided_play(
    drawn: Drawn, rng: np.random.Generator, budgets: Sequence[int] = BUDGETS
) -> Iterator[tuple[int, Comparison]]:
    """Play a fitting by the model's own advice and yield the comparison after every set.

    Parameters
    ----------
    drawn : Drawn
    rng : numpy.random.Generator
        For the first two rounds, which are shuffled blocks.
    budgets : sequence of int, optional
        Balls at which a set ends, whatever the advice.

    Yields
    ------
    balls, comparison : int, Comparison
    """
    sequence: IntArray = ORDERS["blocks"](drawn.clubs, FIRST_ROUNDS * drawn.clubs, rng)
    while True:
        comparison = drawn.compare(drawn.play(sequence))
        yield len(sequence), comparison
        left = [budget - len(sequence) for budget in budgets if budget > len(sequence)]
        if not left:
            return
        club = next_club(
            comparison.value, comparison.counts, comparison.rankable, int(sequence[-1])
        )
        sequence = np.append(sequence, np.full(min(SET_OF_BALLS, left[0]), club))


def _judged(
    played: Iterable[tuple[int, Comparison]], drawn: Drawn, budgets: Sequence[int]
) -> Judged:
    found: dict[int, Outcome] = {}
    worth = drawn.worth
    stop, stop_regret = MOST_BALLS + 1, float("nan")
    for balls, comparison in played:
        settled = state_of(comparison.standing) in {State.GOOD_ENOUGH, State.STRONG}
        if settled and stop > MOST_BALLS and comparison.standing is not None:
            stop = balls
            stop_regret = float(worth.max() - worth[comparison.standing.leader])
        if balls in budgets:
            found[balls] = judge(comparison, drawn.truth, worth)
    return Judged(
        outcomes=tuple(found[budget] for budget in budgets), stop=stop, stop_regret=stop_regret
    )


def to_record(fitting: StudyFitting) -> dict[str, Any]:
    """Return a fitting as plain values that JSON holds; regrets in yards."""
    return {
        "seed": fitting.seed,
        "plain": (fitting.plain / YARD).tolist(),
        "model": _record(fitting.model),
        "guided": None if fitting.guided is None else _record(fitting.guided),
    }


def _record(judged: Judged) -> dict[str, Any]:
    return {
        "outcomes": [
            {
                name: value.tolist() if isinstance(value, np.ndarray) else value
                for name, value in asdict(outcome).items()
            }
            for outcome in judged.outcomes
        ],
        "stop": judged.stop,
        "stop_regret": judged.stop_regret / YARD,
    }

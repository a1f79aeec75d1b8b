"""One simulated fitting of the truth study, decided by every method and set against its truth."""

from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import Comparison, compare, fly_home
from loftwright.evidence.decide import next_club, state_of
from loftwright.evidence.flight_map import TOTAL, conditions_at, outcomes
from loftwright.evidence.result import State
from loftwright.evidence.slopes import operating_delivery, slopes_at
from loftwright.evidence.value import with_holes
from loftwright.evidence.visit import Beliefs, fit_visit, set_up
from loftwright.training.plain_methods import plain_picks
from loftwright.training.scenarios import ABILITIES, ORDERS, Scenario
from loftwright.training.study import Outcome, judge_against
from loftwright.training.truth import true_values
from loftwright.training.world import MOST_BALLS, SimulatedFitting, simulate_fitting

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


def study_fitting(scenario: Scenario, ability: str, number: int) -> StudyFitting:
    """Simulate one golfer and decide the fitting by every method.

    Parameters
    ----------
    scenario : Scenario
    ability : str
    number : int
        Of the golfer; the same golfer, clubs and balls for the same number in every scenario.

    Returns
    -------
    StudyFitting
    """
    seed = SEEDS_APART * ABILITIES.index(ability) + number
    fitting = simulate_fitting(scenario.world, ability, seed)
    worth = worth_of(fitting)
    beliefs = scenario.beliefs(fitting)
    rng = np.random.default_rng([seed, 1])
    clubs = scenario.world.clubs
    balls = fitting.play(ORDERS[scenario.order](clubs, MOST_BALLS, rng))
    totals = outcomes(balls.launch, conditions_at(Home()))[:, TOTAL]
    plain = np.empty((len(BUDGETS), 3))
    for place, budget in enumerate(BUDGETS):
        picks = plain_picks(balls.take(np.arange(budget)), totals[:budget])
        plain[place] = worth.max() - worth[list(picks)]
    compared = {
        budget: _compare(balls.take(np.arange(budget)), beliefs, scenario) for budget in BUDGETS
    }
    guided = None
    if scenario.guided:
        guided = _judged(guided_play(scenario, fitting, rng), fitting, worth)
    return StudyFitting(
        seed=seed,
        plain=plain,
        model=_judged(iter(compared.items()), fitting, worth),
        guided=guided,
    )


def worth_of(fitting: SimulatedFitting) -> FloatArray:
    """Return every club's true value at home, as the golfer swings it [m]."""
    swung = fitting.truth.as_you_swing_it
    return true_values(swung, with_holes(Home(), float(swung.total[0])))


def guided_play(
    scenario: Scenario, fitting: SimulatedFitting, rng: np.random.Generator
) -> Iterator[tuple[int, Comparison]]:
    """Play a fitting by the model's own advice and yield the comparison after every set.

    Parameters
    ----------
    scenario : Scenario
    fitting : SimulatedFitting
    rng : numpy.random.Generator
        For the first two rounds, which are shuffled blocks.

    Yields
    ------
    balls, comparison : int, Comparison
    """
    clubs, beliefs = scenario.world.clubs, scenario.beliefs(fitting)
    sequence: IntArray = ORDERS["blocks"](clubs, FIRST_ROUNDS * clubs, rng)
    while True:
        comparison = _compare(fitting.play(sequence), beliefs, scenario)
        yield len(sequence), comparison
        left = [budget - len(sequence) for budget in BUDGETS if budget > len(sequence)]
        if not left:
            return
        club = next_club(
            comparison.value, comparison.counts, comparison.rankable, int(sequence[-1])
        )
        sequence = np.append(sequence, np.full(min(SET_OF_BALLS, left[0]), club))


def _compare(balls: Balls, beliefs: Beliefs, scenario: Scenario) -> Comparison:
    if scenario.slopes == 1.0:
        return compare(balls, Home(), beliefs)
    slopes = slopes_at(operating_delivery(balls, beliefs.head), beliefs.head)
    wrong = replace(
        slopes,
        strike=scenario.slopes * slopes.strike,
        curvature=scenario.slopes * slopes.curvature,
    )
    return fly_home(fit_visit(set_up(balls, beliefs, wrong)), Home())


def _judged(
    played: Iterator[tuple[int, Comparison]], fitting: SimulatedFitting, worth: FloatArray
) -> Judged:
    found: dict[int, Outcome] = {}
    stop, stop_regret = MOST_BALLS + 1, float("nan")
    for balls, comparison in played:
        settled = state_of(comparison.standing) in {State.GOOD_ENOUGH, State.STRONG}
        if settled and stop > MOST_BALLS and comparison.standing is not None:
            stop = balls
            stop_regret = float(worth.max() - worth[comparison.standing.leader])
        if balls in BUDGETS:
            found[balls] = judge_against(comparison, fitting.truth, worth, worth)
    return Judged(
        outcomes=tuple(found[budget] for budget in BUDGETS), stop=stop, stop_regret=stop_regret
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

"""Does the choice over whole clubs mean what it says? Simulated fittings against their truth.

Run as ``python -m loftwright.training.choice_study``; it resumes where it stopped.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.evidence.advice import PROBABLY, WORTH
from loftwright.evidence.compare import compare
from loftwright.evidence.neighbours import Neighbourhood, beside
from loftwright.evidence.result import Estimate
from loftwright.evidence.spreads import CLUB_FLOOR, JUDGED, SpreadTable
from loftwright.evidence.visit import Beliefs
from loftwright.training.builds import HIT, BuiltFitting, Golfers, build_fitting
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.truth_study import ABILITIES

BALLS: Final = (20, 40)
MEASURED: Final = ("full", "no-marks", "ball-only")


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceScenario:
    """What golfers make of clubs, and what is believed of it.

    Attributes
    ----------
    golfers : Golfers
    doubt : float
        Factor on the variance of what clubs do.
    table : SpreadTable
    """

    golfers: Golfers
    doubt: float = 2.0
    table: SpreadTable = JUDGED


_STRONG: Final = 2.0**0.5

CHOICES: Final[Mapping[str, ChoiceScenario]] = MappingProxyType(
    {
        "as believed": ChoiceScenario(golfers=Golfers(strength=_STRONG)),
    }
)


def fitting_record(scenario: ChoiceScenario, number: int) -> dict[str, Any]:
    """Simulate one fitting and set what the choice says against the truth.

    Parameters
    ----------
    scenario : ChoiceScenario
    number : int
        Seed; ability and device go round with it.

    Returns
    -------
    dict
        Plain values that JSON holds, one entry a number of balls.
    """
    ability = ABILITIES[number % len(ABILITIES)]
    device = MEASURED[number // len(ABILITIES) % len(MEASURED)]
    built = build_fitting(ability, number, DEVICES[device], scenario.golfers)
    rng = np.random.default_rng([number, 1])
    balls = built.simulated.play(shuffled_blocks(len(HIT), max(BALLS), rng))
    beliefs = Beliefs(doubt=scenario.doubt, traits=built.traits, table=scenario.table)
    told = []
    for budget in BALLS:
        comparison = compare(balls.take(np.arange(budget)), Home(), beliefs)
        told.append(_told(beside(comparison, built.traits, built.neighbours), built))
    return {"number": number, "ability": ability, "device": device, "told": told}


def _told(found: Neighbourhood, built: BuiltFitting) -> dict[str, Any]:
    """Return every difference said of two clubs, as where the truth lay in it, and the chances."""
    hit, df, worth = found.hit, found.comparison.df, built.worth
    pairs = [_place(found, worth, a, b, df) for a in range(hit) for b in range(a)]
    unhit = [
        [one.kind, *_place(found, worth, hit + place, 0, df)]
        for place, one in enumerate(built.builds)
    ]
    leader = int(np.argmax(found.value[:hit]))
    best = int(np.argmax(found.value))
    p = found.p_above(found.names[best], found.names[leader])
    from loftwright.evidence.decide import chance_none_is_better

    own = found.names[0]
    p_keep = chance_none_is_better(
        found.value, found.value_covariance, 0, np.arange(len(worth)) < hit, WORTH
    )
    return {
        "pairs": pairs,
        "unhit": unhit,
        "keep": [
            p_keep,
            bool(worth[1:hit].max() < worth[0] + WORTH),
        ],
        "keep_all": [found.p_none_better(own, WORTH), bool(worth[1:].max() < worth[0] + WORTH)],
        "call": [best, p, float((worth[best] - worth[leader]) / YARD)] if p >= PROBABLY else None,
    }


def _place(found: Neighbourhood, worth: FloatArray, a: int, b: int, df: float) -> list[float]:
    """Return the width of the doubt [yd] and where in it the truth lay, in its own units."""
    covariance = found.value_covariance
    sd = float(np.sqrt(covariance[a, a] + covariance[b, b] - 2.0 * covariance[a, b]))
    estimate = Estimate(mean=float(found.value[a] - found.value[b]), sd=sd, df=df)
    truth = float(worth[a] - worth[b])
    in_80 = estimate.interval(0.8)[0] <= truth <= estimate.interval(0.8)[1]
    in_95 = estimate.interval(0.95)[0] <= truth <= estimate.interval(0.95)[1]
    return [sd / YARD, (truth - estimate.mean) / YARD, in_80, in_95]

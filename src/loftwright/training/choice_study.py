"""Does the choice over whole clubs mean what it says? Simulated fittings against their truth.

Golfers are made by impact and flight. Four clubs are hit, the golfer's own head on its shaft and
another head on three shafts; twenty more could be built from them. What is said of every club,
hit or not, after 20 and after 40 balls is set against what the same simulator says with that
club built.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.evidence.advice import WORTH
from loftwright.evidence.compare import compare
from loftwright.evidence.neighbours import Neighbourhood, beside, p_keep
from loftwright.evidence.visit import Beliefs
from loftwright.training.builds import HIT, BuiltFitting, Golfers, build_fitting
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.truth_study import ABILITIES

BALLS: Final = (20, 40)
MEASURED: Final = ("full", "no-marks", "ball-only")

CHOICES: Final[Mapping[str, Golfers]] = MappingProxyType(
    {
        "as believed": Golfers(strength=2.0**0.5),
        "clubs half as variable": Golfers(strength=1.0),
        "clubs twice as variable": Golfers(strength=2.0),
        "a change of build does what physics says, and no more": Golfers(
            strength=2.0**0.5, spread=0.0, of_its_own=False
        ),
        "golfers give half of every change back": Golfers(strength=2.0**0.5, mean=0.5),
        "a change of build does nothing that physics says": Golfers(strength=2.0**0.5, mean=0.0),
    }
)
"""What golfers truly make of clubs. In all of them it is believed as a fitting believes it: the
variance of what clubs do doubled, which is true of the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A difference in value of two clubs as it was said, and as it is.

    Attributes
    ----------
    kind : str
        What is built, or `hit` for two clubs that were.
    mean, sd, truth : float
        [m]
    in_80, in_95 : bool
        Whether the truth lay in the range of that probability.
    """

    kind: str
    mean: float
    sd: float
    truth: float
    in_80: bool
    in_95: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceOutcome:
    """One fitting's choice after some balls.

    Attributes
    ----------
    hit, built : tuple of Difference
        Between clubs that were hit, and of what could be built against the own club.
    better : tuple of bool
        Whether each that could be built goes the better way of two, as it was said.
    keep : tuple
        Probability said that keeping the own club is right, and whether it is.
    call : tuple, optional
        Where a club that was not hit was put forward: how probably it was said to beat the
        leader, and by how much it does [m].
    """

    hit: tuple[Difference, ...]
    built: tuple[Difference, ...]
    better: tuple[bool, ...]
    keep: tuple[float, bool]
    call: tuple[float, float] | None


def choice_outcomes(golfers: Golfers, number: int) -> tuple[ChoiceOutcome, ...]:
    """Simulate one fitting and set what the choice says against the truth.

    Parameters
    ----------
    golfers : Golfers
    number : int
        Seed; ability and device go round with it.

    Returns
    -------
    tuple of ChoiceOutcome
        One a number of balls.
    """
    built = build_fitting(ability_of(number), number, DEVICES[device_of(number)], golfers)
    rng = np.random.default_rng([number, 1])
    balls = built.simulated.play(shuffled_blocks(len(HIT), max(BALLS), rng))
    beliefs = Beliefs(traits=built.traits)
    found = []
    for budget in BALLS:
        comparison = compare(balls.take(np.arange(budget)), Home(), beliefs)
        found.append(_outcome(beside(comparison, built.traits, built.neighbours), built))
    return tuple(found)


def ability_of(number: int) -> str:
    """Return the ability of a numbered golfer."""
    return ABILITIES[number % len(ABILITIES)]


def device_of(number: int) -> str:
    """Return the device of a numbered golfer's fitting."""
    return MEASURED[number // len(ABILITIES) % len(MEASURED)]


def _outcome(found: Neighbourhood, built: BuiltFitting) -> ChoiceOutcome:
    hit, worth = found.hit, built.worth
    said = p_keep(found.comparison)
    return ChoiceOutcome(
        hit=tuple(_difference(found, worth, "hit", a, b) for a in range(hit) for b in range(a)),
        built=tuple(
            _difference(found, worth, build.kind, hit + place, 0)
            for place, build in enumerate(built.builds)
        ),
        better=_better(found, built),
        keep=(
            float("nan") if said is None else said,
            bool(worth[1:hit].max() < worth[0] + WORTH),
        ),
        call=_call(found, worth),
    )


def _better(found: Neighbourhood, built: BuiltFitting) -> tuple[bool, ...]:
    ways = [(build.kind, build.base) for build in built.builds]
    said = dict(zip(ways, [-np.inf] * len(ways), strict=True))
    for way, value in zip(ways, found.value[found.hit :], strict=True):
        said[way] = max(said[way], value)
    return tuple(
        ways.count(way) == 2 and value == said[way]
        for way, value in zip(ways, found.value[found.hit :], strict=True)
    )


def _call(found: Neighbourhood, worth: FloatArray) -> tuple[float, float] | None:
    leader, best = found.leader, found.put_forward
    if leader is None or best is None:
        return None
    gain = worth[found.names.index(best)] - worth[found.names.index(leader)]
    return found.p_above(best, leader), float(gain)


def _difference(
    found: Neighbourhood, worth: FloatArray, kind: str, first: int, second: int
) -> Difference:
    said = found.difference(found.names[first], found.names[second])
    truth = float(worth[first] - worth[second])
    in_80, in_95 = (
        low <= truth <= high for low, high in (said.interval(0.8), said.interval(0.95))
    )
    return Difference(kind=kind, mean=said.mean, sd=said.sd, truth=truth, in_80=in_80, in_95=in_95)


def to_record(outcomes: tuple[ChoiceOutcome, ...]) -> list[dict[str, Any]]:
    """Return outcomes as plain values that JSON holds; lengths in yards, to a hundredth."""
    return [
        {
            "hit": [_row(one) for one in outcome.hit],
            "built": [
                [*_row(one), int(better)]
                for one, better in zip(outcome.built, outcome.better, strict=True)
            ],
            "keep": list(outcome.keep),
            "call": None if outcome.call is None else [outcome.call[0], outcome.call[1] / YARD],
        }
        for outcome in outcomes
    ]


def _row(one: Difference) -> list[Any]:
    said, spread, truth = (round(x / YARD, 2) for x in (one.mean, one.sd, one.truth))
    return [one.kind, said, spread, truth, int(one.in_80), int(one.in_95)]

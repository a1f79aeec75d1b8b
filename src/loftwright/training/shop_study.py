"""Does what a shop learns help its next fittings? Simulated shops against their truth.

The same fresh fittings are compared under physics alone and under what a record taught, so that
the two differ by nothing but what is believed before the first ball.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

import numpy as np

from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.flight_map import TOTAL, conditions_at, outcomes
from loftwright.evidence.visit import Beliefs
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.shop.beliefs import beliefs_of
from loftwright.shop.engine import sums_in
from loftwright.shop.learned import ShopLearned
from loftwright.shop.learning import learn_from
from loftwright.shop.levels import Belongs
from loftwright.shop.record import Recorded, keep
from loftwright.training.judging import Outcome, judge
from loftwright.training.plain_methods import averages
from loftwright.training.shop_fittings import fresh_fitting, recorded_fittings
from loftwright.training.shop_world import ROWS, Shop, ShopFitting

FITTINGS: Final = 250
"""Of a record."""
FRESH: Final = 50
"""Fittings after it, of each row."""

KEPT: Final = (
    *("regret", "said_regret", "best", "p_best", "value_80", "value_95"),
    *("declared", "wrong", "pairs", "width"),
)
"""What of an outcome is kept; lengths in yards."""
_LENGTHS: Final = frozenset({"regret", "said_regret", "width"})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Taught:
    """A shop and what its record taught.

    Attributes
    ----------
    belongs : dict of (str, str) to Belongs
        What every club of every recorded fitting belongs to.
    """

    shop: Shop
    learned: ShopLearned
    belongs: dict[tuple[str, str], Belongs]


def taught(shop: Shop, fittings: int = FITTINGS) -> Taught:
    """Return what a shop's record teaches.

    Parameters
    ----------
    shop : Shop
    fittings : int
    """
    record = [weighed(one) for one in recorded_fittings(shop, fittings)]
    belongs = {(one.fitting, club): told for one in record for club, told in one.belongs.items()}
    return Taught(shop=shop, learned=learn_from(rows_of(record), belongs), belongs=belongs)


def weighed(fitting: ShopFitting) -> Recorded:
    """Return a fitting as a shop records it, with the weights of its own comparison."""
    launch = _compared(fitting, None).visit.launch
    df = 6.0
    ordinary = (df + 5.0) / df
    return replace(fitting.recorded, weights=np.minimum(launch.weights / ordinary, 1.0))


def rows_of(record: Sequence[Recorded]) -> Sequence[Mapping[str, Any]]:
    """Return the sums of recorded fittings, one row a club of a fitting."""
    with TemporaryDirectory() as folder:
        for one in record:
            keep(Path(folder), one)
        return sums_in(Path(folder))


def fresh_records(
    told: Taught, fresh: int = FRESH, rows: Sequence[str] = ROWS
) -> list[dict[str, Any]]:
    """Compare fresh fittings by physics alone and by what was learned, as JSON holds it.

    Parameters
    ----------
    told : Taught
    fresh : int
        Fittings of each row.
    rows : sequence of str
    """
    return [_fresh_record(told, number, row) for row in rows for number in range(fresh)]


def _fresh_record(told: Taught, number: int, row: str) -> dict[str, Any]:
    fitting = fresh_fitting(told.shop, number, row)
    balls, worth = fitting.recorded.balls, fitting.worth
    totals = outcomes(balls.launch, conditions_at(Home()))[:, TOTAL]
    plain = worth.max() - worth[int(np.argmax(averages(balls, totals)))]
    return {
        "row": row,
        "number": number,
        "ability": fitting.recorded.ability,
        "plain": float(plain) / YARD,
        "physics": _kept(judge(_compared(fitting, None), fitting.truth, worth)),
        "learned": _kept(judge(_compared(fitting, told.learned), fitting.truth, worth)),
    }


def _compared(fitting: ShopFitting, learned: ShopLearned | None) -> Comparison:
    recorded = fitting.recorded
    left = recorded.left_handed
    shop = None
    if learned is not None:
        clubs = tuple(recorded.belongs.values())
        shop = beliefs_of(learned, clubs, fitting.head, left_handed=left)
    beliefs = Beliefs(
        head=REFERENCE_HEAD.mirrored() if left else REFERENCE_HEAD,
        traits=fitting.traits,
        shop=shop,
    )
    return compare(recorded.balls, Home(), beliefs)


def _kept(outcome: Outcome) -> dict[str, float]:
    return {
        name: float(getattr(outcome, name)) / (YARD if name in _LENGTHS else 1.0) for name in KEPT
    }

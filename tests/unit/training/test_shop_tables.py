"""The study of shop records as tables."""

from typing import Any

import numpy as np
import pytest

from known_shops import who_knows
from loftwright.training.shop_kinds import SHOP_KINDS
from loftwright.training.shop_study import KEPT
from loftwright.training.shop_tables import (
    fresh_of,
    more_regret,
    page_lines,
    within_bound,
)
from loftwright.training.shop_truth import against_truth
from loftwright.training.shop_world import ROWS, draw_shop

RIGHT, WRONG = "golfers made by impact", "heavy tails"


def records(physics: float, learned_regret: float) -> list[dict[str, Any]]:
    """Return 60 fittings whose regrets differ by golfer, but not in their difference."""
    rng = np.random.default_rng(1)
    found = []
    for number, own in enumerate(rng.uniform(0.0, 2.0, 20)):
        for row in ROWS:
            priors = {
                name: dict.fromkeys(KEPT, 0.5) | {"regret": regret + own - 1.0}
                for name, regret in (("physics", physics), ("learned", learned_regret))
            }
            found.append({"row": row, "number": number, "ability": "", "plain": 2.0, **priors})
    return found


def unit(kind: str, fresh: list[dict[str, Any]]) -> dict[str, Any]:
    drawn = draw_shop(SHOP_KINDS[kind], 1)
    return {
        "kind": kind,
        "against_truth": against_truth(drawn, who_knows(drawn, 0.5)),
        "fresh": fresh,
    }


def test_the_difference_is_taken_fitting_by_fitting() -> None:
    found = more_regret(records(1.5, 1.2))
    assert found.mean == pytest.approx(-0.3)
    assert found.error == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("kind", "learned_regret", "met"),
    [(RIGHT, 0.9, True), (RIGHT, 1.2, False), (WRONG, 1.2, True), (WRONG, 1.3, False)],
)
def test_a_bound_is_met_or_missed(kind: str, learned_regret: float, met: bool) -> None:
    assert within_bound(kind, records(1.0, learned_regret)) is met


def test_fittings_of_a_kind_are_those_of_all_its_shops() -> None:
    units = [unit(RIGHT, records(1.0, 1.0)), unit(RIGHT, records(1.0, 1.0))]
    assert len(fresh_of(units, RIGHT, ROWS[0])) == 40
    assert fresh_of(units, WRONG, ROWS[0]) == []


def test_the_page_tells_of_every_kind_that_was_run_and_names_what_was_missed() -> None:
    lines = page_lines([unit(RIGHT, records(1.0, 1.5)), unit(WRONG, records(1.0, 0.9))])
    told = [line for line in lines if line.startswith((f"| **{RIGHT}** | 20", f"| {WRONG} | 20"))]
    assert [("missed" in line, "met" in line) for line in told] == 3 * [
        (True, False),
        (False, True),
    ]
    assert not any("nan" in line for line in lines)
    tables = [line.count("|") for line in lines if line.startswith("|")]
    assert min(tables) > 4


def test_a_minus_is_a_minus() -> None:
    lines = page_lines([unit(RIGHT, records(1.5, 1.2))])
    assert any("−0.30 ± 0.00" in line for line in lines)

"""Figures that leave the shop are rounded, have ranges, and claim no more than these bear."""

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, YARD
from loftwright.shop.cells import fittings_of
from loftwright.shop.columns import RESPONSES
from loftwright.shop.published_figures import (
    QUANTITIES,
    STEPS,
    WAYS,
    Figure,
    figures_of,
    rounded,
)
from loftwright.shop.publishing import Question, choose, chosen_rows
from published_samples import a_shop

ASKED = Question(kind="shaft", models=("S2", "S0", "S1"), reference="S0")


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[tuple[Figure, ...], dict[str, float]]:
    rows, hits, effects = a_shop(tmp_path_factory.mktemp("shop"), fittings=24, shafts=4, seed=3)
    chosen = choose(hits, ASKED)
    figures = figures_of(fittings_of(chosen_rows(rows, chosen)), chosen, ASKED, fittings_of(rows))
    truth = {
        f"{model} {one.column}": float(effects[model][place] - effects["S0"][place]) * one.unit
        for model in ("S1", "S2")
        for place, one in enumerate(RESPONSES)
    }
    return figures, truth


def test_every_model_but_the_reference_has_every_figure_both_ways(
    told: tuple[tuple[Figure, ...], dict[str, float]],
) -> None:
    figures, _ = told
    keys = [(one.model, one.way, one.quantity) for one in figures]
    assert keys == [
        (model, way, quantity) for model in ("S2", "S1") for way in WAYS for quantity in QUANTITIES
    ]


def test_figures_are_rounded_and_ranges_lie_within_each_other(
    told: tuple[tuple[Figure, ...], dict[str, float]],
) -> None:
    for one in told[0]:
        step = STEPS[one.quantity]
        for value in (one.best, *one.likely, *one.wide):
            assert value / step == pytest.approx(round(value / step), abs=1e-6)
        assert one.wide[0] <= one.likely[0] <= one.best <= one.likely[1] <= one.wide[1]
        assert one.apart == (one.wide[0] > 0.0 or one.wide[1] < 0.0)


def test_the_truth_lies_in_the_wide_range(
    told: tuple[tuple[Figure, ...], dict[str, float]],
) -> None:
    figures, truth = told
    inside = [
        one.wide[0] <= truth[f"{one.model} {one.quantity}"] <= one.wide[1]
        for one in figures
        if one.quantity != "total"
    ]
    assert np.mean(inside) >= 0.9


def test_a_total_follows_the_ball_speed() -> None:
    """About two yards a mile per hour of ball speed (common practice, no source)."""
    from loftwright.shop import published_figures as module  # noqa: PLC0415 - a private function

    swing = module.STANDARD_SWINGS["fast"]
    mean = np.array([1.0, 0.0, 0.0, 0.0, 0.0])
    total, doubt = module._flown(mean, np.diag([0.25, 0.0, 0.0, 0.0, 0.0]), swing)
    assert 1.3 * YARD < total < 2.7 * YARD
    assert doubt == pytest.approx(0.5 * total, rel=0.05)


def test_rounding_has_no_negative_nought() -> None:
    assert str(rounded(-0.01 * DEGREE, 0.1 * DEGREE)) == "0.0"
    assert rounded(0.26 * MILE_PER_HOUR, 0.1 * MILE_PER_HOUR) == pytest.approx(0.3 * MILE_PER_HOUR)

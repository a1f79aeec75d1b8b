"""Figures over fittings: means, errors, bins, and the rows that miss."""

from typing import Any, TypeAlias

import numpy as np
import pytest

from loftwright.constants import YARD
from loftwright.training.linear_scenarios import LINEAR_SCENARIOS
from loftwright.training.scenarios import SCENARIOS
from loftwright.training.tally import BINS, balls_for, tally
from loftwright.training.truth_study import BUDGETS, study_fitting, to_record
from loftwright.training.truth_tables import EVERY_SCENARIO, chances_of, misses, page, row_of

Record: TypeAlias = dict[str, Any]


def record(regret: float, *, value: float = 0.8, said: float = 0.55, best: bool = True) -> Record:
    outcome = {
        "regret": regret * YARD,
        "said_regret": 0.5 * YARD,
        "best": best,
        "p_best": said,
        "value_80": value,
        "value_95": 0.95,
        "swung_80": [0.8] * 5,
        "swung_95": [0.95] * 5,
        "same_80": [np.nan] * 5,
        "same_95": [np.nan] * 5,
        "declared": 3,
        "wrong": 1,
        "pairs": 15,
    }
    return {
        "seed": 1,
        "plain": [[1.0, 1.1, 1.2]] * len(BUDGETS),
        "model": {"outcomes": [outcome] * len(BUDGETS), "stop": 40, "stop_regret": regret},
        "guided": None,
    }


def test_a_mean_is_over_fittings_and_its_error_clusters_by_them() -> None:
    found = tally([record(0.2), record(0.6)])
    assert found.get("model 20") == pytest.approx((0.4, 0.2))
    assert found.get("less 60") == pytest.approx((0.6, 0.2))
    assert found.get("value 80") == pytest.approx((80.0, 0.0))
    assert np.isnan(found.means["same axis 80"])
    assert np.isnan(found.means["guided 60"])


def test_pairs_with_the_wrong_sign_are_counted_at_the_last_budget() -> None:
    found = tally([record(0.2), record(0.6)])
    assert (found.wrong, found.declared) == (2, 6)


def test_a_chance_falls_into_its_bin() -> None:
    found = tally([record(0.2, said=0.55, best=True), record(0.6, said=0.59, best=False)])
    count, said, right = found.bins[BINS.index(0.5)]
    assert (count, right) == (2 * len(BUDGETS), 0.5)
    assert said == pytest.approx(0.57)
    assert sum(one[0] for one in found.bins) == count
    assert chances_of("x", found) == f"| x | – | – | – | 57 → 50 ({count}) | – | – | – | – |"


def test_a_row_that_misses_is_named_with_its_figure() -> None:
    right = tally([record(0.2, said=0.55, best=True), record(0.6, said=0.55, best=False)])
    assert misses("ball data only", right) == []
    narrow = tally([record(0.2, value=0.7), record(0.6, value=0.7)])
    assert misses("ball data only", narrow) == ["value: 70.0 ± 0.0 in 80 %"]


def test_a_chance_that_misses_counts_from_two_hundred_states_on() -> None:
    few = tally([record(0.2, said=0.85, best=False)] * 40)
    many = tally([record(0.2, said=0.85, best=False)] * 60)
    assert misses("ball data only", few) == []
    assert misses("ball data only", many) == ["chance said 0.8 to 0.9: 85 %, right 0 % of 240"]


@pytest.mark.parametrize(
    ("given_up", "balls"),
    [
        ((0.9, 0.8, 0.7, 0.6), 20.0),
        ((1.2, 1.1, 0.9, 0.6), 35.0),
        ((1.2, 1.1, 1.05, 1.02), float("inf")),
    ],
)
def test_balls_for_as_good_a_pick_lie_between_budgets(
    given_up: tuple[float, ...], balls: float
) -> None:
    assert balls_for(given_up, 1.0) == pytest.approx(balls)


def test_a_real_fitting_becomes_a_row_and_a_page() -> None:
    names = ("everything measured", "ball data only", "linear bay, three clubs")
    found = {}
    for name in names:
        records = [
            to_record(study_fitting(EVERY_SCENARIO[name], ability, number))
            for ability in ("tour", "high")
            for number in (1, 2)
        ]
        one = tally(records)
        found[name] = dict.fromkeys(("tour", "low", "mid", "high", "senior", "all"), one)
        assert row_of(name, EVERY_SCENARIO[name], found[name]).startswith(
            f"| {name} | as the world |"
        )
    text, pictures = page(
        found, version="0", code="abc", first=1, fittings=2, seconds=dict.fromkeys(names, 0.1)
    )
    assert "## Rows that miss" in text
    assert text.index("| linear bay, three clubs |") > text.index("## The linear bay")
    assert text.count("| linear bay, three clubs | tour |") == 0
    assert text.index("## Rows that miss") < text.index("## Every scenario")
    assert set(pictures) == {"coverage.svg", "given-up.svg"}
    assert all(svg.startswith("<svg") for svg in pictures.values())


def test_the_same_golfer_plays_the_same_balls_in_two_scenarios() -> None:
    plain = [
        study_fitting(SCENARIOS[name], "mid", 3).plain
        for name in ("everything measured", "as it is read today")
    ]
    assert np.array_equal(plain[0], plain[1])


def test_the_well_specified_scenarios_are_those_in_which_belief_and_world_agree() -> None:
    named = {name for name, one in SCENARIOS.items() if one.well_specified}
    assert named == {
        "everything measured",
        "delivery, no marks",
        "marks, no delivery",
        "ball and head speed",
        "ball data only",
        "three clubs",
        "eight clubs",
        "sets of three in rotation",
        "sets of three, marks in unknown order",
        "clubs twice as strong, believed so",
    }
    assert {name for name, one in LINEAR_SCENARIOS.items() if one.well_specified} == {
        "linear bay, six clubs",
        "linear bay, three clubs",
        "linear bay, eight clubs",
    }

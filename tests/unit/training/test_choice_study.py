"""A choice set against its truth, and the tables made of it."""

import pytest

from loftwright.training.choice_study import (
    BALLS,
    CHOICES,
    MEASURED,
    ability_of,
    choice_outcomes,
    device_of,
    to_record,
)
from loftwright.training.choice_tables import (
    HIT,
    held,
    keeping,
    kinds_of,
    of_better_ways,
    page_lines,
    put_forward,
    two_way_kinds,
)
from loftwright.training.truth_study import ABILITIES

ROW = ["click", 1.0, 1.0, 2.0]


def a_record(in_80: int, said: float, *, right: bool, call: list[float] | None = None) -> dict:  # type: ignore[type-arg]
    told = {
        "hit": [["hit", 0.0, 1.0, 0.5, in_80, 1]],
        "built": [
            [*ROW, in_80, 1, 1],
            ["click", 0.5, 1.0, 2.0, 0, 0, 0],
            ["four grams of shaft", 0.0, 1.0, 0.0, 1, 1, 0],
        ],
        "keep": [said, right],
        "call": call,
    }
    return {"number": 1, "told": [told, told]}


RECORDS = [
    a_record(1, 0.1, right=False),
    a_record(0, 0.9, right=True, call=[0.7, 2.0]),
    a_record(1, 0.85, right=False, call=[0.9, -1.0]),
    a_record(1, 1.0, right=True),
]


def test_ability_and_device_go_round_with_the_number() -> None:
    seen = {(ability_of(number), device_of(number)) for number in range(1, 16)}
    assert len(seen) == len(ABILITIES) * len(MEASURED)


def test_a_fitting_is_judged_after_every_number_of_balls_in_its_own_units() -> None:
    outcomes = choice_outcomes(CHOICES["as believed"], 1)
    assert len(outcomes) == len(BALLS)
    for outcome in outcomes:
        assert len(outcome.hit) == 6
        assert len(outcome.built) == 20
        for one in (*outcome.hit, *outcome.built):
            assert one.sd > 0.0
            assert one.in_95 >= one.in_80
        assert 0.0 <= outcome.keep[0] <= 1.0
    first, again = to_record(outcomes), to_record(choice_outcomes(CHOICES["as believed"], 1))
    assert first == again


def test_how_often_ranges_held_is_a_mean_over_fittings() -> None:
    assert held(RECORDS, HIT, probability=80).mean == pytest.approx(75.0)
    assert held(RECORDS, HIT, probability=95).mean == pytest.approx(100.0)
    assert held(RECORDS, "click", probability=80).mean == pytest.approx(37.5)
    assert held(RECORDS, "four grams of shaft", probability=80).mean == pytest.approx(100.0)
    assert kinds_of(RECORDS) == (HIT, "click", "four grams of shaft")


def test_of_two_ways_the_better_alone_is_counted_with_what_was_said_too_high() -> None:
    in_80, in_95, more = of_better_ways(RECORDS, "click")
    assert two_way_kinds(RECORDS) == ("click",)
    assert in_80.mean == pytest.approx(75.0)
    assert in_95.mean == pytest.approx(100.0)
    assert more.mean == pytest.approx(-1.0)


def test_one_way_of_every_change_of_each_club_is_the_better_one() -> None:
    (first, _) = choice_outcomes(CHOICES["as believed"], 1)
    kinds = [one.kind for one, better in zip(first.built, first.better, strict=True) if better]
    assert {kind: kinds.count(kind) for kind in kinds} == {
        "click": 2,
        "half an inch": 2,
        "four grams of shaft": 2,
        "four grams of head": 2,
    }


def test_keeping_is_counted_by_the_chance_that_was_said() -> None:
    *bins, every = keeping(RECORDS)
    assert [one.count for one in bins] == [2, 0, 0, 0, 6]
    assert every.count == 8
    assert every.said == pytest.approx((0.1 + 0.9 + 0.85 + 1.0) / 4.0)
    assert every.right == pytest.approx(0.5)
    assert bins[4].right == pytest.approx(2.0 / 3.0)
    assert bins[4].error > 0.0


def test_what_was_put_forward_is_counted_with_what_came_of_it() -> None:
    found = put_forward(RECORDS)
    assert (found.choices, found.made) == (8, 4)
    assert found.chance.said == pytest.approx(0.8)
    assert found.chance.right == pytest.approx(0.5)
    assert found.chance.error > 0.0
    assert found.gain == pytest.approx(0.5)
    assert put_forward(RECORDS[:1]).made == 0


def test_the_page_has_a_row_a_scenario_in_each_table() -> None:
    lines = page_lines({"as believed": RECORDS, "others": RECORDS[:2]})
    assert sum(line.startswith("| as believed |") for line in lines) == 4
    assert sum(line.startswith("| others |") for line in lines) == 4
    assert any("75.0 ± 25.0 / 100.0 ± 0.0" in line for line in lines)

"""A plan in words and keys."""

from typing import Any

import numpy as np
import pytest

from loftwright.constants import YARD
from loftwright.evidence.plan import MINUTE, Plan, PlanRequest, make_plan
from loftwright.evidence.power import Scatter
from loftwright.report.layout import WIDTH
from loftwright.report.plan_words import given_up, plan_lines, plan_record


def planned(
    clubs: int = 5,
    balls: int = 40,
    minutes: float | None = None,
    difference: float = 3.0,
    *,
    blind: bool = False,
) -> Plan:
    request = PlanRequest(
        clubs=clubs,
        balls=balls,
        difference=difference * YARD,
        scatter=Scatter(total=10.0 * YARD, offline=20.0 * YARD),
        available=None if minutes is None else minutes * MINUTE,
        blind=blind,
    )
    return make_plan(request, np.random.default_rng(7))


def test_a_plan_has_every_promised_key() -> None:
    record: dict[str, Any] = plan_record(planned(), 7, "mid")
    assert set(record) >= {
        "clubs",
        "sets",
        "balls",
        "minutes",
        "difference_yd",
        "balls_needed_per_club",
        "seen",
        "given_up",
        "seed",
        "warnings",
    }
    assert set(record["sets"][0]) == {"set", "club", "balls", "start_minute"}
    assert set(record["seen"][0]) >= {"balls_per_club", "difference_yd"}
    assert record["seed"] == 7
    assert record["difference_yd"] == 3.0
    assert record["given_up"] == []
    assert record["sets"][0] == {"set": 1, "club": "Own", "balls": 3, "start_minute": 23.0}


def test_what_an_hour_gives_up_is_said() -> None:
    plan = planned(minutes=60)
    assert given_up(plan) == [
        "3 clubs, not 5",
        "27 balls, not 40",
        "differences below 13 yd of total and 26 yd to the side stay open",
    ]
    lines = plan_lines(plan, 7, "mid")
    assert lines[1] == "The minutes leave 3 clubs, not 5 and 27 balls, not 40."
    assert "Given up:" in lines


def test_fewer_balls_alone_are_given_up_when_clubs_stay() -> None:
    assert given_up(planned(balls=45, minutes=73))[0] == "44 balls, not 45"


def test_the_answer_says_what_would_show() -> None:
    assert plan_lines(planned(), 7, "mid")[0] == (
        "5 clubs, 40 balls, 70 minutes: 14 yd between two clubs would show, less may not."
    )
    assert plan_lines(planned(difference=20.0), 7, "mid")[0] == (
        "5 clubs, 40 balls, 70 minutes: enough to see 20 yd between two clubs."
    )


def test_warnings_hold_the_cautions_and_the_basis() -> None:
    text = " ".join(str(word) for word in plan_record(planned(), 7, "mid")["warnings"])  # type: ignore[attr-defined]
    for words in (
        "Pain, dizziness or a drop in speed ends the test",
        "warm-up of 10 minutes is not shortened",
        "Gosheger et al. 2003",
        "60 a visit (a judgement",
        "leave 20 beside these 40",
        "simulated golfers and a judgement",
        "before shafts",
    ):
        assert words in text


def test_more_balls_than_a_visit_are_two_visits() -> None:
    text = " ".join(plan_lines(planned(balls=80), 7, "mid"))
    assert "make it two visits" in " ".join(text.split())


def test_a_blind_plan_keeps_its_key_with_the_fitter() -> None:
    plan = planned(blind=True)
    text = " ".join(" ".join(plan_lines(plan, 7, "mid")).split())
    assert f"Club 1 is {plan.clubs[1]}" in text
    assert "Keep it from the golfer until the end" in text
    assert "sees, hears and feels" in text


@pytest.mark.parametrize("minutes", [None, 60.0])
def test_a_plan_fits_the_terminal(minutes: float | None) -> None:
    lines = "\n".join(plan_lines(planned(13, 78, minutes, blind=True), 4294967295, "high")).split(
        "\n"
    )
    assert max(len(line) for line in lines) <= WIDTH

"""The keys of a decision, its sums and its gaps."""

import json
from collections.abc import Callable
from dataclasses import replace
from math import inf, nan
from typing import Any

import pytest

from loftwright.constants import YARD
from loftwright.domain.shot import Shot, ShotTable
from loftwright.evidence.result import ClubResult, Decision, State
from loftwright.report.records import (
    FIGURE_KEYS,
    decision_record,
    number,
    refused_rows,
    rounded,
    row_counts,
    strict,
)

Maker = Callable[..., Decision]
Tabler = Callable[[Decision], ShotTable]

KEYS = {
    "sentence",
    "state",
    "ranked_on",
    "against",
    "clubs",
    "pairs",
    "odd_balls",
    "next_club",
    "next_why",
    "regret_yd",
    "rows",
    "columns",
    "claims",
    "warnings",
}
CLUB_KEYS = {
    "club",
    "balls",
    "value_yd",
    "value_sd_yd",
    "p_best",
    "as_you_swing_it",
    "from_the_same_swing",
}
PARTS = {"odd_balls", "strike", "swing", "warm_up", "club", "left_over"}


@pytest.fixture
def record(make_decision: Maker, shot_table: Tabler) -> dict[str, Any]:
    decision = make_decision()
    made: dict[str, Any] = decision_record(decision, shot_table(decision))
    return made


def test_a_decision_has_every_promised_key(record: dict[str, Any]) -> None:
    assert set(record) >= KEYS
    assert set(record["clubs"][0]) >= CLUB_KEYS
    assert set(record["clubs"][0]["as_you_swing_it"]) == set(FIGURE_KEYS)
    assert set(record["clubs"][0]["from_the_same_swing"]["total_yd"]) == {
        "mean",
        "low95",
        "high95",
    }
    assert set(record["pairs"][0]) == {"a", "b", "p_a_better", "raw_total_yd", "parts"}
    assert set(record["pairs"][0]["parts"]) == PARTS
    assert set(record["odd_balls"][0]) == {"row", "weight", "why"}
    assert set(record["columns"][0]) == {"column", "means", "unit", "origin", "from"}
    assert set(record["claims"][0]) == {"say", "may", "why"}
    assert set(record["rows"]) == {"read", "used", "odd", "refused", "duplicate"}


def test_figures_are_in_trade_units(record: dict[str, Any]) -> None:
    birch = record["clubs"][0]
    assert birch["value_yd"] == pytest.approx(5.4)
    assert birch["value_sd_yd"] == pytest.approx(2.7)
    figures = birch["as_you_swing_it"]
    assert figures["total_yd"]["mean"] == pytest.approx(5.4)
    assert figures["spin_rpm"]["mean"] == pytest.approx(-108.0)
    assert figures["launch_deg"]["mean"] == pytest.approx(0.54)
    assert figures["ball_speed_mph"]["mean"] == pytest.approx(1.08)
    assert figures["total_yd"]["low95"] < 5.4 < figures["total_yd"]["high95"]


def test_parts_in_yards_sum_to_the_raw_difference(record: dict[str, Any]) -> None:
    for pair in record["pairs"]:
        assert sum(pair["parts"].values()) == pytest.approx(pair["raw_total_yd"], abs=1e-9)


def test_row_counts_add_up_and_name_every_refused_row(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    table = shot_table(decision)
    unread = Shot(row=99, order=len(table.shots), club="Own", read=False)
    table = replace(table, shots=(*table.shots, unread), read=table.read + 1)
    counts = row_counts(decision, table)
    assert counts["read"] == sum(
        int(str(counts[key])) for key in ("used", "odd", "refused", "duplicate")
    )
    refused = refused_rows(table)
    assert len(refused) == counts["refused"]
    assert refused[-1]["row"] == 99
    assert "not read by the device" in str(refused[-1]["why"])


def test_warnings_of_table_and_comparison_are_said_once(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = replace(make_decision(), warnings=("the same", "of the comparison"))
    table = replace(shot_table(decision), warnings=("the same", "of the table"))
    record = decision_record(decision, table)
    assert record["warnings"] == ["the same", "of the table", "of the comparison"]


def test_what_may_not_be_said_is_null(make_decision: Maker, shot_table: Tabler) -> None:
    few = replace(
        make_decision(),
        state=State.TOO_FEW,
        clubs=(ClubResult(club="Ash", balls=1, p_best=1.0),),
        pairs=(),
        next_club=None,
        regret=None,
        p_leader_near_best=None,
        pattern=None,
    )
    record: dict[str, Any] = decision_record(few, shot_table(make_decision()))
    club = record["clubs"][0]
    nulls = [
        "value_yd",
        "value_sd_yd",
        "p_best",
        "as_you_swing_it",
        "from_the_same_swing",
        "level",
        "device_carry_yd",
    ]
    assert [club[key] for key in nulls] == [None] * len(nulls)
    assert record["next_club"] is record["next_why"] is record["regret_yd"] is None
    assert record["pattern"] is None


def test_a_record_is_json_that_any_reader_takes(make_decision: Maker, shot_table: Tabler) -> None:
    decision = replace(make_decision(), regret=nan)
    text = json.dumps(decision_record(decision, shot_table(decision)), allow_nan=False)
    assert json.loads(text)["regret_yd"] is None


def test_no_number_becomes_null_wherever_it_hides() -> None:
    assert strict({"a": [1.0, nan, (inf, "inf")], "b": {"c": -inf}, "d": None}) == {
        "a": [1.0, None, [None, "inf"]],
        "b": {"c": None},
        "d": None,
    }
    assert number(nan) is None
    assert number(None) is None
    assert number(2.0 * YARD, YARD) == pytest.approx(2.0)
    assert rounded(0.1 + 0.2) == 0.3
    assert rounded(nan) is None

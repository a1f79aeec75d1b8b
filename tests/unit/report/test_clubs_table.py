from collections.abc import Callable
from dataclasses import replace
from math import nan

import pytest

from loftwright.constants import YARD
from loftwright.evidence.result import Against, ClubResult, Decision
from loftwright.report.clubs_table import clubs_table

MakeDecision = Callable[..., Decision]

HEADS = [
    "Club",
    "Balls",
    "Total as you swing it, yd",
    "Total from the same swing, yd",
    "Start line, yd",
    "Curve, yd",
    "Height, ft",
    "Lands, deg",
    "Carry + run, yd",
    "Fairways in 14",
    "Strokes a round",
]


def rows(decision: Decision) -> dict[str, list[str]]:
    return {
        row["club"]["club"]: [cell["text"] for cell in row["cells"]]
        for row in clubs_table(decision)["rows"]
    }


def test_columns_stand_in_the_order_of_the_question(make_decision: MakeDecision) -> None:
    heads = [
        head.replace("\N{NO-BREAK SPACE}", " ") for head in clubs_table(make_decision())["heads"]
    ]
    assert heads == HEADS


def test_every_row_has_a_cell_for_every_head(
    make_decision: MakeDecision, device_decision: Decision, few_decision: Decision
) -> None:
    for decision in (make_decision(), device_decision, few_decision):
        table = clubs_table(decision)
        assert {1 + len(row["cells"]) for row in table["rows"]} == {len(table["heads"])}
        assert len(table["rows"]) == len(decision.clubs)


def test_figures_carry_the_trades_units_and_digits(make_decision: MakeDecision) -> None:
    assert rows(make_decision())["Birch"] == [
        "11",
        "+5.4",
        "+4.2",
        "3 L",
        "4 R",
        "88",
        "37",
        "221 + 12",
        "9.1",
        "−0.45",
    ]


def test_ranges_of_nine_in_ten_stand_under_differences(make_decision: MakeDecision) -> None:
    cells = clubs_table(make_decision())["rows"][0]["cells"]
    # Student's t with 30 degrees of freedom, 0.95 quantile 1.697 (any table): 5.4 +- 4.58.
    assert cells[1]["under"] == "+0.8 to +10.0"
    assert "under" not in cells[0]


def test_the_own_club_is_zero_and_named_the_club_to_beat(make_decision: MakeDecision) -> None:
    decision = make_decision()
    own = rows(decision)["Own"]
    assert own[1:3] == ["0", "0"]
    assert own[-1] == "0"
    found = next(row for row in clubs_table(decision)["rows"] if row["club"]["club"] == "Own")
    assert found["rests"] == "the club to beat"


def test_strokes_are_against_the_mean_where_there_is_no_own_club(
    make_decision: MakeDecision,
) -> None:
    decision = replace(make_decision(), own=None, against=Against.MEAN)
    strokes = [float(cells[-1].replace("−", "-")) for cells in rows(decision).values()]
    assert sum(strokes) == pytest.approx(0.0, abs=0.03)
    assert "the mean of the clubs" in clubs_table(decision)["note"]


def test_what_a_figure_rests_on_is_said_in_words(make_decision: MakeDecision) -> None:
    decision = make_decision()
    rests = {row["club"]["club"]: row["rests"] for row in clubs_table(decision)["rows"]}
    assert rests["Birch"] == "mostly balls, 84 %"
    assert rests["Ash"] == "half physics, 51 %"


def test_a_bar_joins_the_clubs_that_are_too_close_to_the_first(
    make_decision: MakeDecision,
) -> None:
    table = clubs_table(make_decision())
    assert [row["close"] for row in table["rows"]] == [True, True, False, False, False]
    assert table["note"].startswith("A bar at the left edge: too close to call with the first.")
    sure = make_decision(clubs=2)
    assert not any(row["close"] for row in clubs_table(sure)["rows"])


def test_strokes_name_the_table_that_they_come_from(make_decision: MakeDecision) -> None:
    assert "table of tour players' shots" in clubs_table(make_decision())["note"]
    assert "Broadie 2012" in clubs_table(make_decision())["note"]


def test_what_may_not_be_said_is_a_dash(make_decision: MakeDecision) -> None:
    decision = make_decision()

    def ball_only(club: ClubResult) -> ClubResult:
        return replace(club, from_the_same_swing=None)

    decision = replace(decision, clubs=tuple(ball_only(club) for club in decision.clubs))
    assert {cells[2] for cells in rows(decision).values()} == {"–"}


def test_without_direction_and_axis_no_side_fairway_or_stroke_is_told(
    make_decision: MakeDecision,
) -> None:
    decision = make_decision()

    def flat(club: ClubResult) -> ClubResult:
        figures = club.as_you_swing_it
        return replace(club, as_you_swing_it=replace(figures, offline=None) if figures else None)

    decision = replace(decision, clubs=tuple(flat(club) for club in decision.clubs))
    assert rows(decision)["Birch"][3:] == ["–", "–", "88", "37", "221 + 12", "–", "–"]


def test_carry_and_run_add_up_to_the_total_as_it_is_printed(make_decision: MakeDecision) -> None:
    decision = make_decision(clubs=2)
    first = decision.clubs[0]
    assert first.level is not None
    level = replace(first.level, carry=203.6 * YARD, total=220.4 * YARD)
    decision = replace(decision, clubs=(replace(first, level=level), decision.clubs[1]))
    assert rows(decision)["Birch"][7] == "204 + 16"


def test_a_level_that_is_no_number_is_a_row_of_dashes(make_decision: MakeDecision) -> None:
    decision = make_decision(clubs=2)
    first = decision.clubs[0]
    assert first.level is not None
    lost = replace(first, level=replace(first.level, total=nan))
    decision = replace(decision, clubs=(lost, decision.clubs[1]))
    assert set(rows(decision)["Birch"][3:]) == {"–"}


def test_a_device_of_speed_and_carry_has_its_own_columns(device_decision: Decision) -> None:
    table = clubs_table(device_decision)
    assert table["heads"] == [
        "Club",
        "Balls",
        "Carry on the device, yd",
        "Ball speed on the device, mph",
    ]
    assert rows(device_decision)["Birch"] == ["11", "+1.0", "+0.4"]
    assert "Strokes" not in table["note"]


def test_too_few_balls_mark_no_leader(few_decision: Decision) -> None:
    table = clubs_table(few_decision)
    assert table["leader"] is None
    assert [row["rests"] for row in table["rows"]][1] == "too few balls"

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.evidence.result import ClubResult, Decision
from loftwright.report.content import ReportContent
from loftwright.report.golfer_page import golfer_page
from loftwright.report.marks import marks_of_fitting
from loftwright.report.room import GOLFER_ROOMS

MakeDecision = Callable[..., Decision]
MakeContent = Callable[[Decision], ReportContent]


@pytest.fixture
def page(make_content: MakeContent) -> Callable[[Decision], dict[str, Any]]:
    def made(decision: Decision) -> dict[str, Any]:
        content = make_content(decision)
        marks = marks_of_fitting(decision, content.table)
        return golfer_page(content, marks, GOLFER_ROOMS[0])

    return made


def test_the_hole_says_scale_width_trouble_and_aim(
    make_decision: MakeDecision, page: Callable[[Decision], dict[str, Any]]
) -> None:
    note = page(make_decision())["finish"]["note"]
    assert "Hole 2 of your list: fairway 30 yd wide, trees on the right from 30 yd." in note
    assert "to score best aim Birch 2 yd left and Own 2 yd left of that." in note
    assert "the same for both clubs: so few balls cannot show which is straighter." in note


def test_no_aim_is_told_where_no_club_may_be_re_aimed(
    make_decision: MakeDecision, page: Callable[[Decision], dict[str, Any]]
) -> None:
    decision = replace(make_decision(), home=Home(re_aim=False))
    finish = page(decision)["finish"]
    assert "aim" not in finish["note"]
    assert finish["heading"] == "Where your drives finish on a standard hole"


def test_clubs_that_are_aimed_well_already_are_not_told_to_aim(
    make_decision: MakeDecision, page: Callable[[Decision], dict[str, Any]]
) -> None:
    decision = make_decision()

    def straight(club: ClubResult) -> ClubResult:
        level = replace(club.level, aim=0.2 * YARD) if club.level else None
        return replace(club, level=level)

    decision = replace(decision, clubs=tuple(straight(club) for club in decision.clubs))
    assert "to score best" not in page(decision)["finish"]["note"]
    assert "Drawn as you aimed in the bay." in page(decision)["finish"]["note"]


def test_a_drive_in_the_middle_is_said_to_be_there(
    make_decision: MakeDecision, page: Callable[[Decision], dict[str, Any]]
) -> None:
    decision = make_decision()

    def centred(club: ClubResult) -> ClubResult:
        level = replace(club.level, offline=-0.1) if club.level else None
        return replace(club, level=level)

    decision = replace(decision, clubs=tuple(centred(club) for club in decision.clubs))
    assert "Birch finishes at 233 yd in the middle" in page(decision)["finish"]["alt"]


def test_the_chart_leaves_clubs_to_the_table_and_says_so(
    make_decision: MakeDecision, page: Callable[[Decision], dict[str, Any]]
) -> None:
    effect = page(make_decision(clubs=12))["effects"][0]
    assert effect["note"].endswith("3 more clubs in the table overleaf.")
    assert effect["svg"].count(">Demo") == 0
    assert "Dashed" not in effect["note"]


def test_a_club_hit_once_is_dashed_and_explained(
    make_decision: MakeDecision, page: Callable[[Decision], dict[str, Any]]
) -> None:
    decision = make_decision()
    once = replace(decision.clubs[-1], balls=1)
    decision = replace(decision, clubs=(*decision.clubs[:-1], once))
    effect = page(decision)["effects"][0]
    assert "Dashed: too few balls." in effect["note"]
    assert 'stroke-dasharray="4,3"' in effect["svg"]


def test_odd_balls_and_the_left_hand_are_in_the_foot(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    decision = make_decision()
    content = replace(make_content(decision), hand="left")
    foot = golfer_page(content, marks_of_fitting(decision, content.table), GOLFER_ROOMS[0])["foot"]
    assert foot.startswith(
        "From 39 balls with 5 clubs, none deleted, 3 of them counted for less. "
        "You are left-handed: left and right are as you see them. "
        "This page gives no swing and no medical advice"
    )


def test_the_top_holds_only_what_is_known(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    decision = make_decision()
    content = replace(make_content(decision), golfer="", fitter="")
    marks = marks_of_fitting(decision, content.table)
    top = golfer_page(content, marks, GOLFER_ROOMS[0])["top"]
    assert top == "25\N{NO-BREAK SPACE}November\N{NO-BREAK SPACE}2026"
    bare = replace(content, visit_date=None)
    assert golfer_page(bare, marks, GOLFER_ROOMS[0])["top"] == ""

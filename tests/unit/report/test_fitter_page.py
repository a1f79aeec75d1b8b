from collections.abc import Callable
from dataclasses import replace

from loftwright.constants import YARD
from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import ClubResult, Decision, Parts
from loftwright.report.content import ReportContent
from loftwright.report.fitter_page import (
    DEVICE_METHOD,
    METHOD,
    fitter_page,
    fitter_sentence,
    told_pair,
    why_chart,
)
from loftwright.report.marks import marks_of_fitting
from loftwright.report.room import FITTER_ROOMS, Reasons

MakeDecision = Callable[..., Decision]
MakeContent = Callable[[Decision], ReportContent]


def said(decision: Decision) -> str:
    return fitter_sentence(decision, told_pair(decision))


def test_the_pair_whose_averages_contradict_the_ranking_is_told(
    make_decision: MakeDecision,
) -> None:
    pair = told_pair(make_decision())
    assert pair is not None
    assert (pair.a, pair.b) == ("Birch", "Ash")


def test_else_the_leader_and_the_own_club_are_told(make_decision: MakeDecision) -> None:
    decision = make_decision()
    pairs = tuple(replace(pair, raw_total=abs(pair.raw_total or 0.0)) for pair in decision.pairs)
    pair = told_pair(replace(decision, pairs=pairs))
    assert pair is not None
    assert (pair.a, pair.b) == ("Birch", "Own")


def test_without_an_own_club_the_leader_and_the_next_are_told(
    make_decision: MakeDecision,
) -> None:
    decision = replace(make_decision(), own=None)
    pairs = tuple(replace(pair, raw_total=1.0) for pair in decision.pairs)
    pair = told_pair(replace(decision, pairs=pairs))
    assert pair is not None
    assert (pair.a, pair.b) == ("Birch", "Elm")


def test_the_sentence_tells_averages_and_what_the_club_is_worth(
    make_decision: MakeDecision,
) -> None:
    assert said(make_decision()) == (
        "Plain averages put Birch 1.2 yd behind Ash; the club itself is worth 5.1 yd more."
    )
    assert said(make_decision(clubs=2)) == (
        "Plain averages put Birch 4.8 yd ahead of Own; the club itself is worth 4.2 yd more."
    )


def test_a_club_worth_nothing_is_said_to_be_worth_the_same(make_decision: MakeDecision) -> None:
    decision = make_decision(clubs=2)
    even = Parts(
        odd_balls=0.0, strike=2.0 * YARD, swing=0.0, warm_up=0.0, club=0.01, left_over=-0.01
    )
    decision = replace(
        decision, pairs=(replace(decision.pairs[0], raw_total=2.0 * YARD, parts=even),)
    )
    assert said(decision).endswith("2.0 yd ahead of Own; the club itself is worth the same.")


def test_from_ball_data_alone_the_club_is_never_called_the_club_itself(
    make_decision: MakeDecision,
) -> None:
    decision = make_decision()

    def ball_only(club: ClubResult) -> ClubResult:
        return replace(club, from_the_same_swing=None)

    clubs = tuple(ball_only(club) for club in decision.clubs)
    sentence = said(replace(decision, clubs=clubs))
    assert "the club as you swing it is worth" in sentence
    assert "itself" not in sentence


def test_without_parts_the_page_says_what_kind_of_question_is_open(
    make_decision: MakeDecision, device_decision: Decision, few_decision: Decision
) -> None:
    decision = make_decision()
    bare = tuple(replace(pair, parts=None) for pair in decision.pairs)
    assert "not why: no delivery or strike" in said(replace(decision, pairs=bare))
    assert "not why: launch and spin were not both" in said(device_decision)
    assert "two balls each are the least" in said(few_decision)
    assert why_chart(told_pair(device_decision)) is None


def test_the_method_is_told_in_six_lines_as_it_was_used(
    make_decision: MakeDecision, device_decision: Decision, make_content: MakeContent
) -> None:
    for decision, method in ((make_decision(), METHOD), (device_decision, DEVICE_METHOD)):
        content = make_content(decision)
        marks = marks_of_fitting(decision, content.table)
        page = fitter_page(content, marks, FITTER_ROOMS[0], None)
        assert len(method) == 5
        assert page["method"] == [*method, "Believed before the first ball: physics alone."]


def test_the_device_page_has_no_air_wind_or_holes(
    device_decision: Decision, make_content: MakeContent
) -> None:
    content = make_content(device_decision)
    marks = marks_of_fitting(device_decision, content.table)
    assert fitter_page(content, marks, FITTER_ROOMS[0], None)["home"] == [
        "One ball for all clubs, new."
    ]


def test_columns_are_told_by_their_origin(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    content = make_content(make_decision())
    marks = marks_of_fitting(content.decision, content.table)
    found = fitter_page(content, marks, FITTER_ROOMS[0], None)["columns"]
    assert [item["heading"] for item in found] == [
        "Measured",
        "Calculated by the device",
        "Not there",
        "Not used",
    ]
    assert found[0]["text"].startswith("ball speed, launch, direction, spin, axis")


def test_lists_are_cut_to_the_room_and_say_by_how_much(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    decision = replace(make_decision(), warnings=tuple(f"warning {n}" for n in range(9)))
    content = make_content(decision)
    marks = marks_of_fitting(decision, content.table)
    for room in FITTER_ROOMS:
        page = fitter_page(content, marks, room, None)
        assert len(page["warnings"]) <= room.listed
        assert len(page["odd"]) <= room.listed
    told = fitter_page(content, marks, FITTER_ROOMS[-1], None)["warnings"]
    assert told == ["Warning 0.", "Warning 1.", "And 7 more warnings, listed by read --json."]


def test_what_may_not_be_said_keeps_its_reason_longest(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    content = make_content(make_decision())
    marks = marks_of_fitting(content.decision, content.table)
    room = next(room for room in FITTER_ROOMS if room.reasons is Reasons.MAY_NOT)
    page = fitter_page(content, marks, room, None)
    assert all(claim["why"] == "" for claim in page["may"])
    assert all(claim["why"] for claim in page["may-not"])


def test_the_next_club_is_named_once(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    decision = make_decision()
    assert decision.next_club is not None
    for why in ("it can still beat the leader", "Elm can still beat the leader"):
        told = replace(decision, next_club=replace(decision.next_club, why=why))
        content = make_content(told)
        page = fitter_page(content, marks_of_fitting(told, content.table), FITTER_ROOMS[0], None)
        words = "".join(run.get("club", run.get("text", "")) for run in page["next"])
        assert words.count("Elm") == 1
        assert words.endswith("can still beat the leader.")


def test_no_next_club_is_said_in_words(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    decision = replace(make_decision(), next_club=None)
    content = make_content(decision)
    page = fitter_page(
        content, marks_of_fitting(decision, ShotTable(read=0, shots=())), FITTER_ROOMS[0], None
    )
    assert page["next"] == [{"text": "No further ball is asked for."}]

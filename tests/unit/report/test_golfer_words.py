from collections.abc import Callable
from dataclasses import replace
from math import nan

from loftwright.constants import YARD
from loftwright.domain.shot import ShotTable
from loftwright.evidence.advice import Call, advise
from loftwright.evidence.result import Against, ClubResult, Decision, Estimate, State
from loftwright.report.golfer_words import (
    cautions,
    drawn_clubs,
    how_sure,
    next_steps,
    shape_known,
)
from loftwright.report.marks import marks_of_fitting
from loftwright.report.runs import Run

MakeDecision = Callable[..., Decision]


def words(runs: list[Run]) -> str:
    text = "".join(run.get("club", run.get("strong", run.get("text", ""))) for run in runs)
    return text.replace("\N{NO-BREAK SPACE}", " ")


def sure(decision: Decision, most: int = 5) -> list[str]:
    marks = marks_of_fitting(decision, ShotTable(read=0, shots=()))
    return [words(line) for line in how_sure(decision, marks, most)]


def steps(decision: Decision) -> list[str]:
    marks = marks_of_fitting(decision, ShotTable(read=0, shots=()))
    return [words(step) for step in next_steps(decision, marks)]


def with_value(decision: Decision, name: str, yards: float) -> Decision:
    """Return a decision in which one club is worth so much, ranked anew against the own one."""
    value = Estimate(mean=yards * YARD, sd=2.0 * YARD, df=30.0)
    clubs = sorted(
        (replace(club, value=value) if club.club == name else club for club in decision.clubs),
        key=lambda club: -(club.value.mean if club.value else 0.0),
    )
    return replace(decision, clubs=tuple(clubs))


def with_chance(decision: Decision, p: float) -> Decision:
    """Return a decision whose leader beats every other club with this probability."""
    pairs = tuple(replace(pair, p_a_better=p) for pair in decision.pairs)
    return replace(decision, pairs=pairs)


def test_the_first_words_of_a_line_follow_the_ladder(make_decision: MakeDecision) -> None:
    decision = make_decision(clubs=2)
    told = {
        p: sure(with_chance(decision, p))[0].split(".")[0] for p in (0.97, 0.85, 0.7, 0.6, 0.5)
    }
    assert told == {
        0.97: "Sure",
        0.85: "Very likely",
        0.7: "Probably",
        0.6: "Too close to call",
        0.5: "Too close to call",
    }


def test_lines_name_every_rival_surest_first(make_decision: MakeDecision) -> None:
    lines = sure(make_decision())
    assert lines[0] == "Sure. Birch scores better than Own and Ash."
    assert lines[1] == "Very likely. Birch scores better than Cedar."
    assert lines[2] == "Too close to call. Birch or Elm."


def test_what_cannot_be_said_is_kept_when_room_is_short(make_decision: MakeDecision) -> None:
    lines = sure(make_decision(), most=2)
    assert len(lines) == 2
    assert lines[-1].startswith("Cannot be said. Which club is straighter: ")


def test_physics_and_few_balls_are_said_of_the_clubs_they_hold_for(
    make_decision: MakeDecision,
) -> None:
    lines = sure(make_decision())
    assert any(line.startswith("Half physics. What is said of Ash leans") for line in lines)
    few = replace(make_decision().clubs[-1], balls=1, value=None)
    decision = make_decision()
    decision = replace(decision, clubs=(*decision.clubs[:-1], few))
    assert "Too few balls. Ash: 1 ball; two are the least." in sure(decision)


def test_a_change_is_ordered_as_it_was_hit_after_the_cheap_ways(
    make_decision: MakeDecision,
) -> None:
    decision = make_decision()
    assert advise(decision).call is Call.CHANGE
    told = steps(decision)
    assert told[0].startswith("Order Birch as you hit it")
    assert any("cheap ways" in step and "Own" in step for step in told)
    assert any("at pick-up" in step for step in told)
    assert "newly glued" in cautions(decision)[0]


def test_the_own_club_is_kept_and_nothing_has_to_be_bought(make_decision: MakeDecision) -> None:
    decision = with_chance(make_decision(clubs=2), 0.8)
    assert advise(decision).call is Call.KEEP_OWN
    told = steps(decision)
    assert told[0] == "Play Own. Nothing has to be bought after today."
    assert any(step.startswith("Come back for more balls with Birch") for step in told)
    assert "warm up for ten minutes" in cautions(decision)[0]


def test_no_step_asks_for_another_club_when_the_own_one_leads(
    make_decision: MakeDecision,
) -> None:
    decision = make_decision(clubs=2)
    pair = replace(decision.pairs[0], a="Own", b="Birch", p_a_better=0.9)
    decision = replace(with_value(decision, "Birch", -3.0), pairs=(pair,))
    assert advise(decision).leader == "Own"
    assert not any("Come back" in step for step in steps(decision))


def test_a_tie_is_left_to_feel_then_price(make_decision: MakeDecision) -> None:
    decision = with_chance(make_decision(clubs=2), 0.6)
    assert advise(decision).call is Call.TOO_CLOSE
    told = steps(decision)
    assert told[0] == "Let feel decide between Birch and Own, then price."
    assert told[1] == "Keep Own if you like it as much: it costs nothing."


def test_without_an_own_club_it_is_hit_before_anything_is_ordered(
    make_decision: MakeDecision,
) -> None:
    decision = replace(with_chance(make_decision(), 0.96), own=None, against=Against.MEAN)
    assert advise(decision).call is Call.LEADER
    assert steps(decision)[0].startswith("Hit your own driver in turn with Birch before")


def test_too_few_balls_ask_for_more_with_two_clubs(few_decision: Decision) -> None:
    assert steps(few_decision)[0].startswith("Hit at least two balls with each of two clubs, Own")


def test_a_device_of_speed_and_carry_is_told_what_to_measure(device_decision: Decision) -> None:
    told = steps(device_decision)
    assert told[-1].startswith("Measure launch and spin too")
    assert "not hit" not in " ".join(told)
    for p in (0.5, 0.8, 0.96):
        told = steps(with_chance(device_decision, p))
        assert told[-1].startswith("Measure launch and spin too")
        assert not any(word in " ".join(told) for word in ("loft", "Order", "not hit"))
    assert "Birch carries further" not in " ".join(sure(device_decision))


def test_cautions_give_no_advice_on_the_swing(
    make_decision: MakeDecision, few_decision: Decision
) -> None:
    for decision in (make_decision(), few_decision, with_chance(make_decision(), 0.6)):
        text = " ".join([*cautions(decision), *steps(decision)]).lower()
        for advice in ("should swing", "swing harder", "wrist", "shoulder", "tempo", "conform"):
            assert advice not in text


def test_the_own_club_and_the_leader_are_drawn_the_leader_last(
    make_decision: MakeDecision, few_decision: Decision, device_decision: Decision
) -> None:
    assert [club.club for club in drawn_clubs(make_decision())] == ["Own", "Birch"]
    assert drawn_clubs(few_decision) == []
    assert drawn_clubs(device_decision) == []


def test_a_club_without_a_total_is_not_drawn(make_decision: MakeDecision) -> None:
    decision = make_decision()

    def lost(club: ClubResult) -> ClubResult:
        level = replace(club.level, total=nan) if club.level else None
        return replace(club, level=level) if club.club == "Birch" else club

    decision = replace(decision, clubs=tuple(lost(club) for club in decision.clubs))
    assert [club.club for club in drawn_clubs(decision)] == ["Own"]


def test_the_side_is_known_only_with_direction_and_axis(make_decision: MakeDecision) -> None:
    decision = make_decision()
    assert shape_known(decision)

    def flat(club: ClubResult) -> ClubResult:
        figures = club.as_you_swing_it
        return replace(club, as_you_swing_it=replace(figures, offline=None) if figures else None)

    assert not shape_known(replace(decision, clubs=tuple(flat(c) for c in decision.clubs)))
    assert decision.state is State.STRONG

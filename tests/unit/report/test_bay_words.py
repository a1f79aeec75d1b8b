"""The sentences of the bay."""

from dataclasses import replace
from typing import Any

import pytest

from loftwright.bay.next_set import NextSet, Step, next_set
from loftwright.bay.pace import pace_of
from loftwright.constants import YARD
from loftwright.domain.acts import (
    Closed,
    HandedOver,
    NotRead,
    PainSaid,
    Planned,
    SettingSeen,
    Vetoed,
    WarmUpDone,
)
from loftwright.domain.fitting import PlanCard
from loftwright.evidence.result import NextClub
from loftwright.report.bay_words import (
    BayFacts,
    bay_sentence,
    care_words,
    minutes_left,
    repeat_words,
    setting_words,
    undo_words,
)
from records import Record

PLAN = PlanCard(sets=(("Own", 3), ("Ash", 3), ("Birch", 3), ("Own", 3)), seconds=1800.0)


def record(*, warm_up: bool = False) -> Record:
    begun = Record().open("Own", "Ash", "Birch", warm_up=warm_up)
    begun.add(Planned(plan=PLAN))
    return begun


def facts(begun: Record, **changes: Any) -> BayFacts:  # noqa: ANN401 - any of its fields
    now = begun.now
    pace = pace_of(now, begun.clock, care=False)
    found = BayFacts(now=now, next=next_set(now, pace.cap), pace=pace)
    return replace(found, **changes)


def test_the_warm_up_comes_first_and_counts() -> None:
    begun = record(warm_up=True)
    begun.balls(2)
    said = bay_sentence(facts(begun))
    assert said.say == "Warm up with Own first."
    assert said.under.startswith("2 swings so far")


def test_a_set_is_hit_to_its_end() -> None:
    begun = record()
    begun.ball()
    assert bay_sentence(facts(begun)).say == "Two more balls with Own."


def test_a_club_that_was_not_hit_is_handed_over_for_that() -> None:
    begun = record()
    begun.balls(3)
    assert bay_sentence(facts(begun)).say == "Hand over Ash next: it was not hit yet."


def test_the_evidence_gives_its_reason_and_what_a_ball_gains() -> None:
    begun = record()
    for club in ("Own", "Ash", "Birch"):
        begun.add(HandedOver(club=club))
        begun.balls(3)
    told = facts(
        begun,
        next=NextSet(step=Step.HAND_OVER, club="Ash", balls=3),
        proposed=NextClub(club="Ash", why="Ash can still beat Birch", gain=0.42 * YARD),
    )
    said = bay_sentence(told)
    assert said.say == "Hand over Ash next: it can still beat Birch."
    assert said.under == "A ball with it is expected to gain 0.4 yd on today's choice."


def test_the_own_clubs_turn_says_why() -> None:
    begun = record()
    for club in ("Own", "Ash", "Birch"):
        begun.add(HandedOver(club=club))
        begun.balls(3)
    assert bay_sentence(facts(begun)).say == "Hand over Own next: it is the own club's turn."


def test_pain_stops_without_advice() -> None:
    begun = record()
    begun.add(PainSaid())
    said = bay_sentence(facts(begun))
    assert said.say.startswith("Stop: the golfer feels pain.")
    assert "doctor or physiotherapist" in said.under
    assert care_words(facts(begun), "") == "Pain was said. Nobody swings again today."


def test_the_cap_is_called_a_judgement() -> None:
    begun = record()
    begun.balls(1)
    said = bay_sentence(facts(begun, next=NextSet(step=Step.STOP)))
    assert said.say == "Stop: 1 swing of 90 are enough."
    assert "judgement" in said.under


def test_a_closed_fitting_takes_corrections() -> None:
    begun = record()
    begun.add(Closed())
    assert "takes corrections, no balls" in bay_sentence(facts(begun)).say


def test_the_other_golfers_turn_and_a_doubtful_club_come_before_the_plan() -> None:
    begun = record()
    begun.ball()
    assert bay_sentence(facts(begun, waits_for="Ottilie")).say == "Ottilie hits now."
    assert bay_sentence(facts(begun, ask_club=True)).say == "Still Own?"


def test_a_rest_is_announced_and_limits_of_today_stand_first() -> None:
    begun = record()
    begun.balls(14)
    assert care_words(facts(begun), "no full swings") == (
        "Today: no full swings. Rest in 4 swings. Pain stops the test."
    )
    begun.balls(4)
    assert "Rest now." in care_words(facts(begun), "")


@pytest.mark.parametrize(
    ("act", "undo"),
    [
        (HandedOver(club="Ash"), "Undo hand-over of Ash"),
        (NotRead(), "Undo not read"),
        (Vetoed(club="Birch"), "Undo veto of Birch"),
        (WarmUpDone(), "Undo warm-up done"),
    ],
)
def test_undo_names_the_act(act: HandedOver | NotRead | Vetoed | WarmUpDone, undo: str) -> None:
    begun = record()
    begun.add(act)
    assert undo_words(begun.now.undoable) == undo
    assert repeat_words(begun.now.undoable) == undo.replace("Undo", "Do") + " again"
    assert undo_words(None) == repeat_words(None) == ""


def test_a_sleeve_is_as_planned_or_not_or_not_seen() -> None:
    begun = record()
    club = begun.now.club("Own")
    assert club is not None
    assert setting_words(club, None, in_hand=True) == ("Planned: middle.", "Not seen yet")
    begun.add(SettingSeen(setting="one weak"))
    assert setting_words(club, begun.now.seen, in_hand=True)[1] == "Not as planned"
    assert setting_words(club, "middle", in_hand=True) == ("Sleeve seen: middle.", "As planned")
    glued = replace(club, card=replace(club.card, settings=(), setting=""))
    assert setting_words(glued, None, in_hand=True)[1] == ""


def test_minutes_are_whole_and_a_dash_without_a_plan() -> None:
    begun = record()
    assert minutes_left(facts(begun).pace) == "30"
    assert minutes_left(pace_of(Record().open("Own").now, begun.clock, care=False)) == "–"

"""What comes next: warm-up, this set, the plan's next club, or what the evidence wants."""

import pytest

from loftwright.bay.next_set import Step, next_set, sets_hit
from loftwright.domain.acts import (
    ClubJoined,
    HandedOver,
    NotOurs,
    NotRead,
    PainSaid,
    Planned,
    Vetoed,
    WarmUpDone,
)
from loftwright.domain.fitting import PlanCard
from records import Record, card

CAP = 90
SETS = (("Own", 3), ("Ash", 3), ("Birch", 3), ("Own", 2), ("Birch", 3), ("Ash", 3), ("Own", 2))


def planned(*, warm_up: bool = False) -> Record:
    record = Record().open("Own", "Ash", "Birch", warm_up=warm_up)
    record.add(Planned(plan=PlanCard(sets=SETS)))
    return record


def test_nothing_is_hit_before_a_visit_is_open() -> None:
    record = Record()
    record.add(ClubJoined(club="Own", card=card()))
    assert next_set(record.now, CAP).step is Step.OPEN


def test_the_own_club_warms_up() -> None:
    record = planned(warm_up=True)
    found = next_set(record.now, CAP)
    assert (found.step, found.club) == (Step.WARM_UP, "Own")
    record.add(WarmUpDone())
    assert next_set(record.now, CAP).step is Step.STAY


def test_a_set_is_hit_to_its_end_and_unread_balls_count() -> None:
    record = planned()
    assert next_set(record.now, CAP).balls == 3
    record.ball()
    record.add(NotRead())
    found = next_set(record.now, CAP)
    assert (found.step, found.club, found.balls) == (Step.STAY, "Own", 1)


def test_a_ghost_does_not_fill_a_set() -> None:
    record = planned()
    balls = record.balls(3)
    record.add(NotOurs(ball=balls[0]))
    assert next_set(record.now, CAP).balls == 1


def test_the_plan_gives_every_club_its_first_set() -> None:
    record = planned()
    record.balls(3)
    found = next_set(record.now, CAP)
    assert (found.step, found.club, found.balls) == (Step.HAND_OVER, "Ash", 3)
    record.add(HandedOver(club="Ash"))
    record.balls(3)
    assert next_set(record.now, CAP).club == "Birch"


def test_the_own_clubs_turn_is_kept_and_then_the_evidence_chooses() -> None:
    record = planned()
    for club in ("Own", "Ash", "Birch"):
        record.add(HandedOver(club=club))
        record.balls(3)
    assert next_set(record.now, CAP).club == "Own"
    record.add(HandedOver(club="Own"))
    record.balls(2)
    assert next_set(record.now, CAP).step is Step.FREE


def test_another_club_than_proposed_is_taken_as_it_comes() -> None:
    record = planned()
    record.balls(3)
    record.add(HandedOver(club="Birch"))
    found = next_set(record.now, CAP)
    assert (found.step, found.club, found.balls) == (Step.STAY, "Birch", 3)
    record.balls(3)
    assert next_set(record.now, CAP).club == "Ash"


def test_a_vetoed_club_is_not_asked_for() -> None:
    record = planned()
    record.balls(3)
    record.add(Vetoed(club="Ash"))
    assert next_set(record.now, CAP).club == "Birch"


def test_the_plan_ends() -> None:
    record = planned()
    for club, balls in SETS:
        record.add(HandedOver(club=club))
        record.balls(balls)
    assert next_set(record.now, CAP).step is Step.DONE


@pytest.mark.parametrize("cap", [3, 90])
def test_pain_or_the_cap_stops_the_test(cap: int) -> None:
    record = planned()
    record.balls(3)
    if cap == CAP:
        record.add(PainSaid())
    assert next_set(record.now, cap).step is Step.STOP


def test_the_sets_that_were_hit_and_the_one_in_hand_are_told_apart() -> None:
    record = planned()
    assert sets_hit(record.now) == ((), 0)
    record.balls(2)
    assert sets_hit(record.now) == ((), 0)
    record.balls(1)
    assert sets_hit(record.now) == ((0,), None)
    record.add(HandedOver(club="Birch"))
    assert sets_hit(record.now) == ((0,), 2)
    record.balls(3)
    record.add(HandedOver(club="Own"))
    assert sets_hit(record.now) == ((0, 2), 3)


def test_without_a_plan_no_set_was_hit() -> None:
    assert sets_hit(Record().open("Own").now) == ((), None)


def test_a_plan_in_order_leaves_nothing_to_the_evidence() -> None:
    record = Record().open("Own", "Ash", "Birch")
    sets = (("Ash", 2), ("Birch", 2), ("Ash", 1), ("Birch", 2))
    record.add(Planned(plan=PlanCard(sets=sets, in_order=True)))
    for club, balls in sets:
        found = next_set(record.now, CAP)
        assert (found.step, found.club, found.balls) == (Step.HAND_OVER, club, balls)
        record.add(HandedOver(club=club))
        found = next_set(record.now, CAP)
        assert (found.step, found.club, found.balls) == (Step.STAY, club, balls)
        record.balls(balls)
    assert next_set(record.now, CAP).step is Step.DONE


def test_in_order_a_club_that_was_taken_before_its_turn_is_handed_back() -> None:
    record = Record().open("Own", "Ash", "Birch")
    sets = (("Ash", 2), ("Birch", 2))
    record.add(Planned(plan=PlanCard(sets=sets, in_order=True)))
    record.add(HandedOver(club="Birch"))
    found = next_set(record.now, CAP)
    assert (found.step, found.club) == (Step.HAND_OVER, "Ash")

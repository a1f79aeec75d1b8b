"""Acts are checked against what stands, written once and together, and told to those who watch."""

import asyncio

import pytest

from bays import Bay, a_bay, drive
from loftwright.bay.replay import replay
from loftwright.constants import MILLIMETRE
from loftwright.domain.acts import (
    Act,
    Closed,
    ClubDropped,
    Felt,
    HandedOver,
    Marked,
    MarksShifted,
    NotOurs,
    OddBall,
    RunMoved,
    ShotArrived,
    Vetoed,
)
from loftwright.domain.fitting import Mark
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.acting import act, topic, undo


@pytest.fixture
def bay() -> Bay:
    made = a_bay()
    made.balls(3)
    return made


def ball_in(bay: Bay) -> ShotArrived:
    return ShotArrived(numbers=drive(bay.rng, "Own"))


def test_a_closed_fitting_takes_corrections_but_no_balls(bay: Bay) -> None:
    first = bay.now.swings[0].sequence
    bay.do(Closed())
    before = bay.studio.record(bay.fitting)
    with pytest.raises(ConflictError, match="closed") as told:
        act(bay.studio, bay.fitting, [ball_in(bay)])
    assert told.value.place == bay.fitting
    assert told.value.mend
    assert bay.studio.record(bay.fitting) == before
    assert act(bay.studio, bay.fitting, [NotOurs(ball=first)]).swings[0].not_ours


def test_an_opened_again_fitting_takes_balls(bay: Bay) -> None:
    bay.do(Closed())
    undo(bay.studio, bay.fitting, bay.now.upto, seen=None)
    assert len(act(bay.studio, bay.fitting, [ball_in(bay)]).swings) == 4


@pytest.mark.parametrize(
    "wrong",
    [
        HandedOver(club="Oak"),
        Felt(club="Oak", place=0.5),
        Vetoed(club="Oak"),
        ClubDropped(club="Oak"),
        NotOurs(ball=999),
        OddBall(ball=1),
        Marked(mark=Mark(toe=0.0, high=0.0), ball=999),
        MarksShifted(first=999, by=1),
        RunMoved(first=1, last=999, club="Ash"),
    ],
    ids=lambda one: type(one).__name__,
)
def test_what_the_record_does_not_hold_is_refused_before_anything_is_written(
    bay: Bay, wrong: Act
) -> None:
    before = bay.studio.store.record(bay.fitting)
    with pytest.raises(InputError) as told:
        act(bay.studio, bay.fitting, [Felt(club="Ash", place=1.0), wrong])
    assert told.value.place
    assert told.value.mend
    assert bay.studio.store.record(bay.fitting) == before


def test_a_fitting_nobody_knows_takes_no_acts(bay: Bay) -> None:
    with pytest.raises(NotFoundError):
        act(bay.studio, "nothing", [HandedOver(club="Own")])


def test_what_another_screen_changed_in_the_meantime_is_not_changed_over(bay: Bay) -> None:
    seen, ball = bay.now.upto, bay.now.swings[1].sequence
    act(bay.studio, bay.fitting, [OddBall(ball=ball)], by="tablet")
    before = bay.studio.record(bay.fitting)
    with pytest.raises(ConflictError, match=f"tablet changed ball {ball}") as told:
        act(bay.studio, bay.fitting, [NotOurs(ball=ball)], by="laptop", seen=seen)
    assert told.value.mend
    assert bay.studio.record(bay.fitting) == before


def test_what_the_page_showed_already_is_no_conflict(bay: Bay) -> None:
    ball = bay.now.swings[1].sequence
    act(bay.studio, bay.fitting, [OddBall(ball=ball)], by="tablet")
    seen = bay.now.upto
    now = act(bay.studio, bay.fitting, [NotOurs(ball=ball)], by="laptop", seen=seen)
    assert now.swings[1].not_ours


def test_own_acts_and_acts_on_something_else_are_no_conflict(bay: Bay) -> None:
    seen = bay.now.upto
    first, second, third = (one.sequence for one in bay.now.swings)
    act(bay.studio, bay.fitting, [OddBall(ball=first)], by="tablet", seen=seen)
    act(bay.studio, bay.fitting, [OddBall(ball=second)], by="laptop", seen=seen)
    act(bay.studio, bay.fitting, [NotOurs(ball=first)], by="tablet", seen=seen)
    act(bay.studio, bay.fitting, [ball_in(bay)], by="meter")
    now = act(bay.studio, bay.fitting, [OddBall(ball=third)], by="laptop", seen=seen)
    assert [one.odd for one in now.swings] == [True, True, True, False]
    assert [one.not_ours for one in now.swings] == [True, False, False, False]


def test_two_screens_do_not_undo_the_same_act_unawares(bay: Bay) -> None:
    bay.do(Vetoed(club="Ash"))
    veto = seen = bay.now.upto
    undo(bay.studio, bay.fitting, veto, by="tablet", seen=seen)
    with pytest.raises(ConflictError, match="tablet"):
        undo(bay.studio, bay.fitting, veto, by="laptop", seen=seen)
    ash = bay.now.club("Ash")
    assert ash is not None
    assert ash.out == ""


def test_the_same_key_writes_once_and_is_answered_with_what_stands(bay: Bay) -> None:
    seen, ball = bay.now.upto, bay.now.swings[0].sequence
    wanted = [NotOurs(ball=ball)]
    first = act(bay.studio, bay.fitting, wanted, by="tablet", key="k", seen=seen)
    act(bay.studio, bay.fitting, [OddBall(ball=ball)], by="laptop")
    before = bay.studio.record(bay.fitting)
    again = act(bay.studio, bay.fitting, wanted, by="tablet", key="k", seen=seen)
    assert bay.studio.record(bay.fitting) == before
    assert (first.upto, again.upto) == (seen + 1, seen + 2)
    assert again.swings[0].odd


def test_acts_without_a_key_are_each_written(bay: Bay) -> None:
    before = bay.now.upto
    for _ in range(2):
        act(bay.studio, bay.fitting, [Felt(club="Ash", place=0.5)])
    assert bay.now.upto == before + 2


def test_acts_written_together_are_undone_together(bay: Bay) -> None:
    bay.do(Vetoed(club="Ash"), Vetoed(club="Birch"))
    veto = bay.now.upto
    undo(bay.studio, bay.fitting, veto, seen=None)
    assert [club.out for club in bay.now.clubs] == [""] * 4
    undo(bay.studio, bay.fitting, bay.now.upto, seen=None)
    assert [bool(club.out) for club in bay.now.clubs] == [False, True, True, False]


def test_a_ball_cannot_be_undone(bay: Bay) -> None:
    before = bay.studio.record(bay.fitting)
    for sequence in (bay.now.swings[0].sequence, 999, 0):
        with pytest.raises(InputError, match="no act that can be undone"):
            undo(bay.studio, bay.fitting, sequence, seen=None)
    assert bay.studio.record(bay.fitting) == before


def test_acts_that_name_their_own_entries_are_refused_where_others_came_between(bay: Bay) -> None:
    end = bay.now.upto
    act(bay.studio, bay.fitting, [ball_in(bay)], by="meter")
    before = bay.studio.record(bay.fitting)
    mark = Marked(mark=Mark(toe=5.0 * MILLIMETRE, high=0.0), ball=end + 1)
    with pytest.raises(ConflictError, match="in the meantime"):
        act(bay.studio, bay.fitting, [ball_in(bay), mark], at_end=end)
    assert bay.studio.record(bay.fitting) == before
    end = bay.now.upto
    now = act(
        bay.studio,
        bay.fitting,
        [ball_in(bay), Marked(mark=mark.mark, ball=end + 1)],
        at_end=end,
    )
    assert now.swings[-1].mark == mark.mark


def test_those_who_watch_are_told_once_and_only_of_what_was_written(bay: Bay) -> None:
    async def watched() -> list[int | None]:
        told = []
        with bay.studio.hub.subscribe(topic(bay.fitting)) as watch:
            wanted = [Felt(club="Ash", place=0.5)]
            act(bay.studio, bay.fitting, wanted, key="k")
            told.append(await watch.next(1.0))
            act(bay.studio, bay.fitting, wanted, key="k")
            told.append(await watch.next(0.05))
            with pytest.raises(InputError):
                act(bay.studio, bay.fitting, [HandedOver(club="Oak")])
            told.append(await watch.next(0.05))
        return told

    before = bay.now.upto
    assert asyncio.run(watched()) == [before + 1, None, None]


def test_what_was_tried_before_it_was_written_is_what_a_replay_gives(bay: Bay) -> None:
    stood = act(bay.studio, bay.fitting, [ball_in(bay)], by="a feed", key="7")
    record = bay.studio.store.record(bay.fitting)
    assert bay.studio.record(bay.fitting) == record
    assert bay.studio.standing(bay.fitting) is stood
    assert stood == replay(record)


def test_what_another_program_wrote_meanwhile_is_seen(bay: Bay) -> None:
    stood = bay.now
    bay.studio.store.append(bay.fitting, [Closed()], at=bay.studio.now(), by="another program")
    assert bay.studio.standing(bay.fitting).closed
    assert bay.studio.standing(bay.fitting).upto == stood.upto + 1

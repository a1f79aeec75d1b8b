"""Shots and corrections become what stands now, and a repaired record what a clean one gives."""

import pytest

from loftwright.domain.acts import (
    Act,
    Closed,
    Felt,
    HandedOver,
    MarkDropped,
    MarksJoined,
    MarksShifted,
    NotOurs,
    NotRead,
    OddBall,
    PainSaid,
    Rested,
    RunMoved,
    RunSet,
    SetMarked,
    SettingSeen,
    Undone,
    Vetoed,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.fitting import DeviceCard
from loftwright.errors import InputError
from records import Record, mark, numbers, played, toes


def test_a_ball_belongs_to_the_club_in_hand() -> None:
    record = Record().open("Own", "Ash")
    record.ball()
    record.add(HandedOver(club="Ash"))
    record.ball()
    assert [one.club for one in record.now.balls] == ["Own", "Ash"]


def test_a_tap_joins_the_newest_ball_without_a_mark() -> None:
    record = Record().open("Own")
    record.ball()
    record.tap(5.0, 2.0)
    assert toes(record.now) == [5.0]
    assert record.now.waiting == ()


def test_a_second_tap_waits_in_the_tray_and_does_not_replace_the_first() -> None:
    record = Record().open("Own")
    record.ball()
    record.tap(5.0, 2.0)
    waiting = record.tap(-4.0, 1.0)
    assert toes(record.now) == [5.0]
    assert [one.sequence for one in record.now.waiting] == [waiting]


def test_a_mark_read_moments_before_a_slow_device_joins_its_ball() -> None:
    record = Record().open("Own")
    record.tap(5.0, 2.0)
    record.ball(wait=4.0)
    assert toes(record.now) == [5.0]


def test_a_mark_that_waited_long_is_not_given_to_the_next_ball() -> None:
    record = Record().open("Own")
    record.tap(5.0, 2.0)
    record.ball(wait=30.0)
    assert toes(record.now) == [None]
    assert len(record.now.waiting) == 1


def test_a_ball_that_was_not_read_takes_the_mark_that_waits_longest() -> None:
    record = Record().open("Own")
    record.ball()
    record.tap(1.0, 0.0)
    record.tap(8.0, 0.0)
    record.add(NotRead())
    assert toes(record.now) == [1.0, 8.0]
    assert record.now.waiting == ()
    assert [one.number for one in record.now.balls] == [1, 2]


def test_marks_join_the_balls_that_the_fitter_names() -> None:
    record = Record().open("Own")
    balls = record.balls(3)
    record.tap(1.0, 0.0)
    marks = [record.tap(2.0, 0.0), record.tap(3.0, 0.0)]
    record.add(MarksJoined(marks=tuple(marks), balls=(balls[0], balls[1])))
    assert toes(record.now) == [2.0, 3.0, 1.0]


def test_a_dropped_read_noticed_late_is_mended_to_the_record_without_the_fault() -> None:
    clean, faulty = Record().open("Own"), Record().open("Own")
    read = []
    for place in range(1, 21):
        if place == 8:
            clean.add(NotRead(), wait=30.0)
        else:
            clean.ball(150.0 + place)
            read.append(faulty.ball(150.0 + place))
        clean.tap(float(place), 0.0)
        faulty.tap(float(place), 0.0)
    (waiting,) = faulty.now.waiting
    unread = faulty.add(NotRead(after=read[6]))
    faulty.add(MarksJoined(marks=(waiting.sequence,), balls=(unread,)))
    assert played(faulty.now) == played(clean.now)


def test_marks_that_slid_by_one_slide_back_in_one_act_with_the_ball_that_was_not_read() -> None:
    """The tap for the unread ball 3 joined ball 4, and every later tap the ball after its own."""
    clean, faulty = Record().open("Own"), Record().open("Own")
    for place in range(1, 7):
        if place == 3:
            clean.add(NotRead(), wait=30.0)
        else:
            clean.ball(150.0 + place)
        clean.tap(float(place), 0.0)
    balls = []
    for place in range(1, 7):
        if place != 3:
            balls.append(faulty.ball(150.0 + place))
            faulty.tap(float(place if place < 3 else place - 1), 0.0)
    faulty.tap(6.0, 0.0)
    faulty.add(NotRead(after=balls[1]), MarksShifted(first=balls[2], by=-1))
    (last,) = faulty.now.waiting
    faulty.add(MarksJoined(marks=(last.sequence,), balls=(balls[-1],)))
    assert played(faulty.now) == played(clean.now)


def test_marks_move_to_the_next_ball_and_the_last_one_waits() -> None:
    record = Record().open("Own")
    balls = []
    for place in range(1, 5):
        balls.append(record.ball())
        record.tap(float(place), 0.0)
    record.add(MarksShifted(first=balls[1], by=1))
    assert toes(record.now) == [1.0, None, 2.0, 3.0]
    assert [round(1000 * one.mark.toe) for one in record.now.waiting] == [4]


def test_marks_moved_back_push_the_mark_in_their_way_into_the_tray() -> None:
    record = Record().open("Own")
    balls = []
    for place in range(1, 5):
        balls.append(record.ball())
        record.tap(float(place), 0.0)
    record.add(MarksShifted(first=balls[1], by=-1))
    assert toes(record.now) == [2.0, 3.0, 4.0, None]
    assert [round(1000 * one.mark.toe) for one in record.now.waiting] == [1]


def test_a_waiting_mark_can_be_dropped() -> None:
    record = Record().open("Own")
    waiting = record.tap(1.0, 0.0)
    record.add(MarkDropped(mark=waiting))
    assert record.now.waiting == ()


def test_a_ghost_is_set_aside_and_gives_its_number_back() -> None:
    record = Record().open("Own")
    balls = record.balls(3)
    record.add(NotOurs(ball=balls[1]))
    now = record.now
    assert [one.number for one in now.swings] == [1, 0, 2]
    assert [one.order for one in now.balls] == [0, 1]
    record.add(Undone(act=record.entries[-1].sequence))
    assert [one.number for one in record.now.swings] == [1, 2, 3]


def test_a_run_moved_to_another_club_stands_as_if_it_had_been_hit_with_it() -> None:
    clean, faulty = Record().open("Own", "Ash"), Record().open("Own", "Ash")
    for record in (clean, faulty):
        record.balls(2)
    clean.add(HandedOver(club="Ash"))
    clean.balls(4)
    run = faulty.balls(4)
    faulty.add(HandedOver(club="Ash"))
    faulty.add(RunMoved(first=run[0], last=run[-1], club="Ash"))
    assert played(faulty.now) == played(clean.now)


def test_a_run_with_another_setting_is_corrected_as_a_run() -> None:
    clean, faulty = Record().open("Own"), Record().open("Own")
    clean.add(SettingSeen(setting="one weak"))
    clean.balls(6)
    run = faulty.balls(6)
    faulty.add(RunSet(first=run[0], last=run[-1], setting="one weak"))
    assert played(faulty.now) == played(clean.now)


def test_the_first_look_at_a_sleeve_counts_for_the_balls_since_the_hand_over() -> None:
    record = Record().open("Own")
    record.balls(2)
    record.add(SettingSeen(setting="one weak"))
    record.ball()
    record.add(SettingSeen(setting="middle"))
    record.ball()
    settings = [one.setting for one in record.now.balls]
    assert settings == ["one weak", "one weak", "one weak", "middle"]


def test_balls_typed_in_later_stand_in_their_true_order() -> None:
    record = Record().open("Own")
    first, last = record.ball(150.0), record.ball(153.0)
    record.ball(151.0, after=first)
    record.ball(152.0, after=first)
    told = [one.numbers for one in record.now.balls]
    assert told == [numbers(speed) for speed in (150.0, 151.0, 152.0, 153.0)]
    assert record.now.balls[-1].sequence == last


def test_a_set_of_unknown_order_shares_its_name() -> None:
    record = Record().open("Own")
    balls = record.balls(3)
    record.add(SetMarked(balls=tuple(balls), marks=(mark(1, 0), mark(2, 0), mark(3, 0))))
    assert len({one.mark_set for one in record.now.balls}) == 1
    assert record.now.balls[0].mark_set is not None
    with pytest.raises(InputError, match="2 marks for 1 balls"):
        SetMarked(balls=(1,), marks=(mark(1, 0), mark(2, 0)))


def test_warm_up_balls_are_kept_and_count_as_swings_but_not_as_balls() -> None:
    record = Record().open("Own", warm_up=True)
    record.balls(4)
    record.add(WarmUpDone(unseen=5))
    record.ball()
    now = record.now
    assert [one.number for one in now.swings] == [0, 0, 0, 0, 1]
    assert now.balls[0].order == 9
    assert now.swings_today == 10


def test_a_new_visit_starts_its_own_order_and_puts_the_club_down() -> None:
    record = Record().open("Own")
    record.balls(3)
    record.add(
        VisitOpened(
            day=record.clock.date(), bay="Bay 2", device=DeviceCard(name="m"), warm_up=False
        )
    )
    assert record.now.in_hand is None
    record.add(HandedOver(club="Own"))
    record.ball()
    assert [(one.visit, one.order) for one in record.now.balls][-1] == (1, 0)
    assert record.now.balls[-1].number == 4


def test_veto_feel_rest_pain_and_closing_stand_until_undone() -> None:
    record = Record().open("Own", "Ash")
    for act in (
        Felt(club="Ash", place=0.8, word="solid"),
        Vetoed(club="Ash"),
        Rested(),
        PainSaid(),
        Closed(),
    ):
        record.add(act)
    now = record.now
    ash = now.club("Ash")
    assert ash is not None
    assert (ash.feel, ash.word, ash.out) == (0.8, "solid", "would not play it")
    assert now.pain
    assert now.closed
    for _ in range(5):
        last = record.now.undoable
        assert last is not None
        record.add(Undone(act=last.sequence))
    now = record.now
    ash = now.club("Ash")
    assert ash is not None
    assert (ash.feel, ash.out, now.pain, now.closed) == (None, "", False, False)


def test_undoing_an_undo_does_the_act_again() -> None:
    record = Record().open("Own")
    ball = record.ball()
    record.add(OddBall(ball=ball))
    record.add(Undone(act=record.entries[-1].sequence))
    assert not record.now.balls[0].odd
    again = record.now.repeatable
    assert again is not None
    assert again.kind == "OddBall"
    record.add(Undone(act=again.sequence))
    assert record.now.balls[0].odd


def test_acts_written_together_are_undone_together() -> None:
    record = Record().open("Own")
    balls = []
    for place in range(1, 4):
        balls.append(record.ball())
        record.tap(float(place), 0.0)
    before = played(record.now)
    record.add(NotRead(after=balls[0]), MarksShifted(first=balls[1], by=-1))
    last = record.now.undoable
    assert last is not None
    record.add(Undone(act=last.sequence))
    assert played(record.now) == before


def test_a_hand_over_is_not_offered_for_undo_once_a_ball_was_hit() -> None:
    record = Record().open("Own", "Ash")
    record.add(HandedOver(club="Ash"))
    undoable = record.now.undoable
    assert undoable is not None
    assert undoable.kind == "HandedOver"
    record.ball()
    assert record.now.undoable is None


@pytest.mark.parametrize(
    ("act", "said"),
    [
        (HandedOver(club="Yew"), "no club 'Yew'"),
        (NotOurs(ball=99), "no ball 99"),
        (MarkDropped(mark=99), "no mark 99 is waiting"),
    ],
)
def test_an_act_that_names_nothing_is_refused(act: Act, said: str) -> None:
    record = Record().open("Own")
    record.add(act)
    with pytest.raises(InputError, match=said):
        _ = record.now

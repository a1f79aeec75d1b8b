"""A ball that was not read is put where it was hit, and every mark finds its ball."""

import pytest

from loftwright.bay.mends import dropped_before, joinable, mirrored, not_read
from loftwright.domain.acts import (
    MarksJoined,
    MarksShifted,
    NotOurs,
    NotRead,
    SetMarked,
    Undone,
)
from loftwright.errors import InputError
from records import Record, mark, played, toes


def test_a_ball_not_read_noticed_at_once_takes_the_waiting_mark() -> None:
    record = Record().open("Own")
    record.ball()
    record.tap(1, 1)
    record.tap(2, 2)
    assert not_read(record.now, len(record.entries) + 1) == (NotRead(),)
    record.add(*not_read(record.now, len(record.entries) + 1))
    assert toes(record.now) == [1, 2]


def test_a_ball_not_read_noticed_late_stands_where_its_mark_was_tapped() -> None:
    record, clean = Record().open("Own"), Record().open("Own")
    for one in (record, clean):
        one.ball(150)
        one.tap(1, 1)
        one.clock = one.clock.replace(microsecond=0)
    clean.add(NotRead(), wait=30)
    clean.tap(2, 2)
    record.tap(2, 2, wait=35)
    for one in (record, clean):
        one.ball(152)
        one.tap(3, 3)
        one.ball(153)
    assert [mark.sequence for mark in record.now.waiting] != []
    record.add(*not_read(record.now, len(record.entries) + 1))
    assert toes(record.now) == [1, 2, 3, None]
    assert played(record.now) == played(clean.now)


def test_shifted_marks_go_back_and_the_last_ball_finds_the_waiting_one() -> None:
    record = Record().open("Own")
    first = record.ball(150)
    record.tap(1, 1)
    second = record.ball(152)
    record.tap(2, 2)  # of the ball that was not read, which was hit after the first
    third = record.ball(153)
    record.tap(3, 3)  # of the second
    record.tap(4, 4)  # of the third
    record.add(*dropped_before(record.now, second))
    told = [one.sequence for one in record.now.swings]
    assert (told[0], told[2:]) == (first, [second, third])
    assert toes(record.now) == [1, 2, 3, 4]
    assert record.now.waiting == ()


@pytest.mark.parametrize("by", [1, -1])
def test_marks_are_not_moved_from_a_ball_that_is_not_the_golfers(by: int) -> None:
    record = Record().open("Own")
    ball = record.ball(150)
    record.add(NotOurs(ball=ball), MarksShifted(first=ball, by=by))
    with pytest.raises(InputError, match="not the golfer’s"):
        _ = record.now


def test_nothing_was_dropped_before_the_first_ball_of_a_visit() -> None:
    record = Record().open("Own")
    first = record.ball()
    with pytest.raises(InputError, match="no ball of this visit"):
        dropped_before(record.now, first)


def test_waiting_marks_are_offered_the_newest_bare_balls() -> None:
    record = Record().open("Own")
    record.balls(3)
    record.tap(3, 0)
    assert joinable(record.now) == ()
    record.tap(1, 0)
    record.tap(2, 0)
    offered = joinable(record.now)
    assert [one.number for one in offered] == [1, 2]
    record.add(
        MarksJoined(
            marks=tuple(one.sequence for one in record.now.waiting),
            balls=tuple(one.sequence for one in offered),
        )
    )
    assert toes(record.now) == [1, 2, 3]


def test_marks_read_mirrored_come_out_as_read_rightly_to_the_last_digit() -> None:
    clean, faulty = Record().open("Own"), Record().open("Own")
    for place, toe in enumerate((7.3, 0.0, -4.1, 11.7)):
        for one, side in ((clean, 1.0), (faulty, 1.0 if place == 0 else -1.0)):
            one.ball(150.0 + place)
            one.tap(side * toe, 2.9)
    second = faulty.now.balls[1].sequence
    turned = faulty.add(*mirrored(faulty.now, second))
    assert played(faulty.now) == played(clean.now)
    faulty.add(Undone(act=turned))
    assert toes(faulty.now) == [7.3, 0.0, 4.1, -11.7]


def test_a_set_of_unknown_order_is_mirrored_whole_and_height_stays() -> None:
    record = Record().open("Own")
    balls = [record.ball(150.0 + place) for place in range(3)]
    record.add(SetMarked(balls=tuple(balls), marks=(mark(5.0, 1.0), mark(-3.0, 6.0))))
    record.add(*mirrored(record.now, balls[1], balls[1]))
    told = [one.mark for one in record.now.balls]
    assert told == [mark(-5.0, 1.0), mark(3.0, 6.0), None]
    assert len({one.mark_set for one in record.now.balls}) == 1


def test_a_run_without_marks_has_nothing_to_mirror() -> None:
    record = Record().open("Own")
    first = record.ball()
    with pytest.raises(InputError, match="no ball of that run"):
        mirrored(record.now, first)

"""Two screens do not correct the same thing unawares."""

import pytest

from loftwright.bay.targets import targets_of, touched_since
from loftwright.domain import acts
from loftwright.domain.acts import Act, Felt, HandedOver, Marked, NotOurs, ShotArrived
from records import Record, mark, numbers


def test_another_screens_act_on_the_same_ball_is_found() -> None:
    record = Record().open("Own")
    ball = record.ball()
    seen = len(record.entries)
    record.add(NotOurs(ball=ball), by="tablet")
    found = touched_since(record.entries, seen, [NotOurs(ball=ball)], "laptop")
    assert found is not None
    assert found[0].by == "tablet"
    assert found[1] == ("ball", ball)


def test_ones_own_acts_and_acts_on_other_things_do_not_conflict() -> None:
    record = Record().open("Own", "Ash")
    ball = record.ball()
    seen = len(record.entries)
    record.add(NotOurs(ball=ball), by="tablet")
    record.add(Felt(club="Ash", place=0.5), by="laptop")
    assert touched_since(record.entries, seen, [NotOurs(ball=ball)], "tablet") is None
    assert touched_since(record.entries, seen, [Felt(club="Own", place=1.0)], "tablet") is None
    assert touched_since(record.entries, seen + 1, [NotOurs(ball=ball)], "laptop") is None


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (HandedOver(club="Ash"), acts.SettingSeen(setting="middle"), True),
        (Marked(mark=mark(1, 0), ball=3), acts.NoMark(ball=3), True),
        (Marked(mark=mark(1, 0), ball=3), Marked(mark=mark(1, 0)), False),
        (acts.SetMarked(balls=(3, 4), marks=(mark(1, 0),)), acts.NoMark(ball=4), True),
        (acts.MarksJoined(marks=(9,), balls=(3,)), acts.MarkDropped(mark=9), True),
        (acts.MarksShifted(first=2, by=1), acts.MarksShifted(first=5, by=-1), True),
        (acts.RunMoved(first=2, last=4, club="Ash"), acts.NotOurs(ball=4), True),
        (acts.RunSet(first=2, last=4, setting="x"), acts.OddBall(ball=3), False),
        (acts.Vetoed(club="Ash"), Felt(club="Ash", place=0.1), True),
        (acts.Undone(act=7), acts.Undone(act=7), True),
        (acts.Rested(), acts.Rested(), False),
    ],
)
def test_acts_share_a_target_when_they_change_the_same_thing(
    one: Act, other: Act, same: bool
) -> None:
    assert bool(targets_of(one) & targets_of(other)) is same


def test_an_arriving_ball_never_conflicts() -> None:
    ball = ShotArrived(numbers=numbers())
    assert targets_of(ball) == frozenset()

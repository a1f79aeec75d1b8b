"""What an act touches, so that two screens do not correct the same thing unawares."""

from collections.abc import Callable, Sequence
from typing import Any, Final, TypeAlias

from loftwright.domain import acts
from loftwright.domain.acts import Act, Entry

Target: TypeAlias = tuple[str, int | str]


def targets_of(act: Act) -> frozenset[Target]:
    """Return the balls, marks, clubs and states that an act touches; none for a new ball."""
    touched = _TOUCHED.get(type(act))
    return frozenset() if touched is None else frozenset(touched(act))


def _ball(act: acts.NotOurs | acts.OddBall) -> list[Target]:
    return [("ball", act.ball)]


def _mark_of_ball(act: acts.Marked | acts.NoMark) -> list[Target]:
    return [] if act.ball is None else [("mark of ball", act.ball)]


def _marks_of_balls(act: acts.SetMarked) -> list[Target]:
    return [("mark of ball", ball) for ball in act.balls]


def _joined(act: acts.MarksJoined) -> list[Target]:
    waiting: list[Target] = [("waiting mark", mark) for mark in act.marks]
    return waiting + [("mark of ball", ball) for ball in act.balls]


def _run(act: acts.RunMoved | acts.RunSet) -> list[Target]:
    return [("ball", act.first), ("ball", act.last)]


def _club(act: acts.Felt | acts.Vetoed | acts.ClubDropped) -> list[Target]:
    return [("club", act.club)]


_TOUCHED: Final[dict[type, Callable[[Any], list[Target]]]] = {
    acts.NotOurs: _ball,
    acts.OddBall: _ball,
    acts.Marked: _mark_of_ball,
    acts.NoMark: _mark_of_ball,
    acts.SetMarked: _marks_of_balls,
    acts.MarksJoined: _joined,
    acts.MarkDropped: lambda act: [("waiting mark", act.mark)],
    acts.MarksShifted: lambda _: [("order of", "marks")],
    acts.RunMoved: _run,
    acts.RunSet: _run,
    acts.Felt: _club,
    acts.Vetoed: _club,
    acts.ClubDropped: _club,
    acts.HandedOver: lambda _: [("club in", "hand")],
    acts.SettingSeen: lambda _: [("club in", "hand")],
    acts.Planned: lambda _: [("the", "plan")],
    acts.Undone: lambda act: [("act", act.act)],
}


def touched_since(
    record: Sequence[Entry], seen: int, wanted: Sequence[Act], by: str
) -> tuple[Entry, Target] | None:
    """Return an entry of somebody else that touched the same thing after a page was drawn.

    Parameters
    ----------
    record : sequence of Entry
    seen : int
        Sequence of the last entry that the page showed.
    wanted : sequence of Act
        What the page asks for.
    by : str
        Who asks; one's own acts are known.
    """
    targets = frozenset().union(*(targets_of(act) for act in wanted))
    for entry in record:
        if entry.sequence > seen and entry.by != by:
            common = targets & targets_of(entry.act)
            if common:
                return entry, min(common, key=str)
    return None

"""What an act touches, so that two screens do not correct the same thing unawares."""

from collections.abc import Sequence
from typing import TypeAlias

from loftwright.domain import acts
from loftwright.domain.acts import Act, Entry

Target: TypeAlias = tuple[str, int | str]


def targets_of(act: Act) -> frozenset[Target]:
    """Return the balls, marks, clubs and states that an act touches."""
    match act:
        case acts.Marked(ball=None) | acts.ShotArrived() | acts.NotRead():
            return frozenset()
        case acts.Marked(ball=ball) | acts.NoMark(ball=ball):
            return frozenset({("mark of ball", ball or 0)})
        case acts.NotOurs(ball=ball) | acts.OddBall(ball=ball):
            return frozenset({("ball", ball)})
        case acts.SetMarked(balls=balls):
            return frozenset(("mark of ball", ball) for ball in balls)
        case acts.MarksJoined(marks=marks, balls=balls):
            waiting = [("waiting mark", mark) for mark in marks]
            return frozenset([*waiting, *(("mark of ball", ball) for ball in balls)])
        case acts.MarkDropped(mark=mark):
            return frozenset({("waiting mark", mark)})
        case acts.MarksShifted():
            return frozenset({("order of", "marks")})
        case acts.RunMoved(first=first, last=last) | acts.RunSet(first=first, last=last):
            return frozenset({("ball", first), ("ball", last)})
        case acts.Felt(club=club) | acts.Vetoed(club=club) | acts.ClubDropped(club=club):
            return frozenset({("club", club)})
        case acts.HandedOver() | acts.SettingSeen():
            return frozenset({("club in", "hand")})
        case acts.Planned():
            return frozenset({("the", "plan")})
        case acts.Undone(act=undone):
            return frozenset({("act", undone)})
        case _:
            return frozenset()


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

"""After the call: what was true of a case, what the call cost, and which balls decided it."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from typing import Final

import numpy as np

from loftwright.domain.home import Home
from loftwright.domain.names import OWN
from loftwright.errors import InputError
from loftwright.evidence.decide import NEAR_BEST
from loftwright.evidence.result import Estimate, State
from loftwright.evidence.strokes import STROKES_PER_METRE
from loftwright.evidence.value import DRIVES_PER_ROUND, with_holes
from loftwright.training.case import Case, CasePlayer
from loftwright.training.truth import TrueFigures, true_figures, true_values

TOO_CLOSE: Final = "too close"
"""The call that nothing beats the own club; the golfer keeps it."""

MOST_MOMENTS: Final = 3
LEAST_MOVE: Final = 0.05
"""A set that moved less of the chance to be best is no moment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueClub:
    """What one club truly does, as this golfer swings it once warm.

    Attributes
    ----------
    club : str
        As the fitting calls it.
    shaft : str
    value, carry, total : float
        Against the own club: expected score as a length, carry and total [m].
    offline : float
        Where drives finish on average, right positive [m].
    does : tuple of 7 floats
        What the club does to the swing against the own one, in swing columns.
    """

    club: str
    shaft: str
    value: float
    carry: float
    total: float
    offline: float
    does: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot:
    """What stood after a set of balls.

    Attributes
    ----------
    first, last : int
        Numbers of the set's balls.
    club : str
        With which it was hit.
    state : State
    pick : str, optional
        The leader of the comparison; None while there is none.
    chances : dict of str to float
        That a club is the best.
    plain : dict of str to float
        Plain mean of each club's totals [m].
    said : dict of str to Estimate
        Each club's value against the own one, or the mean of the clubs where that was not hit.
    against_own : bool
    """

    first: int
    last: int
    club: str
    state: State
    pick: str | None
    chances: dict[str, float] = field(default_factory=dict)
    plain: dict[str, float] = field(default_factory=dict)
    said: dict[str, Estimate] = field(default_factory=dict)
    against_own: bool = True

    @property
    def plain_pick(self) -> str | None:
        """The club of the longest plain average."""
        return max(self.plain, key=self.plain.__getitem__) if self.plain else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Without:
    """What would stand without the balls of one thing that went wrong.

    Attributes
    ----------
    club : str
    balls : tuple of int
        Their numbers.
    toe, high : float
        By how much their strike was moved [m].
    pick, plain_pick : str, optional
        Of the same fitting without these balls.
    """

    club: str
    balls: tuple[int, ...]
    toe: float
    high: float
    pick: str | None
    plain_pick: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A set that moved the comparison.

    Attributes
    ----------
    snapshot : Snapshot
        As it stood after the set.
    before : Snapshot
    moved : float
        How much of the chance to be best changed hands, from 0 to 1.
    club : str
        The club whose own chance changed most.
    """

    snapshot: Snapshot
    before: Snapshot
    moved: float
    club: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Debrief:
    """A played case, whole.

    Attributes
    ----------
    call : str
        A club, or `too close`.
    kept : str
        The club that the golfer goes home with by the call.
    best : str
    alike : tuple of str
        Clubs within one yard of the best, itself among them.
    cost, plain_cost, tool_cost : float
        What the call, the longest plain average and the leader of the comparison give up [m];
        the last two are None where there was none.
    clubs : tuple of TrueClub
        The best first.
    end : Snapshot, optional
        What stood at the call; None without a ball.
    snapshots : tuple of Snapshot
    moments : tuple of Moment
        In order of play.
    without : tuple of Without
    """

    call: str
    kept: str
    best: str
    alike: tuple[str, ...]
    cost: float
    plain_cost: float | None
    tool_cost: float | None
    clubs: tuple[TrueClub, ...]
    end: Snapshot | None
    snapshots: tuple[Snapshot, ...]
    moments: tuple[Moment, ...]
    without: tuple[Without, ...]

    @property
    def balls(self) -> int:
        """Balls that were spent."""
        return self.end.last if self.end else 0


def strokes_a_round(length: float) -> float:
    """Return what a length of value comes to in fourteen drives.

    Parameters
    ----------
    length : float
        [m]
    """
    return DRIVES_PER_ROUND * length * STROKES_PER_METRE


def true_clubs(player: CasePlayer, home: Home) -> tuple[TrueClub, ...]:
    """Return what the clubs of a case truly do, the best first.

    Parameters
    ----------
    player : CasePlayer
        Names the clubs; its balls do not matter.
    home : Home

    Notes
    -----
    By the same even swings with every club, the golfer warm, nothing going wrong, and the value
    by one shared pattern as a decision's is. A home without holes gets the standard hole.
    """
    figures = _figures(player.case, home)
    own = 0
    worth = true_values(figures, with_holes(home, float(figures.total[own])))
    does = np.array([club.does for club in player.case.clubs])
    found = [
        TrueClub(
            club=name,
            shaft=player.case.clubs[place].shaft,
            value=float(worth[place] - worth[own]),
            carry=float(figures.carry[place] - figures.carry[own]),
            total=float(figures.total[place] - figures.total[own]),
            offline=float(figures.offline[place]),
            does=tuple((does[place] - does[own]).tolist()),
        )
        for name, place in player.places.items()
    ]
    return tuple(sorted(found, key=lambda one: -one.value))


@lru_cache(maxsize=16)
def _figures(case: Case, home: Home) -> TrueFigures:
    return true_figures(case.virtual_golfer(), np.array([one.does for one in case.clubs]), home)


def debrief(
    clubs: Sequence[TrueClub],
    call: str,
    snapshots: Sequence[Snapshot],
    without: Sequence[Without] = (),
) -> Debrief:
    """Return what a call came to.

    Parameters
    ----------
    clubs : sequence of TrueClub
        The best first.
    call : str
        A club, or `too close`: then the golfer keeps the own one.
    snapshots : sequence of Snapshot
        After each set, in order of play.
    without : sequence of Without, optional

    Returns
    -------
    Debrief

    Raises
    ------
    InputError
        If a club was called that the case has not.
    """
    worth = {one.club: one.value for one in clubs}
    kept = OWN if call == TOO_CLOSE else call
    if kept not in worth:
        raise InputError(
            f"{call!r} is no club of this case",
            place="call",
            mend=f"Call {', '.join(sorted(worth))} or {TOO_CLOSE}.",
        )
    best = clubs[0]
    end = snapshots[-1] if snapshots else None

    def given_up(club: str | None) -> float | None:
        return None if club is None else best.value - worth[club]

    return Debrief(
        call=call,
        kept=kept,
        best=best.club,
        alike=tuple(one.club for one in clubs if best.value - one.value <= NEAR_BEST),
        cost=best.value - worth[kept],
        plain_cost=given_up(end.plain_pick) if end else None,
        tool_cost=given_up(end.pick) if end else None,
        clubs=tuple(clubs),
        end=end,
        snapshots=tuple(snapshots),
        moments=moments_of(snapshots),
        without=tuple(without),
    )


def moments_of(snapshots: Sequence[Snapshot]) -> tuple[Moment, ...]:
    """Return the few sets that moved the comparison most, in order of play.

    Notes
    -----
    A set is weighed by half the sum of the absolute changes of every club's chance to be the
    best: the share of that chance that changed hands. A set that brings a club into the
    comparison is none: nothing stood of that club before it.
    """
    found = []
    for before, after in pairwise(snapshots):
        if before.chances.keys() != after.chances.keys():
            continue
        changes = {
            club: after.chances.get(club, 0.0) - before.chances.get(club, 0.0)
            for club in {*before.chances, *after.chances}
        }
        moved = 0.5 * sum(abs(one) for one in changes.values())
        if moved >= LEAST_MOVE:
            club = max(sorted(changes), key=lambda one: abs(changes[one]))
            found.append(Moment(snapshot=after, before=before, moved=moved, club=club))
    most = sorted(found, key=lambda one: -one.moved)[:MOST_MOMENTS]
    return tuple(sorted(most, key=lambda one: one.snapshot.first))

"""Several visits of one fitting: what joins their clubs, and what keeps them apart.

Device, ball and golfer differ from day to day by an unknown constant, so a club is compared
across visits only through clubs hit on both. Clubs between which no chain of shared clubs runs
are not compared at all.
"""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.evidence.balls import Balls


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Joined:
    """Which clubs may be compared with which.

    Attributes
    ----------
    group : IntArray, shape (S,)
        Clubs of the same number are joined; a club without a ball stands alone.
    ranked : int
        The group that is ranked: the own club's, else the one with the most balls.
    counts : IntArray, shape (S,)
        Balls that could join.
    """

    group: IntArray
    ranked: int
    counts: IntArray

    @property
    def inside(self) -> BoolArray:
        """Clubs of the ranked group, shape (S,)."""
        return np.asarray(self.group == self.ranked)

    @property
    def outside(self) -> BoolArray:
        """Clubs that were hit and cannot be compared with the ranked group, shape (S,)."""
        return np.asarray((self.group != self.ranked) & (self.counts > 0))

    def together(self, a: int, b: int) -> bool:
        """Return whether two clubs are joined."""
        return bool(self.group[a] == self.group[b])


def visit_columns(balls: Balls) -> FloatArray:
    """Return which visit each ball was hit on, shape (n, V); no column for a single visit."""
    visits = balls.visits
    if len(visits) < 2:
        return np.zeros((len(balls), 0))
    return np.asarray(balls.visit[:, None] == visits, dtype=np.float64)


def joined(balls: Balls, counted: BoolArray) -> Joined:
    """Return which clubs are joined by visits they share.

    Parameters
    ----------
    balls : Balls
    counted : BoolArray, shape (n,)
        Balls that can be compared; only they join.
    """
    clubs, visits = len(balls.clubs), max(len(balls.visits), 1)
    cells = np.bincount(balls.cell[counted], minlength=clubs * visits).reshape(visits, clubs)
    reach = (cells.T @ cells > 0) | np.eye(clubs, dtype=np.bool_)
    for _ in range(clubs.bit_length()):
        reach = reach @ reach
    group = reach.argmax(axis=1).astype(np.int64)
    counts = cells.sum(axis=0).astype(np.int64)
    if balls.own is not None and counts[balls.own]:
        ranked = int(group[balls.own])
    else:
        ranked = int(np.argmax(np.bincount(group, weights=counts, minlength=clubs)))
    return Joined(group=group, ranked=ranked, counts=counts)


def joining_club(found: Joined, own: int | None, last: int) -> int | None:
    """Return the club of which one more ball today joins clubs that stand apart, if any do.

    Parameters
    ----------
    found : Joined
    own : int, optional
        The golfer's own club.
    last : int
        The club in hand.

    Returns
    -------
    int, optional
        Today's clubs being ranked, the club outside with the fewest balls; else the own club,
        or the one with the most balls, of those that are ranked.
    """
    if not found.outside.any():
        return None
    if found.inside[last]:
        apart = np.flatnonzero(found.outside)
        return int(apart[np.argmin(found.counts[apart])])
    if own is not None and found.inside[own]:
        return own
    return int(np.argmax(np.where(found.inside, found.counts, -1)))


def apart_warnings(balls: Balls, found: Joined) -> tuple[str, ...]:
    """Return what to say of clubs that cannot be compared, and what would join them."""
    ranked = [club for club, inside in zip(balls.clubs, found.inside, strict=True) if inside]
    told = []
    for group in np.unique(found.group[found.outside]):
        names = [balls.clubs[club] for club in np.flatnonzero(found.group == group)]
        was = "was" if len(names) == 1 else "were"
        they = "it is" if len(names) == 1 else "they are"
        told.append(
            f"{_listed(names, 'and')} {was} not hit on one visit with {_listed(ranked, 'or')}, "
            f"nor with a club that was: {they} not compared, because what differs could be the "
            f"day. Hit {_listed(ranked, 'or')} on the same visit as {_listed(names, 'or')} to "
            "join them"
        )
    return tuple(told)


def _listed(names: list[str], joint: str) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} {joint} {names[-1]}"

"""The order of a fitting: shuffled sets, the own club among them, within balls and minutes.

Every club is hit once in each block and the blocks are shuffled, so that warm-up, tiredness and
a changing device fall on all clubs alike. The own club opens, closes and comes up in the middle:
a baseline hit cold at the start would be a baseline of the warm-up.
"""

from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING, Final

from loftwright.domain.names import OWN, TREES
from loftwright.errors import InputError
from loftwright.evidence.power import Scatter, balls_needed, difference_seen

if TYPE_CHECKING:
    import numpy as np

MINUTE: Final = 60.0
SET_SIZE: Final = 3
"""Balls hit before the club changes; sets of two or three cost no evidence and save changes."""
WORTHWHILE_BALLS: Final = 8
"""Balls a club below which another club is given up first, when minutes are short; judgement."""
FEWEST_CLUBS: Final = 2
MOST_CLUBS: Final = 1 + len(TREES)
MOST_BALLS: Final = 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How long things take in the bay [s]; common practice, no source.

    Attributes
    ----------
    ball : float
        From one ball to the next.
    change : float
        One club change: unscrew, tighten, check the setting, wipe, mark; 45 to 75 s are usual.
    talk : float
        What the golfer wants, before the first swing.
    warm_up : float
        Never shortened.
    baseline : float
        Own club measured, device and ball checked.
    closing : float
        What came out, and what it costs.
    """

    ball: float = 35.0
    change: float = 60.0
    talk: float = 8.0 * MINUTE
    warm_up: float = 10.0 * MINUTE
    baseline: float = 5.0 * MINUTE
    closing: float = 10.0 * MINUTE

    def before(self) -> float:
        """Return the time before the first ball that counts [s]."""
        return self.talk + self.warm_up + self.baseline


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRequest:
    """What the fitter has and wants.

    Attributes
    ----------
    clubs : int
        The own club among them.
    balls : int
        To be hit and read, warm-up not counted.
    available : float, optional
        Time from the golfer's coming to going [s]; unlimited without it.
    difference : float
        Difference in total between two clubs that is to be seen [m].
    scatter : Scatter
        Of one ball of this golfer.
    blind : bool
        Whether names are dealt at random.
    """

    clubs: int
    balls: int
    difference: float
    scatter: Scatter
    available: float | None = None
    blind: bool = False
    pace: Pace = Pace()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSet:
    """Some balls with one club; `start` counts from the golfer's coming [s]."""

    number: int
    club: str
    balls: int
    start: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """The smallest differences that so many balls with each of two clubs can show [m]."""

    balls_per_club: int
    total: float
    offline: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A fitting before its first ball.

    Attributes
    ----------
    clubs : tuple of str
        Own first, the others in the order in which they joined.
    duration : float
        With talk and warm-up [s].
    needed_per_club : int
        Balls that each of two clubs would need to show the wanted difference.
    """

    request: PlanRequest
    clubs: tuple[str, ...]
    sets: tuple[PlannedSet, ...]
    balls: int
    duration: float
    needed_per_club: int
    seen: tuple[Seen, ...]


def make_plan(request: PlanRequest, rng: "np.random.Generator") -> Plan:
    """Return a shuffled plan that keeps to the balls and minutes there are.

    Parameters
    ----------
    request : PlanRequest
    rng : numpy.random.Generator
        Deals names when blind, and shuffles the blocks.

    Returns
    -------
    Plan
        With fewer clubs or balls than asked when the minutes do not suffice; talk, warm-up,
        baseline and closing stay whole.

    Raises
    ------
    InputError
        If clubs, balls or minutes cannot make a comparison.
    """
    _check(request)
    clubs, balls = _what_fits(request)
    names = (OWN, *_names(clubs - 1, blind=request.blind, rng=rng))
    shares = _shares(clubs, balls)
    order = _order(clubs, shares, rng)
    sets = _timed(order, names, shares, request.pace)
    per_club = balls // clubs
    return Plan(
        request=request,
        clubs=names,
        sets=sets,
        balls=balls,
        duration=_duration(clubs, balls, request.pace),
        needed_per_club=balls_needed(request.difference, request.scatter.total),
        seen=tuple(
            Seen(
                balls_per_club=each,
                total=difference_seen(each, request.scatter.total),
                offline=difference_seen(each, request.scatter.offline),
            )
            for each in sorted({4, per_club, 12, 20, 40})
        ),
    )


def fewest_balls(clubs: int) -> int:
    """Return the balls a plan needs at least: two a club and three with the own one."""
    return 2 * clubs + 1


def _check(request: PlanRequest) -> None:
    if not FEWEST_CLUBS <= request.clubs <= MOST_CLUBS:
        raise InputError(
            f"{request.clubs} clubs cannot be planned",
            place="clubs",
            mend=f"Give {FEWEST_CLUBS} to {MOST_CLUBS} clubs, the golfer's own among them.",
        )
    least = fewest_balls(request.clubs)
    if not least <= request.balls <= MOST_BALLS:
        raise InputError(
            f"{request.balls} balls cannot be shared among {request.clubs} clubs",
            place="balls",
            mend=f"Give {least} to {MOST_BALLS} balls: two a club, three with the own one.",
        )


def _what_fits(request: PlanRequest) -> tuple[int, int]:
    """Return clubs and balls: all of them, or the most clubs that still get balls enough."""
    available = request.available
    if available is None or _duration(request.clubs, request.balls, request.pace) <= available:
        return request.clubs, request.balls
    wanted = min(WORTHWHILE_BALLS, request.balls // request.clubs)
    for clubs in range(request.clubs, FEWEST_CLUBS - 1, -1):
        balls = _most_balls(replace(request, clubs=clubs))
        if balls // clubs >= wanted:
            return clubs, balls
    fewest = fewest_balls(FEWEST_CLUBS)
    if balls >= fewest:
        return FEWEST_CLUBS, balls
    shortest = _duration(FEWEST_CLUBS, fewest, request.pace)
    least = _duration(FEWEST_CLUBS, max(fewest, wanted * FEWEST_CLUBS), request.pace)
    raise InputError(
        f"{available / MINUTE:.0f} minutes do not suffice for a comparison of two clubs",
        place="minutes",
        mend=f"It takes {ceil(shortest / MINUTE)} minutes at the very least and "
        f"{ceil(least / MINUTE)} to be worth while; the warm-up is not shortened.",
    )


def _most_balls(request: PlanRequest) -> int:
    available = request.available or 0.0
    balls = request.balls
    while balls > 0 and _duration(request.clubs, balls, request.pace) > available:
        balls -= 1
    return balls


def _shares(clubs: int, balls: int) -> tuple[int, ...]:
    """Return balls per club, the own first; what is left over goes to the first clubs."""
    share, extra = divmod(balls, clubs)
    return tuple(share + (club < extra) for club in range(clubs))


def _blocks(clubs: int, balls: int) -> int:
    """Return how often each tested club comes up."""
    blocks = ceil(_shares(clubs, balls)[0] / SET_SIZE)
    return max(blocks, 2) if clubs == FEWEST_CLUBS else blocks


def _own_sets(clubs: int, blocks: int) -> int:
    return blocks + 1 if clubs == FEWEST_CLUBS else max(blocks, 3)


def _duration(clubs: int, balls: int, pace: Pace) -> float:
    blocks = _blocks(clubs, balls)
    changes = _own_sets(clubs, blocks) + (clubs - 1) * blocks - 1
    return pace.before() + balls * pace.ball + changes * pace.change + pace.closing


def _names(number: int, *, blind: bool, rng: "np.random.Generator") -> tuple[str, ...]:
    if not blind:
        return TREES[:number]
    return tuple(TREES[index] for index in rng.permutation(len(TREES))[:number])


def _order(clubs: int, shares: tuple[int, ...], rng: "np.random.Generator") -> tuple[int, ...]:
    """Return the clubs' numbers set by set; the own one, 0, opens, closes and halves."""
    blocks = _blocks(clubs, sum(shares))
    while True:
        order = _draw(clubs, blocks, rng)
        third = len(order) // 3
        if 0 in order[third : len(order) - third]:
            return order


def _draw(clubs: int, blocks: int, rng: "np.random.Generator") -> tuple[int, ...]:
    tested = list(range(1, clubs))
    if clubs == FEWEST_CLUBS:
        return (0, *(1, 0) * blocks)
    if blocks == 1:
        others = _shuffled(tested, rng)
        half = len(others) // 2
        return (0, *others[:half], 0, *others[half:], 0)
    order = [0, *_shuffled(tested, rng)]
    if blocks == 2:
        order.append(0)
    for _ in range(blocks - 2):
        order += _shuffled([0, *tested], rng, after=order[-1])
    return (*order, *_shuffled(tested, rng, after=order[-1]), 0)


def _shuffled(members: list[int], rng: "np.random.Generator", after: int = -1) -> list[int]:
    """Return the members in a random order that does not begin with the club just hit."""
    while True:
        shuffled = [members[index] for index in rng.permutation(len(members))]
        if shuffled[0] != after:
            return shuffled


def _timed(
    order: tuple[int, ...], names: tuple[str, ...], shares: tuple[int, ...], pace: Pace
) -> tuple[PlannedSet, ...]:
    times = [order.count(club) for club in range(len(names))]
    turn = [0] * len(names)
    clock = pace.before()
    sets = []
    for number, club in enumerate(order, start=1):
        share, extra = divmod(shares[club], times[club])
        balls = share + (turn[club] < extra)
        turn[club] += 1
        sets.append(PlannedSet(number=number, club=names[club], balls=balls, start=clock))
        clock += balls * pace.ball + pace.change
    return tuple(sets)

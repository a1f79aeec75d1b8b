"""How often the balls fell where they were predicted: the shop's own proof."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Final

from loftwright.domain.prediction import PROBABILITIES, QUANTITIES
from loftwright.services.scoring import Fate, Scored, score_fitting
from loftwright.services.studio import Studio

FEWEST: Final = 50
"""Balls below which no share is said: its standard error is 6 % at best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """How many of some balls fell in a range.

    Attributes
    ----------
    share : float
        0 to 1.
    error : float, optional
        Standard error, clustered by fitting; None for a single fitting.
    """

    share: float
    error: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """Some balls against their ranges.

    Attributes
    ----------
    name : str
        Of the bay, device, club or quantity; empty for all.
    balls, fittings : int
    shares : tuple of Share
        For the ranges that are to hold 50, 80 and 95 %; empty below fifty balls.
    """

    name: str
    balls: int
    fittings: int
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The balls of one bay, device, club, or kind of prediction.

    Attributes
    ----------
    by : {"bay", "device", "club", "rests"}
    quantities : tuple of Tally
        One a quantity that was predicted.
    """

    by: str
    name: str
    quantities: tuple[Tally, ...]

    def of(self, quantity: str) -> Tally | None:
        """Return how the balls stand in one quantity."""
        return next((one for one in self.quantities if one.name == quantity), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """The shop's proof.

    Attributes
    ----------
    invented : bool
        Whether it is that of invented golfers.
    balls, fittings : int
        That were predicted and scored.
    not_predicted : int
        Balls that came without a prediction.
    changed : int
        Balls that were predicted and later moved to another club or setting, or said not to be
        the golfer's.
    whole : tuple of Tally
        All balls, one a quantity.
    groups : tuple of Group
        By bay, device, club and what the predictions rest on, the most balls first.
    """

    invented: bool
    balls: int
    fittings: int
    not_predicted: int
    changed: int
    whole: tuple[Tally, ...]
    groups: tuple[Group, ...]

    def of(self, quantity: str) -> Tally | None:
        """Return how all balls stand in one quantity."""
        return next((one for one in self.whole if one.name == quantity), None)

    @property
    def headline(self) -> Tally | None:
        """The quantity that is told first: total, else carry, else what most balls have."""
        told = (self.of(name) for name in ("total", "carry"))
        most = max(self.whole, key=lambda one: one.balls, default=None)
        return next((one for one in told if one is not None), most)


def proof_of(studio: Studio, *, invented: bool = False) -> Proof:
    """Return how often balls fell where they were predicted, over all fittings.

    Parameters
    ----------
    studio : Studio
    invented : bool
        Of invented fittings instead of the shop's own.
    """
    found = [
        ball
        for kept in studio.store.fittings()
        if kept.value.invented is invented and not kept.value.bay_check
        for ball in score_fitting(studio, kept.value)
    ]
    return tally(found, invented=invented)


def tally(balls: Sequence[Scored], *, invented: bool = False) -> Proof:
    """Count balls against their ranges.

    Parameters
    ----------
    balls : sequence of Scored
    invented : bool
    """
    scored = [ball for ball in balls if ball.fate is Fate.SCORED]
    groups = []
    for by in ("bay", "device", "club", "rests"):
        members: dict[str, list[Scored]] = defaultdict(list)
        for ball in scored:
            members[str(getattr(ball, by))].append(ball)
        groups += [
            Group(by=by, name=name, quantities=_by_quantity(some))
            for name, some in sorted(members.items(), key=lambda one: (-len(one[1]), one[0]))
        ]
    return Proof(
        invented=invented,
        balls=len(scored),
        fittings=len({ball.fitting for ball in scored}),
        not_predicted=sum(ball.fate is Fate.NOT_PREDICTED for ball in balls),
        changed=sum(ball.fate is Fate.CHANGED for ball in balls),
        whole=_by_quantity(scored),
        groups=tuple(groups),
    )


def _by_quantity(balls: Sequence[Scored]) -> tuple[Tally, ...]:
    found = []
    for quantity in QUANTITIES:
        told = [(ball.fitting, ball.inside[quantity]) for ball in balls if quantity in ball.inside]
        if told:
            shares: tuple[Share, ...] = ()
            if len(told) >= FEWEST:
                shares = tuple(
                    share_of((fitting, inside[place]) for fitting, inside in told)
                    for place in range(len(PROBABILITIES))
                )
            fittings = len({fitting for fitting, _ in told})
            found.append(Tally(name=quantity, balls=len(told), fittings=fittings, shares=shares))
    return tuple(found)


def share_of(balls: Iterable[tuple[str, bool]]) -> Share:
    """Return how many balls fell inside, with an error that takes each fitting as one.

    Parameters
    ----------
    balls : iterable of (str, bool)
        Fitting, and whether the ball fell inside.

    Notes
    -----
    A ratio of sums over fittings: with G of them, x_g of n_g balls inside and p in all, the
    squared error is G / (G - 1) times the sum of (x_g - p n_g)^2, over the square of all balls.

    References
    ----------
    Cochran 1977, Sampling Techniques, 3rd ed., section 2.11 (ratio estimate, from memory).
    """
    inside: dict[str, int] = defaultdict(int)
    count: dict[str, int] = defaultdict(int)
    for fitting, fell in balls:
        inside[fitting] += fell
        count[fitting] += 1
    whole = sum(count.values())
    share = sum(inside.values()) / whole
    clusters = len(count)
    if clusters < 2:
        return Share(share=share, error=None)
    squares = sum((inside[one] - share * count[one]) ** 2 for one in count)
    return Share(share=share, error=sqrt(clusters / (clusters - 1) * squares) / whole)

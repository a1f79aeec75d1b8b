"""How often the balls fell where they were predicted: the shop's own proof."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Final

from loftwright.domain.prediction import PROBABILITIES, QUANTITIES
from loftwright.services.scoring import Fate, Scored, score_fitting
from loftwright.services.studio import Studio
from loftwright.services.summaries import Added, Part
from loftwright.store.overview import Outline

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
    uncounted : int
        Fittings that are still to be counted, as after a new version of the program.
    """

    invented: bool
    balls: int
    fittings: int
    not_predicted: int
    changed: int
    whole: tuple[Tally, ...]
    groups: tuple[Group, ...]
    uncounted: int = 0

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
    counted = _counted(studio, invented=invented)
    added = _INVENTED if invented else _REAL
    sums, left = added.over(studio, counted, MOST_AT_ONCE)
    return _proof(sums, invented=invented, uncounted=left)


def count_proof(studio: Studio, most: int) -> int:
    """Count the balls of some fittings that are not counted yet; return how many are left."""
    return _REAL.over(studio, _counted(studio, invented=False), most)[1]


def _counted(studio: Studio, *, invented: bool) -> list[Outline]:
    outlines = studio.store.outlines()
    return [one for one in outlines if one.invented is invented and not one.bay_check]


def tally(balls: Sequence[Scored], *, invented: bool = False) -> Proof:
    """Count balls against their ranges.

    Parameters
    ----------
    balls : sequence of Scored
    invented : bool
    """
    fittings: dict[str, list[Scored]] = defaultdict(list)
    for ball in balls:
        fittings[ball.fitting].append(ball)
    sums: dict[str, list[int]] = {}
    for some in fittings.values():
        for what, counts in part_of(some).items():
            known = sums.get(what, [0] * len(counts))
            sums[what] = [one + more for one, more in zip(known, counts, strict=True)]
    return _proof(sums, invented=invented, uncounted=0)


def part_of(balls: Sequence[Scored]) -> dict[str, tuple[int, ...]]:
    """Return what the balls of one fitting add to the proof.

    Of every group and quantity: one fitting, its balls n, n^2, and of each range its balls
    inside x, x^2 and x n. Sums of these are all that shares and their errors need.
    """
    counts: dict[tuple[str, str, str], list[int]] = defaultdict(_none)
    fates: dict[str, int] = defaultdict(int)
    for ball in balls:
        fates[ball.fate.value] += 1
        if ball.fate is not Fate.SCORED:
            continue
        for by in _BY:
            name = str(getattr(ball, by)) if by else ""
            counts[by, name, ""][0] += 1
            for quantity, inside in ball.inside.items():
                cell = counts[by, name, quantity]
                cell[0] += 1
                for place, fell in enumerate(inside, start=1):
                    cell[place] += fell
    told: dict[str, tuple[int, ...]] = {fate: (many,) for fate, many in fates.items()}
    for key, (n, *held) in counts.items():
        told["\t".join(key)] = (1, n, n * n, *(part for x in held for part in (x, x * x, x * n)))
    return told


def _none() -> list[int]:
    return [0] * (1 + len(PROBABILITIES))


def _scored(studio: Studio, fitting: str) -> dict[str, tuple[int, ...]]:
    return part_of(score_fitting(studio, studio.store.fitting(fitting).value))


MOST_AT_ONCE: Final = 100
"""Fittings that a page counts while somebody waits for it; what is left is said."""
_BY: Final = ("", "bay", "device", "club", "rests")
_REAL: Final = Added("proof", _scored)
_INVENTED: Final = Added("proof of invented fittings", _scored)


def _proof(sums: Part, *, invented: bool, uncounted: int) -> Proof:
    cells: dict[tuple[str, str], dict[str, Sequence[int]]] = defaultdict(dict)
    for what, counts in sums.items():
        if "\t" in what:
            by, name, quantity = what.split("\t")
            cells[by, name][quantity] = counts
    whole = cells.get(("", ""), {})
    balls = whole.get("", (0, 0))
    return Proof(
        invented=invented,
        balls=balls[1],
        fittings=balls[0],
        not_predicted=sums.get(Fate.NOT_PREDICTED.value, (0,))[0],
        changed=sums.get(Fate.CHANGED.value, (0,))[0],
        whole=_by_quantity(whole),
        groups=tuple(
            Group(by=by, name=name, quantities=_by_quantity(some))
            for by in _BY[1:]
            for (_, name), some in sorted(
                ((key, some) for key, some in cells.items() if key[0] == by),
                key=lambda one: (-one[1][""][1], one[0][1]),
            )
        ),
        uncounted=uncounted,
    )


def _by_quantity(cells: Mapping[str, Sequence[int]]) -> tuple[Tally, ...]:
    found = []
    for quantity in QUANTITIES:
        if quantity in cells:
            fittings, balls, squares, *inside = cells[quantity]
            shares: tuple[Share, ...] = ()
            if balls >= FEWEST:
                shares = tuple(
                    _share(fittings, balls, squares, inside[first : first + 3])
                    for first in range(0, len(inside), 3)
                )
            found.append(Tally(name=quantity, balls=balls, fittings=fittings, shares=shares))
    return tuple(found)


def share_of(balls: Iterable[tuple[str, bool]]) -> Share:
    """Return how many balls fell inside, with an error that takes each fitting as one.

    Parameters
    ----------
    balls : iterable of (str, bool)
        Fitting, and whether the ball fell inside.
    """
    inside: dict[str, int] = defaultdict(int)
    count: dict[str, int] = defaultdict(int)
    for fitting, fell in balls:
        inside[fitting] += fell
        count[fitting] += 1
    both = [(inside[one], n) for one, n in count.items()]
    sums = [sum(parts) for parts in zip(*((x, x * x, x * n) for x, n in both), strict=True)]
    return _share(len(both), sum(n for _, n in both), sum(n * n for _, n in both), sums)


def _share(fittings: int, balls: int, squares: int, inside: Sequence[int]) -> Share:
    """Return a share from sums over fittings.

    Parameters
    ----------
    fittings, balls, squares : int
        How many fittings and balls, and the sum of n_g^2.
    inside : sequence of int
        Sums of x_g, x_g^2 and x_g n_g.

    Notes
    -----
    A ratio of sums over fittings: with G of them, x_g of n_g balls inside and p in all, the
    squared error is G / (G - 1) times the sum of (x_g - p n_g)^2, over the square of all balls.
    That sum is multiplied out, in whole numbers: p = X / N makes it N^-2 times
    N^2 sum(x^2) - 2 X N sum(x n) + X^2 sum(n^2).

    References
    ----------
    Cochran 1977, Sampling Techniques, 3rd ed., section 2.11 (ratio estimate, from memory).
    """
    fell, fell_squared, together = inside
    share = fell / balls
    if fittings < 2:
        return Share(share=share, error=None)
    whole = balls**2 * fell_squared - 2 * fell * balls * together + fell**2 * squares
    return Share(share=share, error=sqrt(fittings / (fittings - 1) * (whole / balls**2)) / balls)

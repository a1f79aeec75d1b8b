"""Where a bag's clubs make an even run, and which of them stands out of it.

Notes
-----
Lengths run evenly if they lie on a line of the logarithm of loft: lofts of a set grow by about an
eighth from club to club while lengths fall by half an inch (common practice, no source).
Swingweight, club MOI and frequency run evenly if they lie on a line of length. Where lofts or
lengths are all alike within their doubts an even run is level. Usual lofts bend that line of
lengths by a twentieth of an inch, which counts beside the doubts.

A driver and a putter are built for themselves and belong to no run.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations
from math import hypot, log
from statistics import NormalDist
from typing import Final

from loftwright.constants import DEGREE, INCH
from loftwright.domain.bag import BagClub, BagKind, Known
from loftwright.domain.bag_figures import Figure, figure_of, same_set_up
from loftwright.domain.even_line import Line, Point, farthest, line_through
from loftwright.physics.build.swingweight import SwingweightScale

FEWEST: Final = 3
MOST_OUT: Final = 3
"""Of a row; if more would have to be left out there is no even run."""

SURE: Final = 0.95
"""That an even bag, read with its doubts, is called even."""

BEND: Final = 0.05 * INCH
"""By which lengths of a usual set, 20 to 46.5 deg in half inches, stray from the line."""

RUNNING: Final = (Known.LENGTH, Known.SWINGWEIGHT, Known.INERTIA, Known.FREQUENCY)


LEAST_FAIRWAY_LOFT: Final = 13.5 * DEGREE
LONGEST_FAIRWAY_WOOD: Final = 44.0 * INCH
"""A wood of less loft, or a longer one of unknown loft, is a driver (common practice)."""


class Row(StrEnum):
    """Clubs that are compared with each other."""

    FAIRWAY_WOODS = "fairway woods"
    HYBRIDS = "hybrids"
    IRONS = "irons"
    WEDGES = "wedges"


_ROWS: Final = {
    BagKind.WOOD: Row.FAIRWAY_WOODS,
    BagKind.HYBRID: Row.HYBRIDS,
    BagKind.IRON: Row.IRONS,
    BagKind.WEDGE: Row.WEDGES,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Departure:
    """How far a club lies from the even run of the others.

    Attributes
    ----------
    name : str
    apart : float
        Beyond the line [SI, points].
    half_width : float
        Of the range that holds it 95 times in 100.
    """

    name: str
    apart: float
    half_width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One quantity over the clubs of one row.

    Attributes
    ----------
    row : Row
    known : Known
    names : tuple of str
        The clubs that are compared, three or more; frequencies of one set-up only.
    line : tuple of (str, float)
        What an even run would be at each of them.
    out : tuple of Departure
        The fewest clubs without which the others run evenly, the farthest first.
    either : tuple of Departure
        Two clubs, where leaving out the one or the other leaves an even run.
    even : bool
        Whether nothing lies farther from the line than doubts allow.
    """

    row: Row
    known: Known
    names: tuple[str, ...]
    line: tuple[tuple[str, float], ...]
    out: tuple[Departure, ...] = ()
    either: tuple[Departure, ...] = ()
    even: bool = False


def row_of(club: BagClub) -> Row | None:
    """Return the clubs that a club is compared with; None for a driver or a putter."""
    driver = False
    if club.kind is BagKind.WOOD and club.loft is not None:
        driver = club.loft < LEAST_FAIRWAY_LOFT
    elif club.kind is BagKind.WOOD and club.length is not None:
        driver = club.length > LONGEST_FAIRWAY_WOOD
    return None if driver else _ROWS.get(club.kind)


def runs(clubs: Sequence[BagClub], scale: SwingweightScale) -> tuple[Run, ...]:
    """Return every run of three clubs or more.

    Parameters
    ----------
    clubs : sequence of BagClub
        Those in play, in the order of a bag.
    scale : SwingweightScale

    Notes
    -----
    A club is told from a run only beyond what an even bag would show one time in twenty, all
    comparisons of the bag considered (Šidák): each bound is wider than that of one comparison.
    """
    found = [
        (row, known, points)
        for row in Row
        for known in RUNNING
        if len(points := _points(clubs, row, known, scale)) >= FEWEST
    ]
    compared = max(1, sum(len(points) for _, _, points in found))
    bound = NormalDist().inv_cdf(0.5 + 0.5 * SURE ** (1.0 / compared))
    return tuple(_run(row, known, points, bound) for row, known, points in found)


def _points(
    clubs: Sequence[BagClub], row: Row, known: Known, scale: SwingweightScale
) -> tuple[Point, ...]:
    there = [one for one in clubs if row_of(one) is row]
    if known is Known.FREQUENCY:
        there = _alike(there)
    if known is Known.SWINGWEIGHT and not scale.calibrated:
        there = _one_way(there, scale)
    return tuple(point for one in there for point in _point(one, known, scale))


def _point(club: BagClub, known: Known, scale: SwingweightScale) -> Iterator[Point]:
    along = figure_of(club, Known.LOFT if known is Known.LENGTH else Known.LENGTH, scale)
    value = figure_of(club, known, scale)
    if along is None or value is None:
        return
    place, doubt = _place(along, known)
    yield Point(
        name=club.name,
        along=place,
        along_error=doubt,
        value=value.reading.value,
        error=hypot(0.5 * value.reading.half_width, BEND if known is Known.LENGTH else 0.0),
    )


def _place(along: Figure, known: Known) -> tuple[float, float]:
    """Return where on the line a club stands, with the standard error of that."""
    value, error = along.reading.value, 0.5 * along.reading.half_width
    return (log(value), error / value) if known is Known.LENGTH else (value, error)


def _alike(clubs: Sequence[BagClub]) -> list[BagClub]:
    """Return the most clubs whose frequencies were read in one set-up."""
    groups = [
        [
            other
            for other in clubs
            if one.timed and other.timed and same_set_up(one.timed, other.timed)
        ]
        for one in clubs
    ]
    return max(groups, key=len, default=[])


def _one_way(clubs: Sequence[BagClub], scale: SwingweightScale) -> list[BagClub]:
    """Return the most clubs whose swingweights were all read, or all worked out.

    On a scale that no club has calibrated the two may differ by points.
    """
    ways: dict[bool, list[BagClub]] = {False: [], True: []}
    for one in clubs:
        figure = figure_of(one, Known.SWINGWEIGHT, scale)
        if figure is not None:
            ways[figure.derived].append(one)
    return max(ways.values(), key=len)


def _run(row: Row, known: Known, points: tuple[Point, ...], bound: float) -> Run:
    names = tuple(one.name for one in points)
    line = line_through(points)
    if farthest(points, line) <= bound:
        return Run(row=row, known=known, names=names, line=_told(points, line), even=True)
    for left in range(1, min(MOST_OUT, (len(points) - line.freedoms) // 2) + 1):
        without = list(_even_without(points, left, bound))
        if len(without) == 1:
            gone, others = without[0]
            out = sorted((_departure(one, others) for one in gone), key=_by_size)
            told = _told(points, others)
            return Run(row=row, known=known, names=names, line=told, out=tuple(out))
        if len(without) == 2 and left == 1:
            either = sorted(
                (_departure(gone[0], others) for gone, others in without), key=_by_size
            )
            told = _told(points, line)
            return Run(row=row, known=known, names=names, line=told, either=tuple(either))
        if without:
            break
    return Run(row=row, known=known, names=names, line=_told(points, line))


def _even_without(
    points: tuple[Point, ...], left: int, bound: float
) -> Iterator[tuple[tuple[Point, ...], Line]]:
    for gone in combinations(points, left):
        rest = tuple(one for one in points if one not in gone)
        line = line_through(rest)
        if len(rest) > line.freedoms and farthest(rest, line) <= bound:
            yield gone, line


def _told(points: tuple[Point, ...], line: Line) -> tuple[tuple[str, float], ...]:
    return tuple((one.name, line.at(one.along)) for one in points)


def _departure(point: Point, line: Line) -> Departure:
    return Departure(
        name=point.name,
        apart=point.value - line.at(point.along),
        half_width=2.0 * line.error_beside(point),
    )


def _by_size(one: Departure) -> float:
    return -abs(one.apart) / one.half_width

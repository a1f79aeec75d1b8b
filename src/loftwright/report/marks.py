"""A club's marker: shape and colour that stay with its name through one fitting."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import count
from math import cos, pi, sin

from loftwright.domain.names import TREES
from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import Decision
from loftwright.report.look import CLUB_COLOURS, INK

Point = tuple[float, float]

_ARM = 0.36


def _regular(corners: int, radius: float, turn: float) -> tuple[Point, ...]:
    angles = (turn + 2.0 * pi * index / corners for index in range(corners))
    return tuple((radius * cos(angle), radius * sin(angle)) for angle in angles)


def _star() -> tuple[Point, ...]:
    outer = _regular(5, 1.1, -pi / 2.0)
    inner = _regular(5, 0.46, -pi / 2.0 + pi / 5.0)
    return tuple(point for pair in zip(outer, inner, strict=True) for point in pair)


_CROSS: tuple[Point, ...] = (
    (-_ARM, -1.0),
    (_ARM, -1.0),
    (_ARM, -_ARM),
    (1.0, -_ARM),
    (1.0, _ARM),
    (_ARM, _ARM),
    (_ARM, 1.0),
    (-_ARM, 1.0),
    (-_ARM, _ARM),
    (-1.0, _ARM),
    (-1.0, -_ARM),
    (-_ARM, -_ARM),
)

_SHAPES: tuple[tuple[str, tuple[Point, ...]], ...] = (
    ("square", ((-0.8, -0.8), (0.8, -0.8), (0.8, 0.8), (-0.8, 0.8))),
    ("triangle, point up", ((0.0, -1.0), (1.02, 0.8), (-1.02, 0.8))),
    ("diamond", ((0.0, -1.05), (1.05, 0.0), (0.0, 1.05), (-1.05, 0.0))),
    ("triangle, point down", ((0.0, 1.0), (1.02, -0.8), (-1.02, -0.8))),
    ("upright cross", _CROSS),
    ("hexagon", _regular(6, 1.0, 0.0)),
    ("star", _star()),
)

_UPRIGHT = ((0.0, -1.45), (0.0, 1.45))
_LEVEL = ((-1.3, 0.0), (1.3, 0.0))
_BARS: tuple[tuple[tuple[Point, Point], ...], ...] = (
    (),
    (_UPRIGHT,),
    (_LEVEL,),
    (_UPRIGHT, _LEVEL),
)

RING_RADIUS = 0.84


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How one club is drawn, in units of the marker's radius, y downwards.

    Attributes
    ----------
    shape : str
        The shape in words.
    colour : str
        Fill, a literal colour; the ring has none.
    points : tuple of (float, float)
        Corners; empty for the ring of the golfer's own club.
    bars : tuple of pairs of points
        Lines across the shape, once the seven shapes are used up.
    """

    shape: str
    colour: str
    points: tuple[Point, ...]
    bars: tuple[tuple[Point, Point], ...] = ()

    @property
    def is_ring(self) -> bool:
        """Whether this is the ring of the golfer's own club."""
        return not self.points

    def path(self, x: float = 0.0, y: float = 0.0, radius: float = 1.0) -> str:
        """Return the outline as the data of an SVG path.

        Parameters
        ----------
        x, y : float
            Its centre [points].
        radius : float
            [points]
        """
        if self.is_ring:
            r = RING_RADIUS * radius
            return (
                f"M{x - r:.2f},{y:.2f}A{r:.2f},{r:.2f},0,1,1,{x + r:.2f},{y:.2f}"
                f"A{r:.2f},{r:.2f},0,1,1,{x - r:.2f},{y:.2f}Z"
            )
        corners = "L".join(
            f"{x + radius * px:.2f},{y + radius * py:.2f}" for px, py in self.points
        )
        bars = "".join(
            f"M{x + radius * ax:.2f},{y + radius * ay:.2f}"
            f"L{x + radius * bx:.2f},{y + radius * by:.2f}"
            for (ax, ay), (bx, by) in self.bars
        )
        return f"M{corners}Z{bars}"


OWN_MARK = Mark(shape="ring", colour=INK, points=())


def deal_marks(clubs: Iterable[str], own: str | None) -> dict[str, Mark]:
    """Return a mark for every club, in the order in which they joined the fitting.

    The tree names that clubs of a fitting are given have each a mark of their own; other names
    take the marks that are left.

    Parameters
    ----------
    clubs : iterable of str
        Names in the order of joining; up to 28 differ in shape, colour or bars.
    own : str, optional
        The golfer's own club, always a ring.
    """
    joined = list(dict.fromkeys(clubs))
    places = {club: TREES.index(club) for club in joined if club in TREES and club != own}
    free = (place for place in count() if place not in places.values())
    return {
        club: OWN_MARK if club == own else _mark(places.get(club, -1), free) for club in joined
    }


def _mark(place: int, free: Iterator[int]) -> Mark:
    place = next(free) if place < 0 else place
    shape, points = _SHAPES[place % len(_SHAPES)]
    return Mark(
        shape=shape,
        colour=CLUB_COLOURS[place % len(CLUB_COLOURS)],
        points=points,
        bars=_BARS[place // len(_SHAPES) % len(_BARS)],
    )


def marks_of_fitting(decision: Decision, table: ShotTable) -> Mapping[str, Mark]:
    """Return the marks of a fitting's clubs, dealt in the order of their first balls."""
    played = [shot.club for shot in table.shots]
    ranked = sorted(club.club for club in decision.clubs)
    known = set(ranked)
    return deal_marks([*(club for club in played if club in known), *ranked], decision.own)

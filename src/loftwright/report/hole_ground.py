"""The golfer's own hole from above in pencil: fairway, rough, and trees where the trouble is."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from loftwright.domain.home import Hole, Lie, Trouble
from loftwright.report.look import EDGE, FAIRWAY
from loftwright.report.pencil import bunker, pencil, scattered, tree, tuft


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The part of a picture that the hole fills, in the picture's units.

    Attributes
    ----------
    left, right, top, bottom : float
        Its edges; the tee is at the left one.
    begins : float
        Where the fairway begins.
    middle : float
        Height of the middle of the fairway.
    across : float
        Width of a metre.
    """

    left: float
    right: float
    top: float
    bottom: float
    begins: float
    middle: float
    across: float


@lru_cache(maxsize=64)
def hole_ground(hole: Hole, ground: Ground) -> str:
    """Return the hole's fairway to scale with its rough and its trouble.

    Parameters
    ----------
    hole : Hole
    ground : Ground
        Where and how large it is drawn.
    """
    return "".join([*_fairway(hole, ground), *_sides(hole, ground)])


def _fairway(hole: Hole, ground: Ground) -> Iterator[str]:
    half = 0.5 * hole.fairway * ground.across
    top, bottom, left, right = (
        ground.middle - half,
        ground.middle + half,
        ground.begins,
        ground.right,
    )
    round_ = min(14.0, half)
    edge = (
        f"M{right:.1f} {top + 0.6:.1f}C{right - 80:.1f} {top - 1.8:.1f} {left + 90:.1f} "
        f"{top + 2.2:.1f} {left + round_:.1f} {top:.1f}Q{left:.1f} {top + 1:.1f} {left:.1f} "
        f"{ground.middle:.1f}Q{left:.1f} {bottom - 1:.1f} {left + round_:.1f} {bottom:.1f}"
        f"C{left + 80:.1f} {bottom + 1.8:.1f} {right - 90:.1f} {bottom - 2.2:.1f} {right:.1f} "
        f"{bottom - 0.6:.1f}"
    )
    yield f'<path class="fairway" d="{edge}Z" fill="{FAIRWAY}" stroke="none"/>'
    yield pencil(edge)
    yield (
        f'<path d="M{ground.left:.1f} {ground.middle:.1f}H{right:.1f}" stroke="{EDGE}" '
        'stroke-width="1" stroke-dasharray="1 7" fill="none"/>'
    )


def _sides(hole: Hole, ground: Ground) -> Iterator[str]:
    half = 0.5 * hole.fairway * ground.across
    for side, sign in ((Trouble.LEFT, -1.0), (Trouble.RIGHT, 1.0)):
        edge = ground.middle + sign * half
        limit = ground.top if sign < 0.0 else ground.bottom
        if hole.trouble not in {side, Trouble.BOTH}:
            yield from _rough(edge, limit, ground)
            continue
        # Trouble that begins beyond the picture still shows as crowns that lean in at its edge.
        radius = 8.0 if hole.trouble_lie is Lie.SAND else 9.6
        wall = ground.middle + sign * hole.trouble_from * ground.across
        farthest = limit - sign * (radius + 3.0)
        wall = max(wall, farthest) if sign < 0.0 else min(wall, farthest)
        yield from _rough(edge, wall, ground)
        yield from _trouble(wall + sign * radius, sign, hole.trouble_lie, ground)


def _rough(edge: float, wall: float, ground: Ground) -> Iterator[str]:
    low, high = sorted((edge, wall))
    down = 1.0 if wall > edge else -1.0
    for row in range(2):
        y = edge + down * (13.0 + 20.0 * row) + (3.0 if down > 0.0 else 0.0)
        if not (low + 4.0 <= y <= high - 2.0 and ground.top <= y - 7.0):
            continue
        for column in range(10):
            seed = 31 * row + column + (500 if down > 0.0 else 0)
            share = (column + 0.2 + 0.6 * scattered(seed)) / 10.0
            x = ground.begins + share * (ground.right - ground.begins)
            yield tuft(x, y + 4.0 * scattered(seed + 7), seed)


def _trouble(start: float, sign: float, lie: Lie, ground: Ground) -> Iterator[str]:
    """Draw bunkers for sand and trees for all else, row behind row."""
    radius, columns = (8.0, 7) if lie is Lie.SAND else (9.6, 20)
    draw = bunker if lie is Lie.SAND else tree
    left = ground.begins - 60.0
    for row in range(3):
        y = start + sign * 2.1 * radius * row
        if row and not ground.top < y < ground.bottom - 0.6 * radius:
            return
        for column in range(columns):
            seed = 97 * row + 3 * column + (300 if sign > 0.0 else 0)
            share = (column + 0.15 + 0.7 * scattered(seed)) / columns
            size = radius * (0.78 + 0.35 * scattered(seed + 3))
            yield draw(
                left + share * (ground.right - left),
                y + sign * 0.3 * radius * scattered(seed + 5),
                size,
                seed,
            )

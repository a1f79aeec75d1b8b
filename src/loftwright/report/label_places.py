"""Where labels of markers stand in a crowded picture so that none covers another."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot
from typing import Final

from loftwright.report.picture_parts import Anchor, Box, text_box

_DISTANCES: Final = (15.0, 26.0, 40.0, 58.0, 80.0, 110.0)
_TURNS: Final[tuple[tuple[float, float, Anchor], ...]] = (
    (0.7, -0.7, "start"),
    (-0.7, -0.7, "end"),
    (0.7, 1.2, "start"),
    (-0.7, 1.2, "end"),
    (1.0, 0.35, "start"),
    (-1.0, 0.35, "end"),
    (0.0, -1.0, "middle"),
    (0.0, 1.7, "middle"),
)
_CROSSED = 1.0
"""What a stroke under a label costs, in steps away from the marker."""

_MISTAKEN = 1.5
"""What it costs that another marker is nearer to the label than its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A label that wants a place.

    Attributes
    ----------
    text : str
    x, y : float
        What it names, in the picture's units.
    bold : bool
    """

    text: str
    x: float
    y: float
    bold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A label with its place.

    Attributes
    ----------
    x, y : float
        For its anchor and the foot of its letters.
    anchor : {"start", "middle", "end"}
    led : bool
        Whether it stands so far away that a line should lead to what it names.
    """

    wanted: Wanted
    x: float
    y: float
    anchor: Anchor
    led: bool

    @property
    def box(self) -> Box:
        """Where it stands."""
        return text_box(
            self.x, self.y, self.wanted.text, anchor=self.anchor, bold=self.wanted.bold
        )


def place_labels(
    wanted: Iterable[Wanted], frame: Box, blocks: Sequence[Box], strokes: Sequence[Box]
) -> list[Placed]:
    """Place labels one after another, near what they name.

    Parameters
    ----------
    wanted : iterable of Wanted
        The most important first.
    frame : Box
        What no label may leave.
    blocks : sequence of Box
        What no label may cover, such as markers.
    strokes : sequence of Box
        What labels cover unwillingly, such as thin lines.

    Returns
    -------
    list of Placed
        A label for which no place is free stands at the least bad one.
    """
    taken = list(blocks)
    placed: list[Placed] = []
    ordered = list(wanted)
    for one in ordered:
        others = [other for other in ordered if other is not one]
        _, best = min(
            (
                (away + _cost(place, others, frame, taken, strokes), place)
                for away, place in _candidates(one)
            ),
            key=lambda told: told[0],
        )
        taken.append(best.box)
        placed.append(replace(best, led=best.led or _mistaken(best, others) > 0))
    return placed


def _candidates(one: Wanted) -> Iterator[tuple[float, Placed]]:
    for step, distance in enumerate(_DISTANCES):
        for turn, (dx, dy, anchor) in enumerate(_TURNS):
            # Letters stand on their foot: below a marker they need their own height too.
            x, y = one.x + distance * dx, one.y + distance * dy + (4.0 if dy > 1.0 else 0.0)
            place = Placed(wanted=one, x=x, y=y, anchor=anchor, led=step > 1)
            yield step + 0.05 * turn, place


def _cost(
    place: Placed,
    others: Sequence[Wanted],
    frame: Box,
    taken: Sequence[Box],
    strokes: Sequence[Box],
) -> float:
    box = place.box
    outside = not (
        frame.left <= box.left
        and box.right <= frame.right
        and frame.top <= box.top
        and box.bottom <= frame.bottom
    )
    covered = sum(box.meets(other) for other in taken)
    crossed = sum(box.meets(other) for other in strokes)
    doubtful = _CROSSED * crossed + _MISTAKEN * _mistaken(place, others)
    return doubtful + 100.0 * covered + 1000.0 * outside


def _mistaken(place: Placed, others: Sequence[Wanted]) -> int:
    """Return how many other markers are nearer to the label than its own."""
    own = _gap(place.box, place.wanted)
    return sum(_gap(place.box, other) < own for other in others)


def _gap(box: Box, wanted: Wanted) -> float:
    x = max(box.left - wanted.x, 0.0, wanted.x - box.right)
    y = max(box.top - wanted.y, 0.0, wanted.y - box.bottom)
    return hypot(x, y)

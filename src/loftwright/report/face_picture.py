"""The driver's face in pencil, with the places where balls met it; made to be tapped.

Geometry
--------
Seen from the front, crown up, the face looks at whoever looks at it: the toe of a right-hander's
club is on the left of the picture, that of a left-hander's on the right. Turned, the club is as
the fitter holds it, head up in the hand: the same view after half a turn in the plane of the
picture, so the crown is down and the toe on the other side. It is a turn, never a mirror image.
Distances to the toe and up are the golfer's own in every view.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.constants import MILLIMETRE
from loftwright.domain.fitting import MARK_ERROR
from loftwright.domain.golfer import Hand
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH
from loftwright.report.look import EDGE, FAIRWAY, INK, INK_2
from loftwright.report.marks import Mark
from loftwright.report.numbers import count, fixed, listed
from loftwright.report.pencil import pencil
from loftwright.report.picture_parts import club_shape, label, level_rule, picture, stroke

WIDTH: Final = 392.0
HEIGHT: Final = 238.0
NINE_IN_TEN: Final = 2.146
"""Standard errors, the same every way, of the circle that holds nine readings in ten."""

Point = tuple[float, float]

_MM_PER_UNIT = 0.32
_CENTRE = (196.0, 99.0)
_OUTLINE: tuple[tuple[Point, Point, Point], ...] = (
    ((1.0, 0.55), (0.62, 1.0), (0.1, 1.0)),
    ((-0.42, 1.0), (-1.0, 0.46), (-1.0, -0.2)),
    ((-1.0, -0.66), (-0.55, -1.0), (-0.05, -1.0)),
    ((0.52, -1.0), (1.0, -0.7), (1.0, -0.08)),
)
"""Curves of the outline from the toe over the crown, in half widths and half heights."""

_HOSEL: tuple[tuple[Point, Point, Point, Point], ...] = (
    ((-0.8, 0.72), (-0.95, 0.82), (-1.03, 0.98), (-1.07, 1.22)),
    ((-0.99, 0.06), (-1.1, 0.42), (-1.2, 0.8), (-1.25, 1.22)),
)
_SCORE_LINES = (0.66, 0.41, 0.16, -0.09, -0.34, -0.59)
_EDGE_OF_PICTURE = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceMark:
    """A place where a ball met the face.

    Attributes
    ----------
    club : str
    shape : Mark
        The club's shape.
    toe, high : float
        Towards the toe and up from the middle of the face [m].
    error : float
        Standard error of the reading, one way [m].
    waiting : bool
        Whether it waits for its ball.
    """

    club: str
    shape: Mark
    toe: float
    high: float
    error: float = MARK_ERROR
    waiting: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceMap:
    """Where a place on the face stands in the picture.

    Attributes
    ----------
    toe_sign, high_sign : float
        +1 where the toe is to the right, and where the crown is down.
    centre : (float, float)
        Where the middle of the face stands.
    mm_per_unit : float
        Millimetres that one unit of the picture shows.
    """

    toe_sign: float
    high_sign: float
    centre: Point = _CENTRE
    mm_per_unit: float = _MM_PER_UNIT

    def place(self, toe: float, high: float) -> Point:
        """Return where a place on the face [m] stands, in the picture's units."""
        per_metre = 1.0 / (self.mm_per_unit * MILLIMETRE)
        x = self.centre[0] + self.toe_sign * toe * per_metre
        return x, self.centre[1] + self.high_sign * high * per_metre

    def mark_at(self, x: float, y: float) -> Point:
        """Return the place on the face [m], to the toe and up, that was tapped at x, y."""
        metre = self.mm_per_unit * MILLIMETRE
        toe = self.toe_sign * (x - self.centre[0]) * metre
        return toe, self.high_sign * (y - self.centre[1]) * metre


def face_map(hand: Hand = Hand.RIGHT, *, turned: bool = False) -> FaceMap:
    """Return the map of a view, as the module's geometry says."""
    toe_sign = -1.0 if hand is Hand.RIGHT else 1.0
    half_turn = -1.0 if turned else 1.0
    return FaceMap(toe_sign=half_turn * toe_sign, high_sign=-half_turn)


def mark_at(x: float, y: float, *, hand: Hand = Hand.RIGHT, turned: bool = False) -> Point:
    """Return the place on the face that was tapped.

    Parameters
    ----------
    x, y : float
        In the picture's units, from its upper left corner.
    hand : Hand
    turned : bool
        Whether the view is turned as the fitter holds the club.

    Returns
    -------
    (float, float)
        Towards the toe and up from the middle of the face [m].
    """
    return face_map(hand, turned=turned).mark_at(x, y)


def face_picture(
    marks: Sequence[FaceMark],
    *,
    hand: Hand = Hand.RIGHT,
    turned: bool = False,
    in_hand: str | None = None,
    prefix: str = "face",
) -> str:
    """Draw the face with its marks, to scale.

    Parameters
    ----------
    marks : sequence of FaceMark
        In their order; the last is drawn largest, with its error.
    hand : Hand
        The golfer's.
    turned : bool
        As the fitter holds the club: half a turn, crown down.
    in_hand : str, optional
        The club whose marks are drawn strong.
    prefix : str
        Beginning of the picture's ids.

    Returns
    -------
    str
        An SVG in literal colours. Its attributes `data-mm-per-unit`, `data-centre-x`,
        `data-centre-y`, `data-toe-sign` and `data-high-sign` turn a tap at (x, y) of the view
        box into millimetres: sign times distance from the centre times millimetres a unit.
    """
    view = face_map(hand, turned=turned)
    parts = [*_face(view), *_words(view), _rule(), *_marks(marks, view, in_hand)]
    data = {
        "mm-per-unit": f"{_MM_PER_UNIT:g}",
        "centre-x": f"{_CENTRE[0]:g}",
        "centre-y": f"{_CENTRE[1]:g}",
        "toe-sign": f"{view.toe_sign:.0f}",
        "high-sign": f"{view.high_sign:.0f}",
    }
    waiting = sum(mark.waiting for mark in marks)
    title = f"{_view_words(view)}: {count(len(marks), 'mark')}"
    title += f", {waiting} waiting for a ball" if waiting else ""
    return picture(WIDTH, HEIGHT, parts, title=title, prefix=prefix, data=data)


def strike_words(toe: float, high: float) -> str:
    """Return a place on the face [m] in words: `13 mm toe, 9 mm high`."""
    across, up = round(toe / MILLIMETRE), round(high / MILLIMETRE)
    told = [f"{fixed(abs(across))} mm {'toe' if across > 0 else 'heel'}"] if across else []
    told += [f"{fixed(abs(up))} mm {'high' if up > 0 else 'low'}"] if up else []
    return ", ".join(told) or "in the middle"


def face_words(marks: Sequence[FaceMark], *, hand: Hand = Hand.RIGHT, turned: bool = False) -> str:
    """Return what the picture shows, in sentences.

    Parameters
    ----------
    marks : sequence of FaceMark
        In their order.
    hand : Hand
    turned : bool
    """
    view = _view_words(face_map(hand, turned=turned))
    if not marks:
        return f"{view}. No mark yet. Higher on the face spins less, lower more."
    told = []
    for club in dict.fromkeys(mark.club for mark in marks):
        own = [mark for mark in marks if mark.club == club and not mark.waiting]
        if own:
            toe = sum(mark.toe for mark in own) / len(own)
            high = sum(mark.high for mark in own) / len(own)
            told.append(f"{club} {count(len(own), 'mark')}, on average {strike_words(toe, high)}")
    waiting = [f"one {strike_words(mark.toe, mark.high)}" for mark in marks if mark.waiting]
    sentences = [view, "; ".join(told)] if told else [view]
    if waiting:
        verb = "waits" if len(waiting) == 1 else "wait"
        sentences.append(f"{count(len(waiting), 'mark')} {verb} for a ball: {listed(waiting)}")
    newest = marks[-1]
    sentences.append(f"The newest, of {newest.club}, is {strike_words(newest.toe, newest.high)}")
    return f"{'. '.join(sentences)}. Higher on the face spins less, lower more."


def _view_words(view: FaceMap) -> str:
    side = "right" if view.toe_sign > 0.0 else "left"
    held = "as it is held, crown down," if view.high_sign > 0.0 else "seen from the front,"
    return f"Face of the driver {held} toe on the {side}"


def _at(view: FaceMap, point: Point) -> str:
    x, y = view.place(point[0] * FACE_HALF_WIDTH, point[1] * FACE_HALF_HEIGHT)
    return f"{x:.1f} {y:.1f}"


def bare_face(view: FaceMap, kind: str = "face") -> str:
    """Return the outline of the face in pencil on its own ground.

    Parameters
    ----------
    view : FaceMap
    kind : str
        The ground's class in the page.
    """
    curves = "".join(f"C{' '.join(_at(view, bend) for bend in curve)}" for curve in _OUTLINE)
    outline = f"M{_at(view, _OUTLINE[-1][-1])}{curves}Z"
    ground = f'<path class="{kind}" d="{outline}" fill="{FAIRWAY}" stroke="none"/>'
    return ground + pencil(outline, INK)


def _face(view: FaceMap) -> Iterator[str]:
    for start, *bends in _HOSEL:
        yield pencil(f"M{_at(view, start)}C{' '.join(_at(view, bend) for bend in bends)}")
    yield bare_face(view, "tapface")
    lines = ""
    for high in _SCORE_LINES:
        bow = (1.0 - abs(high) ** 2.6) ** 0.5
        for side in (-1.0, 1.0):
            # The crown falls away towards the heel, so the lines are shorter there.
            reach = side * bow * (0.86 - (0.2 * high if side < 0.0 < high else 0.0))
            lines += f"M{_at(view, (0.36 * side, high))}L{_at(view, (reach, high))}"
    yield (
        f'<path d="{lines}" fill="none" stroke="{EDGE}" stroke-width="0.8" stroke-opacity="0.7"/>'
    )
    x, y = _CENTRE
    yield stroke(f"M{x - 7:.1f} {y:.1f}h14M{x:.1f} {y - 7:.1f}v14", width=1.0)


def _words(view: FaceMap) -> Iterator[str]:
    """Name the rims; what a place higher or lower does stands beside the word."""
    ends = {"CROWN": "higher: spins less", "SOLE": "lower: spins more"}
    for word, slope in ends.items():
        up = (word == "CROWN") == (view.high_sign < 0.0)
        y = 17.0 if up else 195.0
        x = _CENTRE[0] - 44.0 + 8.0 * view.toe_sign
        yield label(x, y, word, anchor="end", bold=True)
        yield label(x + 9.0, y, slope, soft=True)
    for word, side, high in (("TOE", 1.0, 0.0), ("HEEL", -1.0, -0.28)):
        reach = side * (FACE_HALF_WIDTH + 2.7 * MILLIMETRE)
        x, y = view.place(reach, high * FACE_HALF_HEIGHT)
        yield label(x, y + 6.0, word, anchor="start" if x > _CENTRE[0] else "end", bold=True)


def _rule() -> str:
    unit = 1.0 / _MM_PER_UNIT
    ticks, numerals = [], {}
    for millimetres in range(-40, 41, 5):
        x = _CENTRE[0] + millimetres * unit
        ticks.append((x, 4.0 if millimetres % 10 else 8.0 if millimetres % 20 else 12.0))
        if millimetres % 20 == 0:
            numerals[x] = f"{abs(millimetres)}" if millimetres else "0 mm"
    ends = (_CENTRE[0] - 40.0 * unit, _CENTRE[0] + 40.0 * unit)
    return level_rule(ticks, numerals, 204.0, ends)


def _marks(marks: Sequence[FaceMark], view: FaceMap, in_hand: str | None) -> Iterator[str]:
    """Draw older marks first, those of the club in hand over them, the newest over all."""
    joined = [mark for mark in marks[:-1] if not mark.waiting]
    for mark in joined:
        if mark.club != in_hand:
            yield _shape(mark, view, 4.6, past=True)
    for mark in joined:
        if mark.club == in_hand:
            yield _shape(mark, view, 6.6)
    for mark in marks[:-1]:
        if mark.waiting:
            yield _shape(mark, view, 7.6, hollow=True)
    if marks:
        newest = marks[-1]
        x, y = _inside(view.place(newest.toe, newest.high))
        radius = NINE_IN_TEN * newest.error / (_MM_PER_UNIT * MILLIMETRE)
        yield (
            f'<g class="arrive">{_shape(newest, view, 9.4, hollow=True)}<circle class="err" '
            f'cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}" fill="none" stroke="{INK_2}" '
            'stroke-width="1.2" stroke-dasharray="2 4"/></g>'
        )


def _shape(
    mark: FaceMark, view: FaceMap, radius: float, *, hollow: bool = False, past: bool = False
) -> str:
    x, y = _inside(view.place(mark.toe, mark.high))
    title = f"{mark.club}: {strike_words(mark.toe, mark.high)}"
    title += ", waiting for a ball" if mark.waiting else ""
    return club_shape(mark.shape, x, y, radius, hollow=hollow, past=past, title=title)


def _inside(point: Point) -> Point:
    """Hold a mark far beside the face in sight; its title says where it is."""
    low = _EDGE_OF_PICTURE
    return (
        min(max(point[0], low), WIDTH - low),
        min(max(point[1], low), HEIGHT - low),
    )

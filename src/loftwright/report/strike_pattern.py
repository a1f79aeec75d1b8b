"""Where each club was struck: a small face a club, and one scatter that all of them share."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from loftwright.constants import MILLIMETRE
from loftwright.domain.golfer import Hand
from loftwright.report.face_picture import (
    FaceMap,
    FaceMark,
    bare_face,
    face_map,
    strike_words,
)
from loftwright.report.look import INK
from loftwright.report.marks import Mark
from loftwright.report.numbers import count
from loftwright.report.picture_parts import (
    Anchor,
    club_shape,
    fitted,
    label,
    picture,
    stroke,
    text_width,
)
from loftwright.report.pictures import TWO_OF_THREE

WIDTH: Final = 880.0
FACES_IN_A_ROW: Final = 4

_CELL = (220.0, 148.0)
_FACE = (110.0, 84.0)
_MM_PER_UNIT = 0.5
_FOOT = 34.0


def strike_pattern(
    clubs: Mapping[str, Mark],
    marks: Sequence[FaceMark],
    pattern: tuple[float, float] | None,
    *,
    hand: Hand = Hand.RIGHT,
    prefix: str = "strikes",
) -> str:
    """Draw a small face for every club with its marks, seen from the front.

    Parameters
    ----------
    clubs : mapping of str to Mark
        Every club of the picture with its shape, in their order.
    marks : sequence of FaceMark
        Of all clubs; those that wait for a ball are left out.
    pattern : (float, float), optional
        Standard deviations that all clubs share, heel-toe and low-high [m]; its outline is slid
        to the middle of each club's marks, from two marks on.
    hand : Hand
        The golfer's.
    prefix : str
        Beginning of the picture's ids.
    """
    rows = max(1, -(-len(clubs) // FACES_IN_A_ROW))
    height = rows * _CELL[1] + _FOOT
    parts: list[str] = []
    for index, (club, shape) in enumerate(clubs.items()):
        corner = index % FACES_IN_A_ROW * _CELL[0], index // FACES_IN_A_ROW * _CELL[1]
        own = [mark for mark in marks if mark.club == club and not mark.waiting]
        parts += _cell(club, shape, own, corner, pattern, hand)
    parts += _foot(rows * _CELL[1], outlined=pattern is not None)
    title = f"Strikes of {count(len(clubs), 'club')} on the face, seen from the front"
    return picture(WIDTH, height, parts, title=title, prefix=prefix)


def strike_pattern_words(
    clubs: Mapping[str, Mark],
    marks: Sequence[FaceMark],
    pattern: tuple[float, float] | None,
) -> str:
    """Return what the picture shows, in sentences.

    Parameters
    ----------
    clubs : mapping of str to Mark
    marks : sequence of FaceMark
    pattern : (float, float), optional
        Standard deviations, heel-toe and low-high [m].
    """
    told = []
    for club in clubs:
        own = [mark for mark in marks if mark.club == club and not mark.waiting]
        where = f", on average {strike_words(*_middle(own))}" if own else ""
        told.append(f"{club} {_counted(len(own))}{where}")
    if pattern is None:
        return f"Strikes: {'; '.join(told)}."
    across, up = (round(2.0 * TWO_OF_THREE * part / MILLIMETRE) for part in pattern)
    shared = (
        f"two of three strikes of any club lie in an outline {across} mm wide and {up} mm high"
    )
    return f"Strikes: {'; '.join(told)}. Around its own middle, {shared}."


def _counted(marks: int) -> str:
    return count(marks, "mark") if marks else "no mark"


def _middle(marks: Sequence[FaceMark]) -> tuple[float, float]:
    number = len(marks)
    return sum(mark.toe for mark in marks) / number, sum(mark.high for mark in marks) / number


def _cell(
    club: str,
    shape: Mark,
    marks: Sequence[FaceMark],
    corner: tuple[float, float],
    pattern: tuple[float, float] | None,
    hand: Hand,
) -> Iterator[str]:
    centre = corner[0] + _FACE[0], corner[1] + _FACE[1]
    view = replace(face_map(hand), centre=centre, mm_per_unit=_MM_PER_UNIT)
    counted = _counted(len(marks))
    name = fitted(club, _CELL[0] - 44.0 - text_width(counted), bold=True)
    yield club_shape(shape, corner[0] + 14.0, corner[1] + 13.0, 7.6)
    yield label(corner[0] + 28.0, corner[1] + 19.0, name, bold=True)
    after = corner[0] + 36.0 + text_width(name, bold=True)
    yield label(after, corner[1] + 19.0, counted, soft=True)
    yield bare_face(view)
    yield from _sides(view)
    for mark in marks:
        title = f"{club}: {strike_words(mark.toe, mark.high)}"
        yield club_shape(shape, *view.place(mark.toe, mark.high), 4.6, title=title)
    if pattern is not None and len(marks) > 1:
        yield _outline(view, _middle(marks), pattern)


def _sides(view: FaceMap) -> Iterator[str]:
    x, y = view.centre
    yield stroke(f"M{x - 5:.1f} {y:.1f}h10M{x:.1f} {y - 5:.1f}v10", width=1.0)
    for word, side in (("toe", view.toe_sign), ("heel", -view.toe_sign)):
        anchor: Anchor = "start" if side > 0.0 else "end"
        yield label(x + 76.0 * side, y + 5.0, word, anchor=anchor, soft=True)


def _outline(view: FaceMap, middle: tuple[float, float], pattern: tuple[float, float]) -> str:
    x, y = view.place(*middle)
    rx, ry = (TWO_OF_THREE * part / (_MM_PER_UNIT * MILLIMETRE) for part in pattern)
    return (
        f'<ellipse cx="{x:.1f}" cy="{y:.1f}" rx="{rx:.1f}" ry="{ry:.1f}" fill="none" '
        f'stroke="{INK}" stroke-width="1.4" stroke-dasharray="6 5"/>'
    )


def _foot(top: float, *, outlined: bool) -> Iterator[str]:
    """Draw a length to judge by, and say what the outline is."""
    length = 20.0 / _MM_PER_UNIT
    base = top + 18.0
    yield stroke(f"M8 {base:.1f}v-6m{length / 2:.1f} 6v-4m{length / 2:.1f} 4v-6")
    yield stroke(f"M8 {base:.1f}h{length:.1f}", colour=INK)
    yield label(16.0 + length, base + 4.0, "20 mm", soft=True)
    if outlined:
        words = "dashed: two of three strikes, the same outline for every club"
        yield label(WIDTH, base + 4.0, words, anchor="end", soft=True)

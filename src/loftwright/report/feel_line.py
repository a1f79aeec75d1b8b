"""Where the golfer put each club by feel: one line from "would not play" to "want it"."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.errors import InputError
from loftwright.report.marks import Mark
from loftwright.report.numbers import listed
from loftwright.report.picture_parts import (
    club_shape,
    fitted,
    label,
    level_rule,
    picture,
    text_width,
)

WIDTH: Final = 392.0
HEIGHT: Final = 92.0
ENDS: Final = (12.0, 380.0)
"""Where the line begins and ends in the picture's units."""

_BASE = 56.0
_ROWS = (43.0, 29.0)
_NAMED = (
    (0.05, "would not play"),
    (0.3, "near would not play"),
    (0.45, "below fine"),
    (0.55, "fine"),
    (0.7, "above fine"),
    (0.95, "near want it"),
)
_SMALL, _LARGE = 6.2, 12.6


@dataclass(frozen=True, slots=True, kw_only=True)
class FeelMark:
    """Where a club stands by feel.

    Attributes
    ----------
    club : str
    shape : Mark
    place : float
        From 0, would not play, to 1, want it.
    word : str
        The golfer's own.
    """

    club: str
    shape: Mark
    place: float
    word: str = ""

    def __post_init__(self) -> None:
        if not 0.0 <= self.place <= 1.0:
            raise InputError(
                f"a feel of {self.place:g} is not on the line",
                place="feel",
                mend="Tap the line, which runs from 0 to 1.",
            )


def feel_line(feels: Sequence[FeelMark], *, prefix: str = "feel") -> str:
    """Draw the line with every club on it; the last is the newest, its word over it.

    Parameters
    ----------
    feels : sequence of FeelMark
        One a club, in the order in which they were said.
    prefix : str
        Beginning of the picture's ids.

    Returns
    -------
    str
        An SVG in literal colours. A tap at x of the view box is the place
        (x - `data-left`) / (`data-right` - `data-left`), held between 0 and 1.
    """
    left, right = ENDS
    places = [left + tenth * (right - left) / 10.0 for tenth in range(11)]
    ticks = [(x, 5.0 if index % 5 else 10.0) for index, x in enumerate(places)]
    parts = [
        level_rule(ticks, {}, _BASE, ENDS),
        label(0.0, 88.0, "would not play", bold=True),
        label(0.5 * (left + right), 88.0, "fine", anchor="middle", soft=True),
        label(WIDTH, 88.0, "want it", anchor="end", bold=True),
        *_shapes(feels),
    ]
    title = "Feel, from would not play to want it"
    data = {"left": f"{left:g}", "right": f"{right:g}"}
    return picture(WIDTH, HEIGHT, parts, title=title, prefix=prefix, data=data)


def place_words(place: float) -> str:
    """Return a place on the line from 0 to 1 in words, as a slider says it."""
    return next((words for most, words in _NAMED if place <= most), "want it")


def feel_words(feels: Sequence[FeelMark]) -> str:
    """Return what the line shows, the most wanted first, in a sentence."""
    if not feels:
        return "Nothing was said of the feel of a club yet."
    told = [
        f"{feel.club} {place_words(feel.place)}" + (f", “{feel.word}”" if feel.word else "")
        for feel in sorted(feels, key=lambda feel: -feel.place)
    ]
    return f"Feel: {listed(told)}."


def _x(place: float) -> float:
    return ENDS[0] + place * (ENDS[1] - ENDS[0])


def _shapes(feels: Sequence[FeelMark]) -> Iterator[str]:
    """Lift a club over one at the same place, and move it aside if that is not enough."""
    if not feels:
        return
    newest = feels[-1]
    centre = _x(newest.place)
    taken = [(centre, row, _LARGE) for row in _ROWS]
    for feel in sorted(feels[:-1], key=lambda feel: feel.place):
        x, y = _free(_x(feel.place), taken)
        taken.append((x, y, _SMALL))
        title = f"{feel.club}: {place_words(feel.place)}"
        yield club_shape(feel.shape, x, y, _SMALL, past=True, title=title)
    title = f"{newest.club}: {place_words(newest.place)}"
    yield club_shape(newest.shape, centre, 40.5, _LARGE, title=title)
    if newest.word:
        word = f"“{fitted(newest.word, WIDTH - 30.0)}”"
        half = text_width(word) / 2.0
        yield label(min(max(centre, half), WIDTH - half), 14.0, word, anchor="middle")


def _free(x: float, taken: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """Return the free place nearest to x: on the line, above it, or aside."""
    for step in range(60):
        for shift in (2.0 * step, -2.0 * step):
            for y in _ROWS:
                near = (
                    abs(x + shift - tx) < _SMALL + size + 1.0 and abs(y - ty) < 13.0
                    for tx, ty, size in taken
                )
                if ENDS[0] <= x + shift <= ENDS[1] and not any(near):
                    return x + shift, y
    return x, _ROWS[0]

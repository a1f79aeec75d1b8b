"""Parts that the studio's pictures share: labels, club shapes, graduated rules, the frame."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from html import escape
from typing import Final, Literal

from loftwright.report.fonts import REGULAR, SANS
from loftwright.report.look import EDGE, FAIRWAY, INK, INK_2, SHEET
from loftwright.report.marks import RING_RADIUS, Mark

LETTER_SIZE: Final = 17
"""Size of letters in the studio's pictures, in their own units."""

Anchor = Literal["start", "middle", "end"]

_EMS = {
    letter: ems
    for ems, letters in (
        (0.27, "iljI.,:;'|·’‘ "),
        (0.36, "frt!()[]-/°"),
        (0.45, "cszJ“”"),
        (0.51, "aekvxy0123456789+−FLY"),
        (0.85, "mwMW¼½¾⅓⅙⅛"),
        (0.96, "…"),
    )
    for letter in letters
}
"""Widths of letters in the program's own sans, measured and rounded up."""

_PREFIX = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle in a picture's units, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """Return whether the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


def text_width(text: str, *, bold: bool = False) -> float:
    """Return how wide a line of text stands, rather a little more than less."""
    ems = sum(_ems(letter) for letter in text)
    return LETTER_SIZE * ems * (1.03 if bold else 1.0)


def _ems(letter: str) -> float:
    if letter in _EMS:
        return _EMS[letter]
    if ord(letter) > 0x2E7F:
        return 1.0
    return 0.67 if letter.isupper() else 0.57


def text_box(
    x: float, y: float, text: str, *, anchor: Anchor = "start", bold: bool = False
) -> Box:
    """Return the rectangle that a line of text stands in.

    Parameters
    ----------
    x, y : float
        Where the line begins, halves or ends, by its `anchor`; y is the foot of the letters.
    text : str
    anchor : {"start", "middle", "end"}
    bold : bool
    """
    width = text_width(text, bold=bold)
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * width
    return Box(left=left, top=y - 13.0, right=left + width, bottom=y + 4.0)


def fitted(text: str, room: float, *, bold: bool = False) -> str:
    """Return a text cut with an ellipsis so that it fits a width in the picture's units."""
    if text_width(text, bold=bold) <= room:
        return text
    while text and text_width(f"{text}…", bold=bold) > room:
        text = text[:-1]
    return f"{text.rstrip()}…" if text.strip() else ""


def label(
    x: float,
    y: float,
    text: str,
    *,
    anchor: Anchor = "start",
    bold: bool = False,
    soft: bool = False,
    halo: bool = False,
    ground: str = "",
    on_accent: bool = False,
) -> str:
    """Return a line of text.

    Parameters
    ----------
    x, y : float
        Where the line begins, halves or ends, by its `anchor`; y is the foot of the letters.
    text : str
    anchor : {"start", "middle", "end"}
    bold : bool
    soft : bool
        In the colour of notes and numerals.
    halo : bool
        Clearing the strokes under it, on the picture's own ground.
    ground : str
        The literal colour of another ground that it stands on and clears.
    on_accent : bool
        In the colour of words on an accent ground.
    """
    marks = {"b": bold, "q": soft, "onacc": on_accent}
    marks |= {"m": anchor == "middle", "e": anchor == "end"}
    names = " ".join(name for name, is_so in marks.items() if is_so)
    weight = 'font-weight="600"' if bold else REGULAR
    behind = ground or (SHEET if halo else "")
    cleared = (
        f' paint-order="stroke" stroke="{behind}" stroke-width="5" stroke-linejoin="round"'
        if behind
        else ""
    )
    colour = SHEET if on_accent else INK_2 if soft else INK
    return (
        f'<text class="{names}" {weight} x="{x:.1f}" y="{y:.1f}" font-family="\'{SANS}\'" '
        f'font-size="{LETTER_SIZE}" text-anchor="{anchor}" fill="{colour}"{cleared}>'
        f"{escape(text)}</text>"
    )


def club_shape(
    mark: Mark,
    x: float,
    y: float,
    radius: float,
    *,
    hollow: bool = False,
    past: bool = False,
    title: str = "",
) -> str:
    """Return a club's shape.

    Parameters
    ----------
    mark : Mark
    x, y, radius : float
        In the picture's units.
    hollow : bool
        Without its colour, in a strong line.
    past : bool
        In a weaker line, for what stands behind the newest.
    title : str
        What a pointer over it is told.
    """
    fill = FAIRWAY if hollow else "none" if mark.is_ring else mark.colour
    width = 2.6 if hollow else 1.4
    if mark.is_ring:
        width = 3.0 if hollow or radius > 6.5 else 2.2
    faint = ' opacity="0.75"' if past else ""
    told = f"<title>{escape(title)}</title>" if title else ""
    if mark.is_ring:
        return (
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{RING_RADIUS * radius:.1f}" fill="{fill}" '
            f'stroke="{INK}" stroke-width="{width}"{faint}>{told}</circle>'
        )
    return (
        f'<path d="{mark.path(x, y, radius)}" fill="{fill}" stroke="{INK}" '
        f'stroke-width="{width}" stroke-linejoin="round"{faint}>{told}</path>'
    )


def stroke(path: str, *, colour: str = EDGE, width: float = 1.2, dash: str = "") -> str:
    """Return one plain line.

    Parameters
    ----------
    path : str
        Data of an SVG path.
    colour : str
        A literal colour.
    width : float
        In the picture's units.
    dash : str
        Lengths of dashes and gaps.
    """
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width}" '
        f'stroke-linecap="round" stroke-linejoin="round"{dashed}/>'
    )


def level_rule(
    ticks: Iterable[tuple[float, float]],
    numerals: Mapping[float, str],
    base: float,
    ends: tuple[float, float],
) -> str:
    """Return a graduated rule that lies level.

    Parameters
    ----------
    ticks : iterable of (float, float)
        Place and length of each, in the picture's units.
    numerals : mapping of float to str
        What stands under which place.
    base : float
        Height of the rule's line.
    ends : (float, float)
        Where the line begins and ends.
    """
    path = "".join(f"M{x:.1f} {base:.1f}v{length:g}" for x, length in ticks)
    words = "".join(
        label(x, base + 29.0, text, anchor="middle", soft=True) for x, text in numerals.items()
    )
    line = stroke(f"M{ends[0]:.1f} {base:.1f}H{ends[1]:.1f}", colour=INK)
    return stroke(path) + line + words


def picture(
    width: float,
    height: float,
    parts: Iterable[str],
    *,
    title: str,
    prefix: str,
    data: Mapping[str, str] | None = None,
) -> str:
    """Return parts as one picture with a name that screen readers say.

    Parameters
    ----------
    width, height : float
        Given as attributes too, without which taps would map wrong.
    parts : iterable of str
    title : str
        The picture's name.
    prefix : str
        Beginning of every id in it, unlike that of any other picture of the page.
    data : mapping of str to str
        More attributes, by their names without `data-`.

    Raises
    ------
    ValueError
        If the prefix cannot begin an id.
    """
    if not _PREFIX.fullmatch(prefix):
        raise ValueError(f"{prefix!r} cannot begin an id")
    more = "".join(f' data-{name}="{escape(text)}"' for name, text in (data or {}).items())
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {width:.0f} {height:.0f}" role="img" aria-labelledby="{prefix}-title"'
        f'{more}><title id="{prefix}-title">{escape(title)}</title>{"".join(parts)}</svg>'
    )

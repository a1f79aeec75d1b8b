"""The same drawing for the screen: every literal colour becomes a token of the page's theme."""

import re
from types import MappingProxyType
from typing import Final

from loftwright.report.fonts import REGULAR, SANS
from loftwright.report.look import (
    ACCENT,
    CAUTION,
    CLUB_COLOURS,
    EDGE,
    FAIRWAY,
    HAIR,
    INK,
    INK_2,
    ON_CAUTION,
    SHEET,
    WASH,
)

_CLUB_TOKENS = ("ash", "birch", "cedar", "elm", "fir", "hazel", "larch")

TOKENS: Final = MappingProxyType(
    {
        INK: "--ink",
        INK_2: "--ink-2",
        EDGE: "--edge",
        HAIR: "--hair",
        ACCENT: "--accent",
        WASH: "--wash",
        CAUTION: "--caution",
        ON_CAUTION: "--on-caution",
        # On paper the ground is white and what lies on it tinted; on screen it is the reverse.
        SHEET: "--paper",
        FAIRWAY: "--sheet",
        **{
            colour: f"--club-{name}"
            for colour, name in zip(CLUB_COLOURS, _CLUB_TOKENS, strict=True)
        },
    }
)
"""The token of the theme that each literal colour of a drawing stands for."""

_WITH_OPACITY = len("#rrggbbaa")
_COLOUR = re.compile(r'="(#[0-9A-Fa-f]{3,8})"')
_WORDS_ON_ACCENT = re.compile(r'(<text class="[^"]*\bonacc\b[^>]*? fill=)"[^"]*"')


def for_screen(svg: str) -> str:
    """Return a drawing in the colours of the page that it stands on, bright or dark.

    Parameters
    ----------
    svg : str
        A drawing of this program in literal colours.

    Returns
    -------
    str
        The same drawing with `var(...)` for every colour and the page's family for its letters,
        without any inline style, which the pages' content security policy forbids.

    Raises
    ------
    ValueError
        If a colour has no token, which is a mistake of the drawing.
    """
    bare = svg.replace(f"{REGULAR} ", "").replace(
        f"font-family=\"'{SANS}'\"", 'font-family="var(--sans)"'
    )
    bare = _WORDS_ON_ACCENT.sub(r'\1"var(--on-accent)"', bare)
    return _COLOUR.sub(_token, bare)


def _token(found: "re.Match[str]") -> str:
    colour = found.group(1).lower()
    if len(colour) == _WITH_OPACITY and colour.endswith("00"):
        return '="none"'
    if colour not in TOKENS:
        raise ValueError(f"no token of the theme stands for the colour {colour}")
    return f'="var({TOKENS[colour]})"'

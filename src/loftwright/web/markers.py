"""A club's marker beside its name in running text, the same shape and colour everywhere."""

import re
from collections.abc import Iterable
from functools import cache
from typing import Final

from markupsafe import Markup, escape

from loftwright.domain.names import OWN, TREES
from loftwright.report.look import CLUB_COLOURS
from loftwright.report.marks import deal_marks

COLOUR_NAMES: Final = tuple(name.lower() for name in TREES[: len(CLUB_COLOURS)])
"""Names of the clubs' colours in the style sheet, in the palette's order."""

_RADIUS: Final = 11.0


@cache
def marker(club: str) -> Markup:
    """Return the marker of a club of a fitting as a small drawing that stands in a line of text.

    Parameters
    ----------
    club : str
        Own or a tree.
    """
    mark = deal_marks([club], OWN)[club]
    kind = "own" if mark.is_ring else COLOUR_NAMES[CLUB_COLOURS.index(mark.colour)]
    outline = mark.path(0.0, 0.0, _RADIUS)
    return Markup(  # noqa: S704 - nothing in it comes from outside
        '<svg class="mark" viewBox="-13 -13 26 26" width="16" height="16" aria-hidden="true" '
        f'focusable="false"><path class="k k-{kind}" d="{outline}"/></svg>'
    )


def club_name(club: str) -> Markup:
    """Return a club's marker and name, which no line break parts."""
    return Markup('<span class="c">{}{}</span>').format(marker(club), club)


def with_clubs(text: str, clubs: Iterable[str] = (OWN, *TREES)) -> Markup:
    """Return a sentence in which every club's name bears its marker.

    Parameters
    ----------
    text : str
        Plain words; they are escaped.
    clubs : iterable of str
        Names to look for, whole and with their capital; every name without it.
    """
    names = [re.escape(str(escape(club))) for club in clubs]
    if not names:
        return escape(text)
    pattern = re.compile(rf"\b(?:{'|'.join(names)})\b")
    return Markup(  # noqa: S704 - the text was escaped before
        pattern.sub(lambda found: str(club_name(found.group())), str(escape(text)))
    )

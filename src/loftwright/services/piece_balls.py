"""How many balls each piece hit in a fitting, and in those of golfers who were erased.

A part that was hit a thousand times is not new because who hit it is forgotten: the number stays,
of nobody.
"""

import json
from collections import Counter
from collections.abc import Collection, Mapping
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.services.studio import Studio

NAME: Final = "balls of erased golfers"


def balls_of_nobody(studio: Studio) -> Counter[str]:
    """Return how many balls each part hit in fittings that were erased."""
    told: Mapping[str, int] = json.loads(studio.store.setting(NAME).value or "{}")
    return Counter(told)


def told_with(studio: Studio, fittings: Collection[str]) -> str:
    """Return the setting's text once these fittings are erased too.

    Parameters
    ----------
    studio : Studio
    fittings : collection of str
        Real ones.
    """
    found = balls_of_nobody(studio)
    for fitting in fittings:
        found.update(balls_in(studio.standing(fitting)))
    return json.dumps(dict(sorted(found.items())))


def balls_in(now: FittingNow) -> Counter[str]:
    """Return how many balls each piece hit in one fitting."""
    cards = {club.name: club.card for club in now.clubs}
    found: Counter[str] = Counter()
    for swing in now.swings:
        card = cards.get(swing.club or "")
        if card is not None and not swing.not_ours:
            found.update({card.head_piece, card.shaft_piece})
    return found

"""Clubs that were not hit: values that their maker, the choice and the page share."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import inf
from typing import Final

from loftwright.constants import GRAM
from loftwright.evidence.build_changes import FOUR_GRAMS, HALF_INCH
from loftwright.evidence.neighbours import Neighbour


class Made(StrEnum):
    """How a club that was not hit comes about."""

    SLEEVE = "sleeve"
    HEAD_WEIGHT = "head_weight"
    LENGTH = "length"
    SHAFT_WEIGHT = "shaft_weight"
    NEW_SHAFT = "new_shaft"
    NEW_HEAD = "new_head"
    JOINED = "joined"
    """It joined the fitting, and no ball was hit with it."""


BOTH_WAYS: Final = frozenset({Made.SLEEVE, Made.HEAD_WEIGHT, Made.LENGTH, Made.SHAFT_WEIGHT})
"""Changes that go two ways, of which one is told."""
OTHER_WAY: Final = "; the other way is worth less"


LENGTHS: Final = {"longer": HALF_INCH, "shorter": -HALF_INCH}
WEIGHTS: Final = {"heavier": FOUR_GRAMS, "lighter": -FOUR_GRAMS}
"""What a club's length and its shaft's weight are changed by [m, kg]."""


def length_label(base: str, word: str) -> str:
    """Return what a club is called that is half an inch longer or shorter than another."""
    return f"{base}, half an inch {word}"


def weight_label(base: str, word: str) -> str:
    """Return what a club is called whose shaft is heavier or lighter than another's."""
    return f"{base}, shaft {FOUR_GRAMS / GRAM:g} g {word}"


def head_weight_label(base: str, word: str) -> str:
    """Return what a club is called whose head is heavier or lighter than another's."""
    return f"{base}, head {FOUR_GRAMS / GRAM:g} g {word}"


def new_shaft_label(club: str) -> str:
    """Return what the own head is called with the shaft of another club."""
    return f"{club}'s shaft in the own head"


def new_head_label(club: str) -> str:
    """Return what another club's head is called on the own shaft."""
    return f"{club}'s head on the own shaft"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unhit:
    """A club that was not hit.

    Attributes
    ----------
    label : str
    club : str
        From which it is made, or itself.
    price : int, optional
        In the smallest unit of money; None where nobody set one.
    neighbour : Neighbour, optional
        How it is told; none where nothing can be.
    reason : str
        Why nothing is told, or what it rests on.
    """

    label: str
    club: str
    made: Made
    price: int | None
    neighbour: Neighbour | None
    reason: str


def better_ways(
    unhit: Sequence[Unhit], worth: Mapping[str, float], put_forward: str | None
) -> tuple[Unhit, ...]:
    """Return clubs that were not hit with the better way alone of every change of every club.

    Parameters
    ----------
    unhit : sequence of Unhit
    worth : mapping of str to float
        What each is worth, by label [m]; nothing of those that nothing is told of.
    put_forward : str, optional
        The one that asks for balls; it stands whatever the other way is worth.

    Returns
    -------
    tuple of Unhit
        In their order; the reason of one that is left says so where the other was left out.
    """
    by_change: dict[tuple[str, Made], list[Unhit]] = {}
    for one in unhit:
        if one.made in BOTH_WAYS:
            by_change.setdefault((one.club, one.made), []).append(one)
    best = {
        change: max(ways, key=lambda one: (one.label == put_forward, worth.get(one.label, -inf)))
        for change, ways in by_change.items()
    }
    found = []
    for one in unhit:
        if one.made not in BOTH_WAYS:
            found.append(one)
        elif one is best[one.club, one.made]:
            ways = [other for other in by_change[one.club, one.made] if other is not one]
            less = [worth.get(other.label, inf) < worth.get(one.label, -inf) for other in ways]
            said = bool(ways) and all(less)
            found.append(replace(one, reason=one.reason + OTHER_WAY) if said else one)
    return tuple(found)

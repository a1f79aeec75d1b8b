"""Rows of the choice as the page shows them."""

from dataclasses import dataclass, replace
from typing import Final

BUILT: Final = "built here"
"""Tag of a club that was built from the fitting and joined it to be hit against the tested one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A cell of the table with what stands small under it."""

    text: str
    under: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One way to go on.

    Attributes
    ----------
    club : str
        Whose marker it bears.
    label : str
        What it is called where that is more than the club.
    figures : tuple of Figure
        Fairways, strokes, start line, curve, height, landing, carry and run; none where `reason`
        says why.
    tag : str
        What kind of row it is, where it was not hit.
    made : bool
        Whether it would be made from the own club.
    order : str
        Where it is quoted; empty where there is nothing to order.
    """

    club: str
    label: str
    head: str
    built: str
    figures: tuple[Figure, ...]
    reason: str
    tag: str
    made: bool
    feel: str
    price: str
    lead: bool
    order: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """A group under its heading; `close` draws the bar at its edge."""

    heading: str
    close: bool
    lines: tuple[Line, ...]


def with_built(groups: tuple[Lines, ...], built: frozenset[str]) -> tuple[Lines, ...]:
    """Return groups in which the club that was built from this fitting is called so."""
    return tuple(
        replace(
            group,
            lines=tuple(
                replace(line, tag=BUILT) if line.club in built and not line.made else line
                for line in group.lines
            ),
        )
        for group in groups
    )

"""Plays like, in a sentence: where two shafts differ most, and the noise of the bench."""

from typing import Final

from loftwright.domain.likeness import Apart, Likeness
from loftwright.domain.sections import Difference, Section
from loftwright.report.numbers import fixed, signed

NOT_SEEN: Final = "mostly not seen"
NOT_MEASURED: Final = "not measured"
LEAST: Final = 0.02
"""A smaller difference is not named, however sure it is (a judgement)."""


def plays_like(name: str, other: str, found: Likeness) -> str:
    """Return in a sentence how a shaft compares with another.

    Parameters
    ----------
    name, other : str
        What the two are called.
    found : Likeness
    """
    if found.noise is None:
        return f"{name} and {other} were seen in no section alike: nothing is said."
    widest = differs_most(found)
    if widest is None:
        return (
            f"{name} plays like {other}: no section differs by over {fixed(100.0 * LEAST)} % and "
            f"beyond twice the bench’s noise, {percent(found.noise)}."
        )
    section, told = widest
    return (
        f"Against {other}, {name} differs most {at(section)}: {softer(told)}; bench noise "
        f"{percent(told.noise)}."
    )


def differs_most(found: Likeness) -> tuple[Section, Difference] | None:
    """Return the section that differs most of those worth a word; None if none is.

    A difference is worth one from 2 % on and beyond twice its noise. The widest of all may be the
    one that was seen worst.
    """
    worth = [
        (section, told)
        for section, told in found.bending.items()
        if told.told and abs(told.share) >= LEAST
    ]
    return max(worth, key=lambda one: abs(one[1].log), default=None)


def softer(told: Difference) -> str:
    """Return a difference in stiffness in words, such as ``9 % softer``."""
    share = told.share
    return f"{percent(abs(share))} {'softer' if share < 0.0 else 'stiffer'}"


def section_words(told: Difference | None) -> str:
    """Return a section's difference with its range of nine in ten."""
    if told is None:
        return NOT_SEEN
    half = 1.645 * told.noise * (1.0 + told.share)
    low, high = (100.0 * (told.share + side * half) for side in (-1.0, 1.0))
    return f"{signed(100.0 * told.share, 1)} % ({signed(low, 0)} to {signed(high, 0)})"


def apart_words(told: Apart | None, quantity: str) -> str:
    """Return a difference of weight or balance with its noise; a dash where nobody measured.

    Parameters
    ----------
    told : Apart, optional
    quantity : {"mass", "length"}
    """
    if told is None:
        return "–"
    if quantity == "mass":
        return f"{signed(1000.0 * told.value, 1)} g, noise {fixed(1000.0 * told.noise, 1)} g"
    return f"{signed(1000.0 * told.value, 0)} mm, noise {fixed(1000.0 * told.noise, 1)} mm"


def percent(share: float) -> str:
    """Return a share in per cent: whole from 3 % up, to one decimal below."""
    return f"{fixed(100.0 * share, 0 if share >= 0.03 else 1)} %"


def at(section: Section) -> str:
    """Return a section as a place: ``at the tip``, ``in the upper middle``."""
    ends = {Section.BUTT, Section.TIP}
    return f"{'at' if section in ends else 'in'} the {section.value}"

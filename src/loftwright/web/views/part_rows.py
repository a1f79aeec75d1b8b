"""Figures of parts beside the tested ones: a row of a table, and of the picture above them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.apart_picture import ApartRow
from loftwright.report.numbers import NONE
from loftwright.report.parts_words import (
    FIGURE_WORDS,
    FIT_WORDS,
    SILENT_WORDS,
    apart_words,
    figure_words,
    known_words,
    size_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.workshop.held import Held
from loftwright.workshop.parts import PartNow, State

PICTURE: Final = "How far the new parts stand from the tested ones"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldRow:
    """A figure beside the tested one's."""

    name: str
    reading: str
    target: str
    source: str
    apart: str
    allowed: str
    verdict: str
    why: str


def held_row(held: Held, show: Show) -> HeldRow:
    """Return a figure beside the tested one's as its table shows it."""
    target, source = (
        (NONE, "") if held.target is None else known_words(held.target, held.figure, show)
    )
    told = held.fit is not None
    if held.silent is not None:
        why = SILENT_WORDS[held.silent]
    else:
        why = f"known to {size_words(held.figure, held.doubt, show)}"
    return HeldRow(
        name=FIGURE_WORDS[held.figure],
        reading=NONE if held.reading is None else figure_words(held.figure, held.reading, show),
        target=target,
        source=source,
        apart=NONE if held.apart is None else apart_words(held.figure, held.apart, show),
        allowed=f"± {size_words(held.figure, held.tolerance, show)}" if told else "",
        verdict=FIT_WORDS[held.fit] if held.fit is not None else "",
        why=why,
    )


def apart_rows(parts: Sequence[PartNow], show: Show) -> tuple[ApartRow, ...]:
    """Return the rows of the picture: every figure that can be held, in tolerances."""
    return tuple(
        ApartRow(
            name=f"{part.part.value.capitalize()}, {FIGURE_WORDS[one.figure]}",
            apart=one.apart / one.tolerance,
            doubt=one.doubt / one.tolerance,
            says=apart_words(one.figure, one.apart, show),
        )
        for part in parts
        if part.state is not State.WRONG
        for one in part.held
        if one.apart is not None
    )

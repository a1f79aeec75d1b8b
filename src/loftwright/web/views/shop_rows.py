"""What a shop knows of things, and by how much bays differ, a row each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.screen_numbers import Show
from loftwright.report.shop_words import (
    NAMES,
    Believed,
    apart,
    range_words,
    scale_of,
    source_words,
)
from loftwright.services.shop_names import LEVEL_WORDS
from loftwright.services.shop_told import Told, offset_figures
from loftwright.shop.learned import ShopLearned

COLUMNS: Final = ("ball_speed", "launch", "spin", "head_speed")
OFFSETS: Final = ("ball_speed", "launch", "spin", "axis", "direction")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A figure with its unit, and its range under it."""

    best: str
    range: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A thing that clubs belong to.

    Attributes
    ----------
    depth : int
        How far below the widest it stands.
    under : str
        What it is, and where its figures come from if not from its own fittings.
    before : str
        What stands before its name for those who hear the page; empty where it is written whole.
    item : str
        Its address in the rack; empty without a page.
    """

    name: str
    under: str
    depth: int
    fittings: int
    cells: tuple[Cell, ...]
    before: str = ""
    item: str = ""


def effect_rows(
    told: Sequence[Told], show: Show, columns: Sequence[str], *, same: bool = False
) -> tuple[Row, ...]:
    """Return what is known of things, a row each."""
    return tuple(
        Row(
            name=one.mark or one.known.name,
            before=one.known.name.removesuffix(one.mark) if one.mark else "",
            under=_under(one, show),
            depth=one.depth,
            fittings=0 if one.known.likeness is not None else one.known.fittings,
            cells=_cells(one.known.same if same else one.known.figures, columns, show),
            item=f"/rack/items/{one.known.id}" if one.known.id else "",
        )
        for one in told
    )


def _cells(figures: Mapping[str, Believed], names: Sequence[str], show: Show) -> tuple[Cell, ...]:
    return tuple(
        Cell(best=apart(one, figures[one].mean, show), range=range_words(one, figures[one], show))
        if one in figures
        else Cell(best="–", range="")
        for one in names
    )


def offset_rows(learned: ShopLearned, show: Show) -> tuple[Row, ...]:
    """Return by how much devices and bays read differently, a row each."""
    return tuple(
        Row(
            name=one.name,
            under=one.kind,
            depth=0,
            fittings=one.fittings,
            cells=_cells(offset_figures(one), OFFSETS, show),
        )
        for one in learned.offsets
    )


def _under(told: Told, show: Show) -> str:
    words = LEVEL_WORDS[told.level]
    if told.known.likeness is None and not told.known.source:
        return words
    return f"{words}, {source_words(told.known, show)}"


def heading(figure: str, show: Show) -> str:
    """Return what stands over a column, with its unit."""
    name, unit = NAMES[figure], scale_of(figure, show)[1].strip()
    return f"{name[:1].upper()}{name[1:]}, {unit}"

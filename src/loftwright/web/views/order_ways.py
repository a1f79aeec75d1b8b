"""The rows of a choice as ways to order: what is wanted, what it costs, and why it cannot be."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final
from urllib.parse import quote as quoted

from loftwright.report.not_hit_words import made_words
from loftwright.report.numbers import NONE, count
from loftwright.report.screen_numbers import Show
from loftwright.services.wanted import Wanted
from loftwright.services.ways_on import Way
from loftwright.workshop.quote import line_total

CHEAP: Final = frozenset({Way.TURN_SLEEVE, Way.NO_SLEEVE, Way.NEW_SHAFT})


@dataclass(frozen=True, slots=True, kw_only=True)
class WayRow:
    """One way to order.

    Attributes
    ----------
    club : str
        Whose marker it bears.
    label : str
    built : str
        Head, shaft and length, or why it is no order.
    worth : str
        Against the own club, where that is told.
    price : str
    balls : str
        How many were hit, and how many are missing.
    link : str
        Where it is quoted; empty where it cannot be.
    """

    club: str
    label: str
    built: str
    worth: str
    price: str
    balls: str
    link: str


def way_rows(
    clubs: Sequence[Wanted], fitting: str, show: Show, currency: str
) -> tuple[WayRow, ...]:
    """Return every way to order.

    Parameters
    ----------
    clubs : sequence of Wanted
    fitting : str
        Its id, for the links.
    show : Show
    currency : str
    """
    return tuple(_row(one, fitting, show, currency) for one in clubs)


def cheap_ways(
    clubs: Sequence[Wanted], fitting: str, show: Show, currency: str
) -> tuple[WayRow, ...]:
    """Return the ways that keep the own head: the sleeve turned, a new shaft in it."""
    return way_rows([one for one in clubs if one.row.way in CHEAP], fitting, show, currency)


def order_link(fitting: str, label: str) -> str:
    """Return the address under which a row of the choice is quoted."""
    return f"/fittings/{fitting}/order?club={quoted(label)}#quote"


def _row(one: Wanted, fitting: str, show: Show, currency: str) -> WayRow:
    spec = one.spec
    if spec is None:
        return WayRow(
            club=one.row.club,
            label=made_words(one.label, show),
            built=f"{one.why_not[:1].upper()}{one.why_not[1:]}.",
            worth=NONE,
            price=NONE,
            balls=NONE,
            link="",
        )
    parts = (spec.head, spec.shaft, show.length(spec.length), _setting(spec.setting))
    return WayRow(
        club=one.row.club,
        label=made_words(one.label, show),
        built=" · ".join(part for part in parts if part),
        worth=_worth(one, show),
        price=_price(one, show, currency),
        balls=_balls(one),
        link=order_link(fitting, one.label),
    )


def _setting(setting: str) -> str:
    return f"sleeve {setting}" if setting else ""


def _worth(one: Wanted, show: Show) -> str:
    told = one.spec.promise.value if one.spec is not None and one.spec.promise else None
    if told is None:
        return NONE
    return f"{show.yards_apart(told.mean)} ({show.yards_range(told.low, told.high)})"


def _price(one: Wanted, show: Show, currency: str) -> str:
    totals = [line_total(line) for line in one.lines]
    if not totals or None in totals:
        return "not set"
    return show.money(sum(total for total in totals if total is not None), currency)


def _balls(one: Wanted) -> str:
    if not one.balls:
        return f"none; {one.to_hit} first"
    told = count(one.balls, "ball")
    return f"{told}; {one.to_hit} more first" if one.to_hit else told

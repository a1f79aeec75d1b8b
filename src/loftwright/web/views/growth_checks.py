"""Minors who are to be looked at, as the list of those to be asked shows them."""

from dataclasses import dataclass
from datetime import date

from loftwright.report.after_words import ask_words, day_words, growth_words
from loftwright.report.numbers import count
from loftwright.services.growth_checks import (
    MONTHS,
    GrowthCheck,
    GrowthChecks,
    proposed_check,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthRow:
    """A minor with a day.

    Attributes
    ----------
    was, next : str
        The day that stands and the one that is proposed, as forms send them.
    """

    id: str
    name: str
    who: str
    contact: str
    due: str
    was: str
    next: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthView:
    """The list of growth checks.

    Attributes
    ----------
    sentence : str
        How many are due; empty for none.
    """

    sentence: str
    rows: tuple[GrowthRow, ...]
    more: str
    months: int = MONTHS


def growth_view(told: GrowthChecks, today: date) -> GrowthView:
    """Return the list of growth checks.

    Parameters
    ----------
    told : GrowthChecks
    today : date
    """
    words = growth_words(told.due)
    left = told.due + told.later - len(told.shown)
    return GrowthView(
        sentence=f"{words}." if words else "",
        rows=tuple(_row(one, today) for one in told.shown),
        more=f"{count(left, 'more growth check')} later than these." if left else "",
    )


def _row(one: GrowthCheck, today: date) -> GrowthRow:
    golfer, identity = one.golfer.golfer, one.golfer.identity
    reach = identity.contact or "how to reach them is not written down"
    return GrowthRow(
        id=golfer.id,
        name=identity.name,
        who=ask_words(identity.name, identity.guardian, minor=True),
        contact=reach if golfer.consents.contact else "not to be contacted: when they come",
        due=_due(one.day, today),
        was=one.day.isoformat(),
        next=proposed_check(today).isoformat(),
    )


def _due(day: date, today: date) -> str:
    if day > today:
        return f"on {day_words(day)}"
    return "today" if day == today else f"for {count((today - day).days, 'day')}"

"""Who opened a golfer's record, as its page shows it."""

import re
from dataclasses import dataclass
from typing import Final

from loftwright.services.openings import KEPT, WHILE, opened_by
from loftwright.services.studio import Studio

_BEFORE: Final = re.compile(r"^(?:/api)?/(?:fittings|golfers|follow-ups|build)/[^/]+/?")
YEARS: Final = KEPT.days // 365
MINUTES: Final = int(WHILE.total_seconds() // 60)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedRow:
    """One line of the table."""

    when: str
    who: str
    page: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedView:
    """The whole table, the last one first."""

    rows: tuple[OpenedRow, ...]
    years: int = YEARS
    minutes: int = MINUTES


def opened_view(studio: Studio, golfer: str) -> OpenedView:
    """Return who opened a golfer's record.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    """
    return OpenedView(
        rows=tuple(
            OpenedRow(
                when=f"{one.at:%-d %B %Y, %H:%M}",
                who=f"{one.device} ({one.by})" if one.by else one.device,
                page=page_words(one.page),
            )
            for one in opened_by(studio, golfer)
        )
    )


def page_words(address: str) -> str:
    """Return which page an address is, without the ids in it."""
    left = _BEFORE.sub("", address).strip("/").partition("/")[0]
    words = left.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:] if words else "Record"

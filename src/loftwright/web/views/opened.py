"""Who opened a golfer's record, as its page shows it."""

from dataclasses import dataclass
from typing import Final

from loftwright.services.openings import KEPT, WHILE, opened_by, page_words
from loftwright.services.studio import Studio

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

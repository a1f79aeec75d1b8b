"""Print a fitting that was read."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from loftwright import __version__
from loftwright.errors import InputError
from loftwright.report.content import ReportContent
from loftwright.report.document import write_report
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.services.read import Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """What a report says of a visit besides its balls; empty where not known."""

    golfer: str = ""
    fitter: str = ""
    studio: str = ""
    day: date | None = None
    conditions: tuple[str, ...] = ()


def day_of(text: str | None) -> date | None:
    """Return a day written as 2026-05-14.

    Raises
    ------
    InputError
        For a text that is no day.
    """
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(
            f"{text!r} is no day", place="--date", mend="Write year-month-day: 2026-05-14."
        ) from None


def print_fitting(reading: Reading, path: Path, visit: Visit, show: Show = TRADE) -> None:
    """Write the two pages of a fitting as PDF.

    Parameters
    ----------
    reading : Reading
    path : Path
    visit : Visit
    show : Show
        The units and the decimal mark of every figure.
    """
    write_report(
        ReportContent(
            decision=reading.decision,
            table=reading.table,
            golfer=visit.golfer,
            fitter=visit.fitter,
            studio=visit.studio,
            visit_date=visit.day,
            hand=reading.hand,
            conditions=visit.conditions,
            version=__version__,
            show=show,
        ),
        path,
    )

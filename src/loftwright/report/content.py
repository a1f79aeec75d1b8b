"""What a printed report is made of."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import Decision
from loftwright.report.screen_numbers import TRADE, Show

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportContent:
    """Everything that a report shows; the same content gives the same bytes.

    Attributes
    ----------
    decision : Decision
        The comparison.
    table : ShotTable
        The table it was read from.
    golfer, fitter, studio : str
        Names as they are to be printed; empty where not known.
    visit_date : date, optional
        The day of the visit from the file or the caller, never the clock's.
    hand : {"right", "left"}
        The golfer's hand.
    conditions : tuple of str
        What else was the same for all balls: device, ball, mat, tee.
    version : str
        Of the program that computed it.
    show : Show
        The units and the decimal mark of every figure.
    counts : {"row", "ball"}
        What the table's rows are to the reader: rows of a file, or numbers of a fitting's balls.
    listed : str
        Where all of them are listed that the fitter's page has no room for.
    """

    decision: Decision
    table: ShotTable
    golfer: str = ""
    fitter: str = ""
    studio: str = ""
    visit_date: date | None = None
    hand: Literal["right", "left"] = "right"
    conditions: tuple[str, ...] = ()
    version: str = ""
    show: Show = TRADE
    counts: Literal["row", "ball"] = "row"
    listed: str = "by read --json"

    @property
    def date_words(self) -> str:
        """The day of the visit as people write it, empty where not known."""
        if self.visit_date is None:
            return ""
        day = self.visit_date
        return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"

    @property
    def title(self) -> str:
        """The document's title."""
        whom = f" for {self.golfer}" if self.golfer else ""
        when = f", {self.date_words}" if self.visit_date else ""
        return f"Driver fitting{whom}{when}"

"""What a store can tell of all its fittings at once, without reading their records."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from typing import Protocol


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A fitting in a line.

    Attributes
    ----------
    fitting, golfer, fitter : str
    invented, bay_check : bool
    opened : date
    end : int
        Sequence at which its newest append begins; 0 while its record is empty.
    """

    fitting: str
    golfer: str
    fitter: str
    invented: bool
    bay_check: bool
    opened: date
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """How a fitting's record ends.

    Attributes
    ----------
    end : int
        As in the outline.
    at : datetime
        When that was written.
    closing : bool
        Whether its last entry closes the fitting. Where it does not, only a replay tells whether
        the fitting is closed: it may have been corrected since.
    """

    end: int
    at: datetime
    closing: bool


class OverviewStore(Protocol):
    """What every store tells of all its fittings."""

    def outlines(self) -> tuple[Outline, ...]:
        """Return every fitting in a line, the newest first."""

    def endings(self, fittings: Collection[str]) -> dict[str, Ending]:
        """Return how the records of these fittings end; an empty record has no ending."""

    def job_ends(self) -> dict[str, int]:
        """Return the fittings that have a job, with the last sequence of the job's record."""

    def contact(self) -> dict[str, bool]:
        """Return whether each record's golfer agreed to be asked, without who was erased.

        By the record that stands for all of that golfer's.
        """

    def agreed(self) -> dict[str, str]:
        """Return the records of golfers who agreed to the shop record, with the standing one.

        Whether they were erased since is not looked at.
        """

    def roll(self) -> tuple[str, ...]:
        """Return the golfers' records that point to no other one, the newest first."""

    def names(self) -> dict[str, str]:
        """Return the names of the golfers on the roll, in its order, without who was erased."""

    def growth_checks(self) -> dict[str, date]:
        """Return when minors on the roll are to be looked at, without who was erased."""

    def to_keep(self) -> frozenset[str]:
        """Return the golfers on the roll who agreed that they are kept after the visit."""

    def to_publish(self) -> frozenset[str]:
        """Return the records of golfers who agreed to publishing and to the shop record."""

    def seconds(self) -> dict[str, str]:
        """Return the records that point to another one, with that one, the newest first."""

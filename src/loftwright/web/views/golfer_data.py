"""What is kept of a golfer and what an erase takes, as its page shows it."""

from dataclasses import dataclass

from loftwright.report.numbers import count
from loftwright.services.erasing_look import Going, said
from loftwright.services.retention import Due


@dataclass(frozen=True, slots=True, kw_only=True)
class EraseView:
    """The page that asks before a golfer is erased.

    Attributes
    ----------
    lines : tuple of (str, str)
        What goes, stays or takes longer: a word and what it is of.
    """

    sentence: str
    lead: str
    initials: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DueRow:
    """A golfer who is due."""

    id: str
    name: str
    last: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DueView:
    """Who is due.

    Attributes
    ----------
    years, version : int
    more : str
        How many are not shown; empty if all are.
    unfinished : bool
        Whether an erase waits to be finished.
    """

    rows: tuple[DueRow, ...]
    more: str
    years: int
    version: int
    unfinished: bool


def erase_view(going: Going) -> EraseView:
    """Return the page that asks before a golfer is erased."""
    of = f"{count(going.fittings, 'fitting')} with {count(going.balls, 'ball')}"
    parted = tuple(line.partition(": ") for line in said(going))
    return EraseView(
        sentence=f"Erasing {going.initials} takes {of}, and nobody can bring them back.",
        lead="Hand over the golfer’s copy first, if it is wanted.",
        initials=going.initials,
        lines=tuple((what, words) for what, _, words in parted),
    )


def due_view(due: Due, years: int, version: int, *, unfinished: bool) -> DueView:
    """Return who is due, as the page of people shows it."""
    return DueView(
        rows=tuple(
            DueRow(
                id=one.known.golfer.id,
                name=one.known.identity.name,
                last=f"{one.last:%-d %B %Y}",
                why="last visit long ago" if one.agreed else "did not agree to be kept",
            )
            for one in due.golfers
        ),
        more=f"{count(due.more, 'golfer')} more; erase or ask these first." if due.more else "",
        years=years,
        version=version,
        unfinished=unfinished,
    )

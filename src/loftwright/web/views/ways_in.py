"""The ways in as their page shows them, and what became of what came in."""

import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.intake.doubts import Doubt
from loftwright.intake.feed_keys import EXAMPLE
from loftwright.intake.folder import FileReport
from loftwright.report.numbers import count, listed
from loftwright.services.shots import Taken
from loftwright.services.tables_in import TableTaken

SOURCES: Final = {
    "feed": "by feed",
    "folder": "from the watched folder",
    "table": "from a table",
    "keyboard": "typed",
    "sheet": "from paper",
    "virtual": "invented",
}
_NONE: Final = "No ball is in yet: a feed, a folder, a table, the keyboard or paper will do."
_SHOWN: Final = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One doubt of a table, with the ways that settle it."""

    name: str
    says: str
    samples: tuple[str, ...]
    ways: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysInView:
    """The page.

    Attributes
    ----------
    example : str
        A ball to copy, as a command that posts it.
    path : str
        What is watched; empty if nothing is.
    files : tuple of FileReport
    """

    sentence: str
    objection: str
    example: str
    path: str
    files: tuple[FileReport, ...]
    closed: bool


def ways_in_view(
    now: FittingNow, *, address: str, path: str, files: Sequence[FileReport]
) -> WaysInView:
    """Return the page of the ways in.

    Parameters
    ----------
    now : FittingNow
    address : str
        Where a feed posts its balls.
    path : str
        The watched file or folder.
    files : sequence of FileReport
    """
    return WaysInView(
        sentence=_sentence(now),
        objection=_objection(now),
        example=_example(address),
        path=path,
        files=tuple(files),
        closed=now.closed,
    )


def questions(doubts: Sequence[Doubt]) -> tuple[Question, ...]:
    """Return the doubts of a table as a form asks them."""
    return tuple(
        Question(
            name=f"answer-{place}",
            says=doubt.question,
            samples=tuple(f"line {row}: {value}" for row, value in doubt.samples),
            ways=doubt.options,
        )
        for place, doubt in enumerate(doubts)
    )


def table_words(taken: TableTaken) -> str:
    """Return what became of a table."""
    said = [f"{count(taken.new, 'ball')} came in"]
    if taken.known:
        said.append(f"{taken.known} {'was' if taken.known == 1 else 'were'} there already")
    if taken.refused:
        shown = "; ".join(f"line {one.row}: {one.why}" for one in taken.refused[:_SHOWN])
        more = len(taken.refused) - _SHOWN
        shown += f"; and {more} more" if more > 0 else ""
        rows = count(len(taken.refused), "row is no ball", "rows are no balls")
        said.append(f"{rows} ({shown})")
    return " ".join([f"{listed(said)}.", *(f"{one}." for one in taken.warnings)])


def sheet_words(taken: Sequence[Taken]) -> str:
    """Return what became of a paper sheet."""
    known = sum(one.repeated for one in taken)
    said = f"{count(len(taken) - known, 'ball')} of the sheet came in"
    if known:
        said += f"; {known} {'was' if known == 1 else 'were'} there already"
    problems = [f"Ball {one.number}: {problem}" for one in taken for problem in one.problems]
    return " ".join([f"{said}.", *problems])


def _sentence(now: FittingNow) -> str:
    if not now.swings:
        return _NONE
    ways = Counter(swing.source for swing in now.swings if swing.source in SOURCES)
    told = [f"{number} {SOURCES[way]}" for way, number in ways.most_common()]
    unread = sum(swing.numbers is None for swing in now.swings)
    told += [f"{unread} not read"] if unread else []
    whole = count(len(now.swings), "ball is in", "balls are in")
    if len(ways) == 1 and not unread:
        return f"{whole}, {'' if len(now.swings) == 1 else 'all '}{SOURCES[next(iter(ways))]}."
    return f"{whole}: {listed(told)}."


def _objection(now: FittingNow) -> str:
    if now.closed:
        return "The fitting is closed: it takes corrections, no balls."
    strange = sum(swing.not_ours for swing in now.swings)
    if not strange:
        return ""
    said = count(strange, "of them is not this golfer's", "of them are not this golfer's")
    return f"{said}; nothing leaves the record."


def _example(address: str) -> str:
    return f"curl -H 'Content-Type: application/json' -d '{json.dumps(dict(EXAMPLE))}' {address}"

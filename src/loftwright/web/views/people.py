"""Who fits here, as its page shows it."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.report.numbers import count, listed
from loftwright.services.leaving import Gone
from loftwright.web.views.rack_rows import Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class FitterRow:
    """A fitter whom lists offer, with devices by that name and bays in their hand."""

    name: str
    devices: str
    hands: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GoneRow:
    """A fitter who left."""

    name: str
    since: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceTick:
    """A device that may be in a leaving person's hands."""

    id: str
    words: str
    ticked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondRow:
    """A second record of a golfer."""

    id: str
    name: str
    first: str
    since: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PeopleView:
    """The page."""

    sentence: str
    lead: str
    fitters: tuple[FitterRow, ...]
    gone: tuple[GoneRow, ...]
    golfers: tuple[Choice, ...]
    found: str
    seconds: tuple[SecondRow, ...]


def found_words(find: str, golfers: int, most: int) -> str:
    """Return which golfers the lists offer; empty where they offer all of them."""
    if find.split():
        told = f"{count(golfers, 'golfer')} found by “{find.strip()}”"
        return f"{told}; the newest {most} are offered." if golfers > most else f"{told}."
    if golfers > most:
        return f"The newest {most} of {count(golfers, 'golfer')} are offered; find others by name."
    return ""


def people_sentence(names: Sequence[str], left: Sequence[Gone]) -> tuple[str, str]:
    """Return who fits here in a sentence, and who left."""
    lead = f"{listed([one.name for one in left])} left; what they wrote is there." if left else ""
    if not names:
        return "No fitting bears a fitter’s name yet.", lead
    if len(names) <= 3:
        fits = "fits" if len(names) == 1 else "fit"
        return f"{listed(list(names))} {fits} here.", lead
    return f"{count(len(names), 'fitter')} fit here.", lead

"""For how long golfers are kept, and who is due to be erased or asked again."""

import json
from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.errors import InputError
from loftwright.services.bay_check import read_house
from loftwright.services.golfers import KnownGolfer, known_golfer
from loftwright.services.studio import Studio
from loftwright.store.interface import Versioned
from loftwright.store.overview import Outline

NAME: Final = "retention"
USUAL_YEARS: Final = 5
"""Years after the last visit (judgement; the studio and its adviser decide)."""
MOST_YEARS: Final = 50
MOST_SHOWN: Final = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class DueGolfer:
    """A golfer who is due.

    Attributes
    ----------
    last : date
        Of the last visit.
    agreed : bool
        Whether the golfer agreed that the fitting is kept after the visit.
    """

    known: KnownGolfer
    last: date
    agreed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """Who is due, those who were here longest ago first.

    Attributes
    ----------
    golfers : tuple of DueGolfer
        At most a hundred.
    more : int
        Further ones.
    """

    golfers: tuple[DueGolfer, ...]
    more: int


def read_years(studio: Studio) -> Versioned[int]:
    """Return after how many years without a visit a golfer is due."""
    kept = studio.store.setting(NAME)
    years = int(json.loads(kept.value)["years"]) if kept.value else USUAL_YEARS
    return Versioned(value=years, version=kept.version)


def change_years(studio: Studio, years: int, *, version: int) -> int:
    """Say after how many years a golfer is due and return the new version.

    Raises
    ------
    InputError
        If nobody is kept for so long.
    ConflictError
        If somebody else changed it since it was read.
    """
    if not 1 <= years <= MOST_YEARS:
        raise InputError(
            f"{years} years cannot be", place="years", mend=f"Give 1 to {MOST_YEARS}."
        )
    return studio.store.set_setting(NAME, json.dumps({"years": years}), version=version)


def due(studio: Studio) -> Due:
    """Return who was here for the last time too long ago, or did not agree to be kept.

    Whoever did not agree is due from the day after the last visit. Invented golfers are not.
    """
    today, years = studio.today(), read_years(studio).value
    store, people = studio.store, read_house(studio).house.people
    fittings, kept = _by_golfer(studio), store.to_keep()
    found = []
    for golfer in store.names():
        theirs = fittings.get(golfer, [])
        if golfer in people or all(one.invented for one in theirs):
            continue
        before = years_before(today, years) if golfer in kept else today
        opened = max(one.opened for one in theirs)
        if opened < before:
            found.append((opened, golfer, before))
    found.sort(key=lambda one: one[0])
    shown = [
        DueGolfer(known=known_golfer(studio, golfer), last=last, agreed=golfer in kept)
        for opened, golfer, before in found[:MOST_SHOWN]
        if (last := _last(studio, fittings[golfer], opened)) < before
    ]
    return Due(
        golfers=tuple(sorted(shown, key=lambda one: one.last)),
        more=max(0, len(found) - MOST_SHOWN),
    )


def years_before(day: date, years: int) -> date:
    """Return the same day some years earlier; 28 February for one that is not there."""
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)


def _by_golfer(studio: Studio) -> dict[str, list[Outline]]:
    first = studio.store.seconds()
    found: defaultdict[str, list[Outline]] = defaultdict(list)
    for one in studio.store.outlines():
        found[first.get(one.golfer, one.golfer)].append(one)
    return found


def _last(studio: Studio, fittings: list[Outline], opened: date) -> date:
    days = [visit.day for one in fittings for visit in studio.standing(one.fitting).visits]
    return max([*days, opened])

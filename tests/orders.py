"""Invented clubs to order, quotes of them, and records of jobs."""

from collections.abc import Sequence
from datetime import UTC, date, datetime
from typing import Any

from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.golfer import Hand
from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.order import ClubSpec, Kept, PriceKind, PriceLine, Promise, Quote, Told
from loftwright.domain.rack import SleeveSetting

QUOTED_AT = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
LAST = date(2026, 12, 25)
PROMISE = Promise(
    home="Farrow Links",
    ball_speed=148.0 * MILE_PER_HOUR,
    launch=12.3 * DEGREE,
    spin=2540.0 * REVOLUTION_PER_MINUTE,
    carry=238.0 * YARD,
    total=255.0 * YARD,
    fairways_in_14=8.3,
    value=Told(mean=3.3 * YARD, low=-0.5 * YARD, high=7.1 * YARD),
)
LINES = (
    PriceLine(what="Club: Harrow 460, Reedmace firm", kind=PriceKind.PART, price=42900),
    PriceLine(what="Build and grip", kind=PriceKind.LABOUR, price=6000),
    PriceLine(what="Spare sleeve", kind=PriceKind.PART, price=2450, count=2),
)


def a_spec(**more: Any) -> ClubSpec:  # noqa: ANN401 - whatever a test changes
    """Return an invented club to order."""
    told: dict[str, Any] = {
        "label": "Ash",
        "club": "Ash",
        "assembly": "assembly-Ash",
        "hand": Hand.RIGHT,
        "kept": Kept.NOTHING,
        "head": "Harrow 460",
        "shaft": "Reedmace firm",
        "grip": "",
        "head_piece": "head-1",
        "shaft_piece": "shaft-Ash",
        "loft": 10.5 * DEGREE,
        "lie": 58.0 * DEGREE,
        "face": 0.0,
        "setting": "middle",
        "settings": (SleeveSetting(name="middle"),),
        "length": 45.25 * INCH,
        "hit": True,
        "promise": PROMISE,
        "why": ("8 balls hit with just this club.",),
    }
    return ClubSpec(**told | more)


def a_quote(**more: Any) -> Quote:  # noqa: ANN401 - whatever a test changes
    """Return an invented quote."""
    told: dict[str, Any] = {
        "spec": a_spec(),
        "lines": LINES,
        "tax": 0.2,
        "deposit": 0.3,
        "currency": "crowns",
        "lead_days": 14,
        "valid_until": LAST,
    }
    return Quote(**told | more)


def a_record(*groups: Sequence[JobAct], at: datetime = QUOTED_AT) -> tuple[JobEntry, ...]:
    """Return a job's record of acts that were written in groups."""
    found: list[JobEntry] = []
    for acts in groups:
        first = len(found) + 1
        found += [
            JobEntry(sequence=first + place, at=at, by="", act=act, group=first)
            for place, act in enumerate(acts)
        ]
    return tuple(found)

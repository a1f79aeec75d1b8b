"""A studio in memory on a day that stands still, with parts of its rack filled in."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import mkdtemp

from fastapi import APIRouter, FastAPI

from fakes import MemoryStore
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.golfer import Hand
from loftwright.domain.rack import Assembly, HeadModel, Piece, ShaftModel, Sleeve, SleeveSetting
from loftwright.services.rack import add_item
from loftwright.services.rack_adding import NewClub, NewHead, NewShaft, add_head, add_shaft
from loftwright.services.studio import Studio
from loftwright.web.app import create_app

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@dataclass(slots=True)
class Clock:
    """A clock that stands until it is moved."""

    at: datetime = field(default=NOON)

    def __call__(self) -> datetime:
        return self.at

    def forward(self, minutes: float) -> None:
        self.at += timedelta(minutes=minutes)


def studio_in_memory(clock: Clock | None = None) -> Studio:
    """Return a studio whose store is a dictionary, with an empty data folder of its own."""
    folder = Path(mkdtemp(prefix="loftwright-"))
    return Studio(store=MemoryStore(), folder=folder, clock=clock or Clock())


def app_of(studio: Studio, *routers: APIRouter) -> FastAPI:
    """Return the web application of a studio with these pages; all of them without any."""
    return create_app(studio, routers=routers or None)


def a_head(
    studio: Studio,
    name: str = "Harrow 460",
    loft: float = 10.5,
    *,
    hand: Hand = Hand.RIGHT,
    system: str = "",
    place: str = "",
) -> Piece:
    """Add an invented head and return its sample."""
    model = HeadModel(id="", maker="", name=name, loft=loft * DEGREE, hand=hand, system=system)
    return add_head(studio, NewHead(model=model, place=place))


def a_sleeve(studio: Studio, system: str = "Quarter") -> Sleeve:
    """Add an invented sleeve of two settings."""
    settings = (
        SleeveSetting(name="middle"),
        SleeveSetting(name="one up", bore=1.5 * DEGREE),
    )
    return add_item(
        studio, Sleeve(id="", name=f"{system} sleeve", system=system, settings=settings)
    )


def a_shaft(
    studio: Studio,
    name: str = "Reedmace",
    grams: float | None = 60.0,
    label: str = "firm",
    *,
    head: Piece | None = None,
    length: float = 45.25,
    sleeve: Sleeve | None = None,
    setting: str = "",
    price: int | None = None,
    place: str = "",
) -> tuple[Piece, Assembly | None]:
    """Add an invented shaft, on a head if one is given."""
    club = None
    if head is not None:
        club = NewClub(head=head.id, length=length * INCH, setting=setting, price=price)
    model = ShaftModel(
        id="",
        maker="",
        name=name,
        paper_mass=None if grams is None else grams * GRAM,
        paper_label=label,
    )
    return add_shaft(
        studio,
        NewShaft(model=model, sleeve=sleeve.id if sleeve else None, club=club, place=place),
    )


def a_club(studio: Studio, head: Piece, name: str, grams: float, length: float) -> Assembly:
    """Add an invented shaft on a head and return the club."""
    _, club = a_shaft(studio, name, grams, head=head, length=length)
    assert club is not None
    return club

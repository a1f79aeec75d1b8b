"""The workshop of the invented studio: its price list, what was measured, and a golfer's bag."""

from datetime import date
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.bag import Bag, BagClub, BagKind
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.order import PriceKind
from loftwright.domain.rack import Assembly
from loftwright.domain.terms import Adhesive, ListedPrice, Terms
from loftwright.physics.build.swingweight import FULCRUM, USUAL_SCALE
from loftwright.services.bags import keep_bag, with_clubs
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms

BUILDER: Final = "Isolde Thatch (invented)"
TERMS: Final = Terms(
    prices=(
        ListedPrice(what="Build and balance", kind=PriceKind.LABOUR, price=4500, usual=True),
        ListedPrice(what="Plain grip (invented)", kind=PriceKind.PART, price=1250, usual=True),
        ListedPrice(what="Spare sleeve (invented)", kind=PriceKind.PART, price=2450),
        ListedPrice(what="Tip trim", kind=PriceKind.LABOUR, price=1000),
    ),
    tax=0.2,
    deposit=0.3,
    adhesives=(Adhesive(name="Slow two-part glue (invented)", hours=24.0),),
)

_CLUBS: Final = ((318.0, 32.0), (321.0, 33.0), (315.0, 31.5), (324.0, 33.5), (317.0, 32.0))
"""Grams and points of the shop's own clubs, in the rack's order, then again from the first."""
_HEADS: Final = ((198.0, 0.1, 58.2), (200.5, -0.2, 57.8), (197.0, 0.3, 58.4))
"""Grams, degrees of loft over what is printed, degrees of lie."""
_BAG: Final = (
    ("4 wood", BagKind.WOOD, 17.0, 42.5, 338.0, 32.0),
    ("4 hybrid", BagKind.HYBRID, 22.0, 40.0, 372.0, 31.5),
    ("5 iron", BagKind.IRON, 25.0, 38.0, 410.0, 31.0),
    ("6 iron", BagKind.IRON, 28.0, 37.5, 417.0, 31.0),
    ("7 iron", BagKind.IRON, 32.0, 37.0, 424.0, 31.5),
    ("8 iron", BagKind.IRON, 36.5, 36.5, 431.0, 31.5),
    ("9 iron", BagKind.IRON, 41.0, 36.0, 439.0, 34.5),
    ("Pitching wedge", BagKind.WEDGE, 46.0, 35.75, 446.0, 33.0),
    ("54 wedge", BagKind.WEDGE, 54.0, 35.25, 459.0, 34.0),
)
"""Name, kind, degrees, inches, grams and points of invented clubs."""


def fill_workshop(studio: Studio, clubs: tuple[Assembly, ...], day: date) -> None:
    """Put the terms and the measured cards of the shop's clubs and heads into the demo.

    Parameters
    ----------
    studio : Studio
    clubs : tuple of Assembly
        The shop's own.
    day : date
        On which they were measured.
    """
    if not read_terms(studio).version:
        change_terms(studio, TERMS, version=0)
    rack = studio.store.rack()
    for place, club in enumerate(clubs):
        mass, points = _CLUBS[place % len(_CLUBS)]
        figures = PartFigures(
            mass=mass * GRAM,
            balance=FULCRUM + USUAL_SCALE.moment(points) / (mass * GRAM),
            length=club.length,
            swingweight=points,
        )
        _keep(studio, club.id, day, figures)
    for place, head in enumerate(dict.fromkeys(club.head for club in clubs)):
        mass, over, lie = _HEADS[place % len(_HEADS)]
        loft = rack.heads[rack.pieces[head].model].loft + over * DEGREE
        figures = PartFigures(mass=mass * GRAM, loft=loft, lie=lie * DEGREE, face=0.0)
        _keep(studio, head, day, figures)


def fill_bag(studio: Studio, golfer: str) -> None:
    """Put an invented bag, one club of which stands out, beside a golfer of the demo."""
    clubs = tuple(
        BagClub(
            name=name,
            kind=kind,
            loft=loft * DEGREE,
            length=length * INCH,
            mass=mass * GRAM,
            swingweight=points,
        )
        for name, kind, loft, length, mass, points in _BAG
    )
    keep_bag(studio, golfer, with_clubs(Bag(), clubs, "typing them in"), version=0)


def _keep(studio: Studio, item: str, day: date, figures: PartFigures) -> None:
    studio.store.keep_card(MeasuredCard(item=item, day=day, by=BUILDER, figures=figures))

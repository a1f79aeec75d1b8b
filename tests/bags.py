"""An invented bag: a run of irons that is even but where it is told otherwise, woods, a putter."""

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
)
from loftwright.domain.bag import Bag, BagClub, BagKind, Known, Swung, Timed
from loftwright.domain.build_sheet import LengthMethod

IRON_LOFTS = (23.0, 26.0, 29.5, 33.5, 37.5, 42.0)
"""Of a 4 to a 9 iron as sets are usual (from memory)."""


def an_iron(
    number: int,
    *,
    longer: float = 0.0,
    points: float = 0.0,
    inertia: float = 0.0,
    cycles: float = 0.0,
) -> BagClub:
    """Return an iron of an even set, or one off it by inches, points, kg cm² and cpm."""
    place = number - 4
    return BagClub(
        name=f"{number} iron",
        kind=BagKind.IRON,
        loft=IRON_LOFTS[place] * DEGREE,
        length=(38.5 - 0.5 * place + longer) * INCH,
        swingweight=32.0 + points,
        inertia=(2700.0 - 10.0 * place + inertia) * KILOGRAM_SQUARE_CENTIMETRE,
        timed=Timed(frequency=(290.0 + 4.0 * place + cycles) * CYCLE_PER_MINUTE, clamp=5.0 * INCH),
    )


def irons() -> tuple[BagClub, ...]:
    """Return six even irons."""
    return tuple(an_iron(number) for number in range(4, 10))


def a_bag() -> Bag:
    """Return a bag in which the 7 iron is 3 points too heavy, with much that nobody measured."""
    driver = BagClub(
        name="Driver",
        kind=BagKind.WOOD,
        loft=10.5 * DEGREE,
        length=45.5 * INCH,
        mass=315.6 * GRAM,
        balance=33.522 * INCH,
        swung=Swung(pivot=0.05, period=2.030184),
        doubts={Known.LENGTH: 0.04 * INCH},
    )
    wood = BagClub(
        name="4 wood",
        kind=BagKind.WOOD,
        loft=17.0 * DEGREE,
        length=42.75 * INCH,
        method=LengthMethod.RULER,
        timed=Timed(frequency=262.0 * CYCLE_PER_MINUTE, clamp=5.0 * INCH, tip_mass=210.0 * GRAM),
    )
    wedge = BagClub(name="56 wedge", kind=BagKind.WEDGE, loft=56.0 * DEGREE, length=35.25 * INCH)
    putter = BagClub(name="Putter", kind=BagKind.PUTTER, length=34.0 * INCH)
    old = BagClub(name="7 iron, old", kind=BagKind.IRON, loft=33.0 * DEGREE, spare=True)
    sound = (an_iron(number) for number in (4, 5, 6, 8, 9))
    return Bag(clubs=(putter, old, *sound, an_iron(7, points=3.0), driver, wood, wedge))

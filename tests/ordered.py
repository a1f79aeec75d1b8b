"""An agreed order in a studio: a golfer, a tested club on the rack and a quote for its like."""

from dataclasses import dataclass, replace
from datetime import date

from loftwright.constants import DEGREE, GRAM, INCH, REVOLUTION_PER_MINUTE
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.order import ClubSpec, Kept, Promise, Quote
from loftwright.domain.order_acts import Agreed, Quoted
from loftwright.domain.parts_acts import Part, PartCame
from loftwright.domain.rack import Assembly, SleeveSetting
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.job import job_act
from loftwright.services.measured_cards import keep_measured
from loftwright.services.studio import Studio
from studios import a_head, a_shaft, a_sleeve

HEAD = PartFigures(mass=200.0 * GRAM, loft=10.5 * DEGREE, lie=58.0 * DEGREE, face=0.0)
"""Of the tested head, as measured."""

SETTINGS = (
    SleeveSetting(name="middle"),
    SleeveSetting(name="one up", bore=0.85 * DEGREE),
    SleeveSetting(name="two up", bore=1.7 * DEGREE),
    SleeveSetting(name="one down", bore=0.85 * DEGREE, azimuth=180.0 * DEGREE),
)
PROMISE = Promise(
    home="Mossy Bottom",
    ball_speed=67.0,
    launch=12.5 * DEGREE,
    spin=2600.0 * REVOLUTION_PER_MINUTE,
    carry=205.0,
    total=222.0,
    fairways_in_14=None,
    value=None,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """A fitting whose order is agreed, and the tested club."""

    fitting: str
    spec: ClubSpec
    club: Assembly


def a_spec(**changes: object) -> ClubSpec:
    """Return the spec of an invented club as it was tested."""
    spec = ClubSpec(
        label="Ash",
        club="Ash",
        assembly="a1",
        hand=Hand.RIGHT,
        kept=Kept.NOTHING,
        head="Harrow 460, 10.5",
        shaft="Reedmace 60 firm",
        grip="plain, 50 g",
        head_piece="h1",
        shaft_piece="s1",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        setting="middle",
        settings=SETTINGS,
        length=45.25 * INCH,
        hit=True,
        promise=PROMISE,
    )
    return replace(spec, **changes)  # type: ignore[arg-type]


def an_order(
    studio: Studio, *, card: PartFigures | None = HEAD, agreed: bool = True, **changes: object
) -> Ordered:
    """Write a quote for the like of a tested club, agreed to unless told otherwise.

    Parameters
    ----------
    studio : Studio
    card : PartFigures, optional
        What was measured of the tested head; None for nothing.
    agreed : bool
    **changes
        Of the spec.
    """
    hand = changes.get("hand", Hand.RIGHT)
    assert isinstance(hand, Hand)
    sleeve = a_sleeve(studio)
    head = a_head(studio, hand=hand, system=sleeve.system)
    _, club = a_shaft(studio, head=head, sleeve=sleeve, setting="middle")
    assert club is not None
    golfer = Golfer(id="", hand=hand)
    visitor = Visitor(golfer=golfer, identity=Identity(name="Ida Thrupp (invented)"))
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    spec = a_spec(
        **{
            "assembly": club.id,
            "head_piece": head.id,
            "shaft_piece": club.shaft,
            **changes,
        }
    )
    if card is not None:
        keep_measured(studio, head.id, card, by="Ann")
    quote = Quote(
        spec=spec,
        lines=(),
        tax=0.2,
        deposit=0.3,
        currency="EUR",
        lead_days=14,
        valid_until=date(2026, 12, 24),
    )
    job_act(studio, fitting, [Quoted(quote=quote)])
    if agreed:
        job_act(studio, fitting, [Agreed(name="I. T.")])
    return Ordered(fitting=fitting, spec=spec, club=club)


def a_head_came(**changes: float | None) -> PartCame:
    """Return a new head that is as the tested one, but for what is told."""
    return PartCame(part=Part.HEAD, figures=replace(HEAD, **changes), serial="H-17")

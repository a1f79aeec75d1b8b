"""A fitting whose club was ordered, built, checked and taken, from invented parts."""

from dataclasses import dataclass, field
from datetime import date, timedelta

from builds import BUILD_TOML
from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.check_acts import Against, Outcome, PickedUp, Received
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity
from loftwright.domain.home import Home
from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.order import ClubSpec, Kept, PriceKind, PriceLine, Promise, Quote, Told
from loftwright.domain.order_acts import Agreed, OrderSent, Quoted
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.sheet_acts import SheetIssued
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.job import job_act
from loftwright.services.studio import Studio
from studios import Clock, studio_in_memory

PROMISE = Promise(
    home="Standard hole",
    ball_speed=140.0 * MILE_PER_HOUR,
    launch=12.0 * DEGREE,
    spin=2700.0 * REVOLUTION_PER_MINUTE,
    carry=222.0 * YARD,
    total=240.0 * YARD,
    fairways_in_14=8.0,
    value=Told(mean=6.0 * YARD, low=1.0 * YARD, high=11.0 * YARD),
)
FINAL_CHECK = """\
[length_inch]
value = 45.0
u95 = 0.03

[swingweight]
value = "D3"
u95 = 0.3

[mass_g]
value = 325.0
u95 = 0.3

[loft_deg]
value = 10.5
u95 = 0.2
"""


def spec(promise: Promise | None = PROMISE) -> ClubSpec:
    """Return an invented club that was ordered."""
    return ClubSpec(
        label="Ash, L1",
        club="Ash",
        assembly="a-1",
        hand=Hand.RIGHT,
        kept=Kept.NOTHING,
        head="Harrow 460 10.5°",
        shaft="Reedmace 60 firm",
        grip="",
        head_piece="h-1",
        shaft_piece="s-1",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        setting="L1",
        settings=(SleeveSetting(name="L1"), SleeveSetting(name="L2", bore=1.5 * DEGREE)),
        length=45.0 * INCH,
        hit=True,
        promise=promise,
    )


def quoted(promise: Promise | None = PROMISE) -> Quoted:
    """Return a quote for the invented club."""
    line = PriceLine(what="Head", kind=PriceKind.PART, price=30000)
    quote = Quote(
        spec=spec(promise),
        lines=(line,),
        tax=0.2,
        deposit=0.5,
        currency="EUR",
        lead_days=14,
        valid_until=date(2026, 12, 24),
    )
    return Quoted(quote=quote)


@dataclass(slots=True)
class Shop:
    """A studio on a day that can be moved, and a fitting in it."""

    clock: Clock = field(default_factory=Clock)
    studio: Studio = field(init=False)

    def __post_init__(self) -> None:
        self.studio = studio_in_memory(self.clock)

    def fitting(
        self,
        name: str = "Ottoline Brambleby",
        *,
        contact: bool = True,
        minor: bool = False,
        guardian: str = "",
        reach: str = "ottoline at home",
        home: Home | None = None,
    ) -> str:
        """Open a fitting."""
        golfer = Golfer(
            id="", minor=minor, home=home or Home(), consents=Consents(contact=contact)
        )
        identity = Identity(name=name, contact=reach, guardian=guardian)
        visitor = Visitor(golfer=golfer, identity=identity)
        return open_for_new(self.studio, visitor, bay="Bay 1").id

    def do(self, fitting: str, *acts: JobAct) -> tuple[JobEntry, ...]:
        """Write acts of a job together."""
        return job_act(self.studio, fitting, acts)

    def ordered(self, fitting: str, promise: Promise | None = PROMISE) -> None:
        """Quote, agree and order."""
        self.do(fitting, quoted(promise))
        self.do(fitting, Agreed(name="O. B."))
        self.do(fitting, OrderSent(to="own workshop"))

    def taken(
        self, fitting: str, promise: Promise | None = PROMISE, *, sheet: bool = True
    ) -> None:
        """Take a fitting's club home today."""
        self.ordered(fitting, promise)
        if sheet:
            self.do(fitting, SheetIssued(build=BUILD_TOML, fields={}))
        received = Received(
            measured=FINAL_CHECK, looked={}, outcome=Outcome.ACCEPT, second="Q. R."
        )
        self.do(fitting, received)
        self.do(fitting, PickedUp(against=Against.CONSISTENT, taken=True))

    def later(self, days: int) -> None:
        """Let days go by."""
        self.clock.at += timedelta(days=days)

"""A club that was chosen in an invented fitting, built, checked and ready to be hit."""

from dataclasses import dataclass, replace
from datetime import timedelta
from zlib import crc32

from loftwright.bay.now import FittingNow
from loftwright.domain.acts import HandedOver, Marked, SettingSeen, WarmUpDone
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Hand
from loftwright.domain.job_acts import JobAct
from loftwright.domain.names import OWN
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.domain.order import ClubSpec, Kept, PriceKind, PriceLine, Quote
from loftwright.domain.order_acts import Agreed, Quoted
from loftwright.domain.rack import Assembly
from loftwright.domain.sheet_acts import Bonded
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.job import job_act
from loftwright.services.pick_up import begin_pick_up
from loftwright.services.pick_up_balls import usual_start
from loftwright.services.pick_up_bars import Pair, pair_of
from loftwright.services.rack import add_item
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio, new_id
from loftwright.services.visit_start import Start
from loftwright.training.one_ball import VirtualPlayer
from studios import Clock

TESTED = "Ash"
MARKS = frozenset({"strike_toe", "strike_high"})


@dataclass(slots=True)
class Built:
    """A club ready for its pick-up, in a studio whose clock can be moved."""

    studio: Studio
    clock: Clock
    fitting: str
    assembly: str

    @property
    def now(self) -> FittingNow:
        return self.studio.standing(self.fitting)

    def pair(self) -> Pair:
        """Return the two clubs; the test fails where something bars them."""
        record = self.studio.store.job_record(self.fitting)
        found = pair_of(record, self.now, self.studio.store.rack(), self.studio.now())
        assert isinstance(found, Pair), found
        return found

    def start(self) -> Start:
        """Return device and conditions of the tested club's day."""
        device, strip = usual_start(self.now, self.pair())
        assert device is not None
        return Start(device=device, strip=strip, pain=False)

    def begin(self, *, complaint: bool = False) -> str:
        """Begin the pick-up, warm up, and return the built club's name."""
        begun = begin_pick_up(self.studio, self.fitting, self.start(), complaint=complaint)
        act(self.studio, self.fitting, [HandedOver(club=OWN)])
        act(self.studio, self.fitting, [WarmUpDone(unseen=8)])
        return begun.built

    def hand_over(self, club: str) -> None:
        """Put a club into the golfer's hand, set as planned."""
        now = act(self.studio, self.fitting, [HandedOver(club=club)])
        known = now.club(club)
        if known is not None and known.card.settings:
            act(self.studio, self.fitting, [SettingSeen(setting=known.card.setting)])

    def hit(self, club: str, balls: int, *, as_club: str = "", stronger: float = 0.0) -> None:
        """Let the invented golfer hit balls with a club, as if it were another one if told.

        `stronger` is by how much the head stands shut in loft [rad].
        """
        self.hand_over(club)
        golfer = self.studio.store.golfer(self.studio.store.fitting(self.fitting).value.golfer)
        name = self.studio.store.identity(golfer.value.id).name
        player = VirtualPlayer(
            seed=crc32(name.encode()), ability=golfer.value.ability or "mid", strength=2.0
        )
        names = [one.name for one in self.now.clubs]
        own, card = self.now.clubs[0].card, self.now.clubs[names.index(as_club or club)].card
        for _ in range(balls):
            self.clock.forward(0.5)
            shot = player.hit(
                names.index(as_club or club),
                400 + self.now.swings_today,
                loft=card.loft - own.loft - stronger,
            )
            told = {one: getattr(shot, one) for one in FIELDS if one not in MARKS}
            ball = Incoming(numbers=ShotNumbers(**told), key=new_id(), device="Slate")
            taken = take(self.studio, self.fitting, ball, source="feed")
            if shot.strike_toe is not None and shot.strike_high is not None:
                mark = Mark(toe=shot.strike_toe, high=shot.strike_high)
                act(self.studio, self.fitting, [Marked(mark=mark, ball=taken.sequence)])

    def rotate(self, built: str, *, rounds: int = 2, stronger: float = 0.0) -> None:
        """Hit tested and built club in turn, the built one as if it were the tested one."""
        for _ in range(rounds):
            self.hit(TESTED, 3)
            self.hit(built, 4, as_club=TESTED, stronger=stronger)


def a_spec(studio: Studio, fitting: str, tested: str = TESTED, *, hit: bool = True) -> ClubSpec:
    """Return the club that is wanted: the tested one."""
    club = studio.standing(fitting).club(tested)
    assert club is not None
    card = club.card
    return ClubSpec(
        label=tested,
        club=tested,
        assembly=card.assembly,
        hand=Hand.RIGHT,
        kept=Kept.NOTHING,
        head=card.head,
        shaft=card.shaft,
        grip=card.grip,
        head_piece=card.head_piece,
        shaft_piece=card.shaft_piece,
        loft=card.loft,
        lie=card.lie,
        face=card.face,
        setting=card.setting,
        settings=card.settings,
        length=card.length,
        hit=hit,
        promise=None,
    )


def ordered(studio: Studio, fitting: str, spec: ClubSpec) -> None:
    """Quote a club and have it agreed."""
    quote = Quote(
        spec=spec,
        lines=(PriceLine(what="Club", kind=PriceKind.PART, price=49900),),
        tax=0.2,
        deposit=0.3,
        currency="EUR",
        lead_days=14,
        valid_until=studio.today() + timedelta(days=30),
    )
    job_act(studio, fitting, [Quoted(quote=quote)])
    job_act(studio, fitting, [Agreed(name="R. Q.")])


def put_in_rack(studio: Studio, fitting: str, tested: str = TESTED) -> Assembly:
    """Put another sample of the tested club into the rack as the golfer's."""
    rack = studio.store.rack()
    club = studio.standing(fitting).club(tested)
    assert club is not None
    like = rack.assemblies[club.card.assembly]
    head = add_item(studio, replace(rack.pieces[like.head], label="Built head"))
    shaft = add_item(studio, replace(rack.pieces[like.shaft], label="Built shaft"))
    golfer = studio.store.fitting(fitting).value.golfer
    made = replace(like, head=head.id, shaft=shaft.id, owner=golfer)
    return add_item(studio, made)


def bonded(studio: Studio, club: Assembly, *, hours: float = 0.0) -> Bonded:
    """Return the act of bonding a club that cures so many hours from now."""
    return Bonded(
        adhesive="Invented epoxy",
        batch="B 17",
        mixed=studio.now(),
        not_before=studio.now() + timedelta(hours=hours),
        assembly=club.id,
        head_piece=club.head,
        shaft_piece=club.shaft,
    )


def received(outcome: Outcome = Outcome.ACCEPT) -> Received:
    """Return a final check."""
    return Received(measured="", looked={"bond": True}, outcome=outcome, second="P. S.")


def ready(studio: Studio, clock: Clock, demo: DemoStudio, *acts: JobAct) -> Built:
    """Order, build and check the club that won the finished fitting; `acts` in place of these."""
    fitting = demo.finished
    ordered(studio, fitting, a_spec(studio, fitting))
    club = put_in_rack(studio, fitting)
    for one in acts or (bonded(studio, club), received()):
        job_act(studio, fitting, [one])
    return Built(studio=studio, clock=clock, fitting=fitting, assembly=club.id)

"""What the stores are given in tests: invented, and one of everything."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

from loftwright.arrays import frozen_array
from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR, YARD
from loftwright.domain import acts
from loftwright.domain.acts import Act, Felt, HandedOver, ShotArrived
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard, Fitting, PlanCard, Strip
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity, Wish
from loftwright.domain.home import Hole, Home, Lie, Trouble, Turf
from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    RackItem,
    ShaftModel,
    Sleeve,
    SleeveSetting,
    State,
)
from loftwright.physics.shaft_swing.players import Change, Release
from loftwright.store.interface import Store
from records import card, mark, numbers

AT = datetime(2026, 5, 14, 9, 0, 0, 123456, tzinfo=UTC)
DAY = date(2026, 5, 14)
HOME = Home(
    name="Mossy Bottom Links",
    altitude=54.864,
    temperature=289.3,
    humidity=0.7,
    turf=Turf.FIRM,
    wind_along=-1.3,
    wind_across=0.1,
    re_aim=False,
    holes=(
        Hole(length=402 * YARD, trouble=Trouble.RIGHT, trouble_lie=Lie.SAND),
        Hole(length=365 * YARD),
    ),
)
GOLFER = Golfer(
    id="g1",
    hand=Hand.LEFT,
    goal="not right, “please” — Ünïcode",
    wish=Wish.HIGHER,
    looks="low",
    change=Change.QUICK,
    release=Release.EARLY,
    ability="senior",
    head_speed=75.1 * MILE_PER_HOUR,
    home=HOME,
    own="a1",
    consents=Consents(keep=True, given_on=DAY),
)
WHO = Identity(name="Wilhelmina Tuppence (invented)", contact="by post", guardian="")
RACK: tuple[RackItem, ...] = (
    HeadModel(id="h1", maker="Quillon", name="Wayfarer", loft=10.5 * DEGREE, system="Q"),
    HeadModel(
        id="h2",
        maker="Quillon",
        name="Wayfarer II",
        hand=Hand.LEFT,
        loft=9 * DEGREE,
        replaces="h1",
        generation="second",
        family="Wayfarer",
        stock=0,
        price=61_900,
    ),
    ShaftModel(
        id="s1",
        maker="Thistledown",
        name="Reed",
        paper_mass=62 * GRAM,
        paper_label="R",
        family="Reed",
        stock=3,
    ),
    Sleeve(
        id="v1",
        name="angled",
        system="Q",
        settings=(
            SleeveSetting(name="middle"),
            SleeveSetting(name="one up", bore=1.5 * DEGREE, azimuth=0.25),
        ),
    ),
    Piece(id="p1", model="h1", label="H-1", mass=0.2003, place="Bay 1"),
    Piece(
        id="p2",
        model="s1",
        label="S-1",
        sleeve="v1",
        state=State.LOCKED,
        reason="cracked",
        locked_until=AT + timedelta(days=1),
        check_after=300,
    ),
    Assembly(
        id="a1",
        head="p1",
        shaft="p2",
        setting="middle",
        length=45.25 * INCH,
        owner="g1",
        price=42900,
        grip="plain",
    ),
)
LOOKED_AT = Inspection(
    piece="p2", at=AT, balls=412, finding=Finding.CRACKED, words="hairline at the tip", by="Ann"
)
PROFILE = MeasuredProfile(
    id="m1",
    piece="p2",
    day=DAY,
    bench="Bench 1",
    conditions="300 mm span, grip off",
    station=frozen_array([0.0, 0.4, 0.7, 0.1 + 0.85, 1.168]),
    bending=frozen_array([82.0, 64.8, 1 / 3 + 43.0, 27.0, 20.24]),
    bending_error=frozen_array([0.8, 0.6, 0.4, 0.5, 3.1]),
    density=frozen_array([0.065, 0.05, 0.047, 0.051, 0.063]),
    density_error=frozen_array([0.001] * 5),
    scale_error=0.01,
    mass=61.4 * GRAM,
    mass_error=0.05 * GRAM,
)
EVERY_ACT: tuple[Act, ...] = (
    acts.VisitOpened(
        day=DAY,
        bay="Bay 1",
        device=DeviceCard(name="meter", origins={"spin": Origin.CALCULATED}, mark_error=0.002),
        strip=Strip(ball="range", tee="40", surface="mat", place="in", treatment="spray"),
    ),
    acts.ClubJoined(club="Own", card=card("Own")),
    acts.Planned(
        plan=PlanCard(sets=(("Own", 3), ("Ash", 2)), seconds=1800.5, seed=7, given_up=("a", "b"))
    ),
    HandedOver(club="Own"),
    acts.SettingSeen(setting="middle"),
    acts.WarmUpDone(unseen=4),
    acts.StripChanged(strip=Strip(ball="premium")),
    ShotArrived(
        numbers=numbers(150.123456789, carry=0.1 + 0.2),
        club="Own",
        line='"7";148,2;ü',
        time="09:00:01",
        device="meter",
        source="folder",
        after=3,
    ),
    acts.NotRead(after=0, club="Own"),
    acts.Marked(mark=mark(1.1, -2.2), ball=8),
    acts.Marked(mark=replace(mark(3, 4), words="toe, high", error=0.006)),
    acts.NoMark(ball=8),
    acts.SetMarked(balls=(8, 9), marks=(mark(1, 2), mark(3, 4))),
    acts.MarksJoined(marks=(11,), balls=(8,)),
    acts.MarksShifted(first=8, by=-1),
    acts.MarkDropped(mark=11),
    acts.NotOurs(ball=8),
    acts.OddBall(ball=8),
    acts.RunMoved(first=8, last=9, club="Own"),
    acts.RunSet(first=8, last=9, setting="one up"),
    Felt(club="Own", place=1 / 3, word="solid"),
    acts.Vetoed(club="Own"),
    acts.ClubDropped(club="Own"),
    acts.Rested(),
    acts.PainSaid(),
    acts.Revealed(),
    acts.Closed(),
    acts.Undone(act=27),
)


def with_fitting(store: Store) -> str:
    store.add_golfer(GOLFER, WHO)
    store.open_fitting(Fitting(id="f1", golfer="g1", opened=DAY))
    return "f1"


def with_rack(store: Store) -> None:
    for item in RACK:
        store.put(item, version=None)

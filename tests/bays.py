"""An invented fitting in its bay, played ball by ball."""

from dataclasses import dataclass, field
from uuid import uuid4

import numpy as np
from fastapi import FastAPI

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.acts import (
    Act,
    ClubJoined,
    HandedOver,
    Planned,
    SettingSeen,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.device import Origin
from loftwright.domain.fitting import ClubCard, DeviceCard, PlanCard, Strip
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.home import Hole, Home, Trouble
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.rack import SleeveSetting
from loftwright.services.acting import act
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer
from loftwright.services.shots import Incoming, Taken, take
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from studios import Clock, studio_in_memory

CLUBS = ("Own", "Ash", "Birch", "Cedar")
SLEEVE = (
    SleeveSetting(name="middle"),
    SleeveSetting(name="one up", bore=1.5 * DEGREE, azimuth=0.0),
    SleeveSetting(name="one down", bore=1.5 * DEGREE, azimuth=180.0 * DEGREE),
)
MEASURED = dict.fromkeys(
    ("ball speed", "launch", "direction", "spin", "axis", "head speed", "attack", "path", "face"),
    Origin.MEASURED,
)
HOLE = Hole(
    length=402.0 * YARD,
    fairway=32.0 * YARD,
    trouble=Trouble.RIGHT,
    trouble_from=28.0 * YARD,
)
STRIP = Strip(ball="premium, new", tee="middle", surface="mat", place="indoors", treatment="spray")


def club_card(name: str) -> ClubCard:
    """Return an invented club's card; Own's hosel is glued."""
    own = name == "Own"
    return ClubCard(
        assembly=f"assembly-{name}",
        head="Harrow 460",
        shaft=f"Reedmace {name}",
        head_piece="head-1",
        shaft_piece=f"shaft-{name}",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        length=45.25 * INCH,
        setting="" if own else "middle",
        settings=() if own else SLEEVE,
        price=0 if own else 45000,
    )


def drive(rng: np.random.Generator, club: str, **fixed: float | None) -> ShotNumbers:
    """Return an invented drive's numbers."""
    place = CLUBS.index(club) if club in CLUBS else 0
    told: dict[str, float | None] = {
        "ball_speed": (148.0 + 0.7 * place + rng.normal(0.0, 2.0)) * MILE_PER_HOUR,
        "launch": (12.0 + rng.normal(0.0, 1.2)) * DEGREE,
        "direction": rng.normal(0.0, 2.0) * DEGREE,
        "spin": (2600.0 - 60.0 * place + rng.normal(0.0, 250.0)) * REVOLUTION_PER_MINUTE,
        "axis": rng.normal(2.0, 6.0) * DEGREE,
    }
    return ShotNumbers(**{**told, **fixed})


@dataclass(slots=True, kw_only=True)
class Bay:
    """A studio with one fitting under way."""

    studio: Studio
    clock: Clock
    fitting: str
    golfer: Golfer
    rng: np.random.Generator = field(default_factory=lambda: np.random.default_rng(1))

    @property
    def now(self) -> FittingNow:
        """What stands."""
        return replay(self.studio.record(self.fitting))

    @property
    def path(self) -> str:
        """Where the bay page is."""
        return f"/fittings/{self.fitting}/bay"

    def app(self) -> FastAPI:
        """Return the whole web application."""
        return create_app(self.studio)

    def do(self, *acts: Act, wait: float = 2.0) -> None:
        """Write acts, some seconds later."""
        self.clock.forward(wait / 60.0)
        act(self.studio, self.fitting, acts, by="")

    def ball(self, numbers: ShotNumbers | None = None, *, wait: float = 30.0) -> Taken:
        """Let a ball arrive, some seconds later."""
        self.clock.forward(wait / 60.0)
        told = drive(self.rng, self.now.in_hand or "Own") if numbers is None else numbers
        ball = Incoming(numbers=told, key=str(uuid4()), device="meter")
        return take(self.studio, self.fitting, ball, source="feed")

    def balls(self, count: int) -> list[Taken]:
        """Let balls arrive."""
        return [self.ball() for _ in range(count)]

    def hand(self, club: str) -> None:
        """Hand over a club and look at its sleeve."""
        self.do(HandedOver(club=club), wait=40.0)
        card = self.now.club(club)
        if card is not None and card.card.settings:
            self.do(SettingSeen(setting=card.card.setting))


def a_bay(
    *,
    hand: Hand = Hand.RIGHT,
    name: str = "Ottoline Brambleby",
    warm: bool = True,
    partner: str | None = None,
    studio: Studio | None = None,
    clock: Clock | None = None,
    origins: dict[str, Origin] | None = None,
    place: str = "Bay 1",
) -> Bay:
    """Return a fitting whose visit is open, planned and, unless told, warm."""
    clock = clock or Clock()
    studio = studio or studio_in_memory(clock)
    home = Home(name="Farrow Links", holes=(HOLE,))
    golfer = add_golfer(studio, Golfer(id="", hand=hand, home=home), Identity(name=name))
    fitting = open_fitting(studio, golfer.id, bay=place, fitter="", partner=partner)
    bay = Bay(studio=studio, clock=clock, fitting=fitting.id, golfer=golfer)
    sets = tuple((club, 3) for club in (*CLUBS, "Own", *CLUBS[1:], "Own", "Ash"))
    bay.do(
        VisitOpened(
            day=clock.at.date(),
            bay=place,
            device=DeviceCard(name="meter", origins=MEASURED if origins is None else origins),
            strip=STRIP,
        ),
        *(ClubJoined(club=club, card=club_card(club)) for club in CLUBS),
        Planned(plan=PlanCard(sets=sets, seconds=2400.0)),
    )
    if warm:
        bay.do(HandedOver(club="Own"))
        bay.do(WarmUpDone(unseen=6))
    return bay

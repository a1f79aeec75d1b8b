"""An invented studio: a rack, two golfers, one fitting finished and one in the middle.

Everything comes in through the doors of a real studio, at the times at which it would have.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR
from loftwright.domain.acts import (
    Closed,
    Felt,
    HandedOver,
    Marked,
    NotOurs,
    Rested,
    SettingSeen,
    WarmUpDone,
)
from loftwright.domain.fitting import Fitting, Mark, Strip
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.domain.golfer import Wish as Wished
from loftwright.domain.names import OWN
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.rack import Assembly
from loftwright.physics.shaft_swing.players import Change, Release
from loftwright.services.acting import act
from loftwright.services.demo_family import fill_family
from loftwright.services.demo_rack import (
    METER,
    MOSSY_BOTTOM,
    SHOP,
    fill_rack,
    measure_own_shaft,
)
from loftwright.services.demo_workshop import fill_bag, fill_workshop
from loftwright.services.fittings import Wish, plan_visit
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio, new_id
from loftwright.services.virtual_bay import virtual_ball
from loftwright.services.visit_start import Start, start_visit

FITTER: Final = "Barnaby Quill (invented)"
BALLS: Final = 40
FINISHED_BALLS: Final = 40
HIT_SO_FAR: Final = 23
_STRIP: Final = Strip(
    ball="premium, new", tee="40 mm", surface="mat", place="indoors", treatment="spray"
)
_FEELS: Final = {"Own": (0.45, "known"), "Ash": (0.7, "solid"), "Birch": (0.3, "dead")}


class _Clock:
    """Tells the times at which the demo's hour would have passed."""

    def __init__(self, at: datetime) -> None:
        self.at = at

    def __call__(self) -> datetime:
        return self.at

    def forward(self, seconds: float) -> None:
        self.at += timedelta(seconds=seconds)


@dataclass(frozen=True, slots=True, kw_only=True)
class DemoStudio:
    """What the demo put into a studio.

    Attributes
    ----------
    finished, in_progress : str
        Ids of its two fittings.
    """

    finished: str
    in_progress: str


def fill_demo(studio: Studio) -> DemoStudio | None:
    """Fill an empty studio with the demo; one that holds anything stays as it is.

    Parameters
    ----------
    studio : Studio
        Its clock says when the fitting in progress stands at its middle.

    Returns
    -------
    DemoStudio or None
        None where nothing was filled in. Every figure is the same each time; ids are not.
    """
    if studio.store.fittings():
        return None
    clubs = fill_rack(studio)
    fill_family(studio)
    change_settings(studio, SHOP, version=read_settings(studio).version)
    fill_workshop(studio, clubs, studio.today() - timedelta(days=20))
    made = DemoStudio(finished=_finished(studio, clubs), in_progress=_in_progress(studio, clubs))
    fill_bag(studio, studio.store.fitting(made.finished).value.golfer)
    return made


def _finished(studio: Studio, clubs: tuple[Assembly, ...]) -> str:
    """Play a fitting of the week before to its end."""
    clock = _Clock(at=studio.now() - timedelta(days=6, hours=2))
    past = replace_clock(studio, clock)
    fitting = _open(
        past,
        Identity(name="Rosalind Quickly (invented)"),
        Golfer(
            id="",
            goal="Further, and not right",
            looks="A high draw",
            ability="low",
            home=MOSSY_BOTTOM,
            consents=Consents(keep=True, contact=True, publish=True, given_on=clock.at.date()),
        ),
        OwnClub(
            loft=9.5 * DEGREE,
            length=45.5 * INCH,
            head="Old Harrow (invented)",
            shaft="Old Reed (invented)",
            shaft_mass=65.0 * GRAM,
        ),
    )
    plan_visit(past, fitting.id, _wish(clubs[:4], FINISHED_BALLS), by=FITTER, seed=5)
    now = _begin(past, fitting, clock)
    for club, balls in now.plan.plan.sets if now.plan else ():
        _hand_over(past, fitting, club, clock)
        for _ in range(balls):
            clock.forward(34.0)
            virtual_ball(past, fitting.id, by=FITTER)
    for club, (place, word) in _FEELS.items():
        act(past, fitting.id, [Felt(club=club, place=place, word=word)], by=FITTER)
    act(past, fitting.id, [Closed()], by=FITTER)
    return fitting.id


def _in_progress(studio: Studio, clubs: tuple[Assembly, ...]) -> str:
    """Play today's fitting to its middle: a ghost set aside, two marks waiting."""
    clock = _Clock(at=studio.now() - timedelta(minutes=52))
    past = replace_clock(studio, clock)
    fitting = _open(
        past,
        Identity(name="Ottoline Brambleby (invented)"),
        Golfer(
            id="",
            goal="Find more fairways",
            looks="A low fade",
            wish=Wished.LOWER,
            change=Change.SMOOTH,
            release=Release.EARLY,
            ability="mid",
            head_speed=93.0 * MILE_PER_HOUR,
            home=MOSSY_BOTTOM,
            consents=Consents(keep=True, given_on=clock.at.date()),
        ),
        OwnClub(
            loft=10.5 * DEGREE,
            length=45.25 * INCH,
            head="Old Harrow (invented)",
            shaft="Old Sedge (invented)",
            shaft_mass=58.0 * GRAM,
        ),
    )
    measure_own_shaft(past, past.store.golfer(fitting.golfer).value)
    plan_visit(past, fitting.id, _wish(clubs[:4], BALLS, minutes=75.0), by=FITTER, seed=11)
    now = _begin(past, fitting, clock)
    hit = 0
    for club, balls in now.plan.plan.sets if now.plan else ():
        _hand_over(past, fitting, club, clock)
        for _ in range(balls):
            clock.forward(34.0)
            virtual_ball(past, fitting.id, by=FITTER)
            hit += 1
            if hit == 9:
                _ghost(past, fitting, clock)
            if hit == 14:
                act(past, fitting.id, [Rested()], by=FITTER)
            if hit == HIT_SO_FAR:
                _two_marks_wait(past, fitting, clock)
                return fitting.id
        if club in _FEELS:
            place, word = _FEELS[club]
            act(past, fitting.id, [Felt(club=club, place=place, word=word)], by=FITTER)
    return fitting.id


def replace_clock(studio: Studio, clock: Callable[[], datetime]) -> Studio:
    """Return the same studio under another clock."""
    return Studio(store=studio.store, folder=studio.folder, clock=clock, hub=studio.hub)


def _open(studio: Studio, identity: Identity, golfer: Golfer, own: OwnClub) -> Fitting:
    visitor = Visitor(golfer=golfer, identity=identity, own=own)
    fitting = open_for_new(studio, visitor, bay="Bay 1", fitter=FITTER)
    kept = studio.store.fitting(fitting.id)
    invented = replace(kept.value, invented=True)
    studio.store.change_fitting(invented, version=kept.version)
    return invented


def _wish(clubs: tuple[Assembly, ...], balls: int, minutes: float | None = None) -> Wish:
    return Wish(
        assemblies=tuple(club.id for club in clubs),
        balls=balls,
        seconds=None if minutes is None else 60.0 * minutes,
    )


def _begin(studio: Studio, fitting: Fitting, clock: _Clock) -> FittingNow:
    """Open the visit and warm up with the own club."""
    start_visit(studio, fitting.id, Start(device=METER, strip=_STRIP, pain=False), by=FITTER)
    act(studio, fitting.id, [HandedOver(club=OWN)], by=FITTER)
    for _ in range(4):
        clock.forward(25.0)
        virtual_ball(studio, fitting.id, marked=False, by=FITTER)
    clock.forward(30.0)
    return act(studio, fitting.id, [WarmUpDone(unseen=5)], by=FITTER)


def _hand_over(studio: Studio, fitting: Fitting, club: str, clock: _Clock) -> None:
    clock.forward(45.0)
    now = act(studio, fitting.id, [HandedOver(club=club)], by=FITTER)
    known = now.club(club)
    if known is not None and known.card.settings:
        clock.forward(5.0)
        act(studio, fitting.id, [SettingSeen(setting=known.card.setting)], by=FITTER)


def _ghost(studio: Studio, fitting: Fitting, clock: _Clock) -> None:
    """Let a waggle be read and set aside."""
    clock.forward(8.0)
    waggle = Incoming(
        numbers=ShotNumbers(ball_speed=31.0 * MILE_PER_HOUR, launch=4.0 * DEGREE, spin=90.0),
        key=new_id(),
        device=METER.name,
    )
    taken = take(studio, fitting.id, waggle, source="virtual", by=FITTER)
    act(studio, fitting.id, [NotOurs(ball=taken.sequence)], by=FITTER)


def _two_marks_wait(studio: Studio, fitting: Fitting, clock: _Clock) -> None:
    """Leave two marks whose balls the meter has not shown."""
    for toe, high in ((-4.0, -2.0), (13.0, 9.0)):
        clock.forward(20.0)
        mark = Mark(toe=toe / 1000.0, high=high / 1000.0)
        act(studio, fitting.id, [Marked(mark=mark)], by=FITTER)

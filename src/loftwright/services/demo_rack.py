"""What stands in the invented studio: makers, heads, shafts and courses that never were."""

from dataclasses import replace
from datetime import timedelta
from math import pi
from typing import Final

from loftwright.constants import DEGREE, FOOT, GRAM, INCH, MILE_PER_HOUR, YARD
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.home import Hole, Home, Lie, Trouble
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    ShaftModel,
    Sleeve,
    SleeveSetting,
)
from loftwright.evidence.shaft_guess import BEYOND
from loftwright.physics.shaft.profile import Profile, trimmed
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS, DemoShaft
from loftwright.services.measuring import keep_profile
from loftwright.services.rack import add_item
from loftwright.services.rack_adding import NewClub, NewHead, NewShaft, add_head, add_shaft
from loftwright.services.settings import Settings
from loftwright.services.studio import Studio

HEADS: Final = "Quillon & Daughters (invented)"
SHAFTS: Final = "Nullmoor Composites (invented)"
SYSTEM: Final = "Quillon"
METER: Final = DeviceCard(
    name="Bay meter (invented)",
    origins={
        "ball speed": Origin.MEASURED,
        "launch": Origin.MEASURED,
        "direction": Origin.MEASURED,
        "spin": Origin.MEASURED,
        "axis": Origin.MEASURED,
        "head speed": Origin.MEASURED,
        "attack": Origin.MEASURED,
        "path": Origin.MEASURED,
        "face": Origin.MEASURED,
        "carry": Origin.CALCULATED,
    },
)
SHOP: Final = Settings(
    shop="The Lantern Bay (invented)",
    zone="UTC",
    currency="crowns",
    devices=(METER,),
    bays=("Bay 1", "Bay 2"),
)
MOSSY_BOTTOM: Final = Home(
    name="Mossy Bottom Links (invented)",
    altitude=180.0 * FOOT,
    temperature=273.15 + (61.0 - 32.0) / 1.8,
    humidity=0.7,
    wind_along=-3.0 * MILE_PER_HOUR,
    wind_across=2.0 * MILE_PER_HOUR,
    holes=(
        Hole(length=365.0 * YARD, fairway=34.0 * YARD),
        Hole(
            length=402.0 * YARD,
            fairway=30.0 * YARD,
            trouble=Trouble.RIGHT,
            trouble_from=28.0 * YARD,
        ),
        Hole(
            length=421.0 * YARD,
            fairway=36.0 * YARD,
            trouble=Trouble.LEFT,
            trouble_from=35.0 * YARD,
            trouble_lie=Lie.SAND,
        ),
    ),
)
_SETTINGS: Final = (
    SleeveSetting(name="middle"),
    SleeveSetting(name="one up", bore=1.0 * DEGREE, azimuth=0.0),
    SleeveSetting(name="one down", bore=1.0 * DEGREE, azimuth=pi),
    SleeveSetting(name="flat", bore=1.0 * DEGREE, azimuth=pi / 2.0),
)
_HEADS: Final = (
    ("Wayfarer", 9.0, Hand.RIGHT, 199.0),
    ("Wayfarer", 10.5, Hand.RIGHT, 200.5),
    ("Wayfarer Broad", 10.5, Hand.RIGHT, 203.0),
    ("Wayfarer", 10.5, Hand.LEFT, 200.0),
)
# name, printed weight [g], label, weighed [g], head, length [in], setting, price
_SHAFTS: Final = (
    ("Heron", 62.0, "firm", 61.4, 1, 45.25, "middle", 42900),
    ("Badger", 66.0, "very firm", 66.9, 1, 45.0, "middle", 44900),
    ("Kestrel", 58.0, "medium", 57.6, 2, 45.5, "middle", 51900),
    ("Otter", 52.0, "soft", 52.3, 2, 45.75, "one up", 47900),
    ("Ibex", 70.0, "very firm", 70.8, 0, 44.75, "one up", 61900),
    ("Linnet", 60.0, "medium", 59.5, 3, 45.25, "middle", 42900),
)
_MEASURED_BEFORE: Final = 40
_OWN_SEED: Final = 51
_BY_NAME: Final = {shaft.name: shaft for shaft in DEMO_SHAFTS}


def fill_rack(studio: Studio) -> tuple[Assembly, ...]:
    """Put the invented rack into a studio and return its clubs."""
    sleeve = add_item(
        studio,
        Sleeve(id="", name="Quillon sleeve (invented)", system=SYSTEM, settings=_SETTINGS),
    )
    heads = _add_heads(studio)
    clubs: list[Assembly] = []
    for name, printed, label, weighed, head, length, setting, price in _SHAFTS:
        model = ShaftModel(
            id="",
            maker=SHAFTS,
            name=name,
            paper_mass=printed * GRAM,
            paper_label=label,
            price=price // 2,
        )
        club = NewClub(head=heads[head].id, length=length * INCH, setting=setting, price=price)
        piece, made = add_shaft(
            studio,
            NewShaft(
                model=model,
                label=f"{name} 1",
                mass=weighed * GRAM,
                place="Bay 1",
                sleeve=sleeve.id,
                club=club,
            ),
        )
        _measure(studio, piece, _of_weight(_BY_NAME[name], weighed * GRAM), seed=len(clubs) + 1)
        clubs += [made] if made else []
    return tuple(clubs)


def measure_own_shaft(studio: Studio, golfer: Golfer) -> None:
    """Have the invented bench read the shaft that a golfer came with, cut for its club."""
    rack = studio.store.rack()
    club = rack.assemblies[golfer.own or ""]
    whole = _BY_NAME["Otter"]
    cut = trimmed(whole.profile, butt=whole.profile.length - (club.length - BEYOND))
    piece = rack.pieces[club.shaft]
    keep_profile(
        studio,
        demo_profile(
            replace(whole, profile=cut), piece=piece.id, day=studio.today(), seed=_OWN_SEED
        ),
    )


def _add_heads(studio: Studio) -> list[Piece]:
    return [
        add_head(
            studio,
            NewHead(
                model=HeadModel(
                    id="",
                    maker=HEADS,
                    name=name,
                    loft=loft * DEGREE,
                    lie=58.0 * DEGREE,
                    hand=hand,
                    system=SYSTEM,
                ),
                label=f"{name} {loft:g}{' left' if hand is Hand.LEFT else ''}",
                mass=mass * GRAM,
                place="Bay 1",
            ),
        )
        for name, loft, hand, mass in _HEADS
    ]


def _of_weight(shaft: DemoShaft, mass: float) -> DemoShaft:
    """Return a sample of an invented shaft that weighs this much."""
    was = shaft.profile
    profile = Profile(
        stations=was.stations,
        bending=was.bending,
        torsion=was.torsion,
        line_density=was.line_density * (mass / was.mass),
    )
    return replace(shaft, profile=profile)


def _measure(studio: Studio, piece: Piece, shaft: DemoShaft, *, seed: int) -> None:
    """Have the invented bench read a sample some weeks ago."""
    day = studio.today() - timedelta(days=_MEASURED_BEFORE)
    keep_profile(studio, demo_profile(shaft, piece=piece.id, day=day, seed=seed))

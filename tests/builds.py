"""A driver of invented parts, as values and as a build file."""

from dataclasses import replace
from typing import Final

from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE, MILLIMETRE
from loftwright.physics.build.club import Club, assembled, kept_length
from loftwright.physics.build.parts import (
    BuildParts,
    ButtWeight,
    FittedGrip,
    RawShaft,
    SeatedHead,
    SmallPart,
    Tape,
)
from loftwright.physics.build.rods import straight_rod
from loftwright.physics.build.solve import Quantity
from loftwright.physics.build.swingweight import FULCRUM, USUAL_SCALE

DRIVER: Final = BuildParts(
    shaft=RawShaft(rod=straight_rod(62.0 * GRAM, 46.0 * INCH, 23.5 * INCH, "shaft")),
    head=SeatedHead(
        mass=195.0 * GRAM,
        reach=0.60 * INCH,
        toe=36.0 * MILLIMETRE,
        inertia=3.5 * KILOGRAM_SQUARE_CENTIMETRE,
        to_plane=1.75 * INCH,
    ),
    grip=FittedGrip(mass=50.0 * GRAM, length=10.5 * INCH, balance=4.2 * INCH, cap=0.125 * INCH),
    tape=Tape(mass=1.5 * GRAM, length=10.0 * INCH),
    small=(
        SmallPart(name="adapter", mass=6.0 * GRAM, reach=-0.6 * INCH),
        SmallPart(name="screw", mass=2.0 * GRAM, reach=0.6 * INCH),
        SmallPart(name="ferrule", mass=1.0 * GRAM, reach=-1.6 * INCH),
        SmallPart(name="epoxy", mass=1.5 * GRAM, reach=-0.6 * INCH),
    ),
    butt_weight=ButtWeight(below_cap=0.75 * INCH, most=30.0 * GRAM),
)
IRON: Final = replace(
    DRIVER,
    shaft=RawShaft(rod=straight_rod(115.0 * GRAM, 38.5 * INCH, 19.25 * INCH, "shaft")),
    head=SeatedHead(
        mass=258.0 * GRAM,
        reach=0.35 * INCH,
        toe=32.0 * MILLIMETRE,
        inertia=3.5 * KILOGRAM_SQUARE_CENTIMETRE,
        to_plane=1.4 * INCH,
    ),
    small=(
        SmallPart(name="ferrule", mass=1.0 * GRAM, reach=-1.6 * INCH),
        SmallPart(name="epoxy", mass=1.5 * GRAM, reach=-0.6 * INCH),
    ),
)
WEDGE: Final = replace(
    IRON,
    shaft=RawShaft(rod=straight_rod(120.0 * GRAM, 36.0 * INCH, 18.0 * INCH, "shaft")),
    head=replace(IRON.head, mass=300.0 * GRAM, inertia=3.8 * KILOGRAM_SQUARE_CENTIMETRE),
)
TOLERANCES: Final = {
    Quantity.SWINGWEIGHT: 0.5,
    Quantity.MASS: 2.0 * GRAM,
    Quantity.INERTIA: 10.0 * KILOGRAM_SQUARE_CENTIMETRE,
}
BUILD_TOML: Final = """\
[target]
length_inch = 45
swingweight = "D3"
mass_g = 325

[shaft]
raw_length_inch = 46
mass_g = 62
balance_from_tip_inch = 23.5

[head]
mass_g = 195
cg_along_inch = 0.6
cg_toe_mm = 36
own_moi_kgcm2 = 3.5
to_60_plane_inch = 1.75

[grip]
mass_g = 50
length_inch = 10.5
balance_inch = 4.2
cap_inch = 0.125

[tape]
mass_g = 1.5
length_inch = 10

[[parts]]
name = "adapter"
mass_g = 6
from_tip_inch = -0.6

[[parts]]
name = "screw"
mass_g = 2
from_tip_inch = 0.6

[[parts]]
name = "ferrule"
mass_g = 1
from_tip_inch = -1.6

[[parts]]
name = "epoxy"
mass_g = 1.5
from_tip_inch = -0.6
"""
BUILD_TABLES: Final = """\
[build_up]
butt_inch = 0.6
core_inch = 0.58
nominal_inch = 0.9
tape_inch = 0.005
wraps = 2
[counterweight]
below_cap_inch = 1
max_g = 12
[calibration]
mass_g = 310
balance_inch = 33.25
reads = "C9"
[tolerance]
swingweight = 1
[u95]
cg_along_inch = 0.1
[rules]
edition = "an invented edition"
competition_uses_46_inch = true
"""
"""The tables that a build file may have beside those."""


def club_at(
    length: float, parts: BuildParts = DRIVER, head_added: float = 0.0, butt_added: float = 0.0
) -> Club:
    """Return a club of a length in metres."""
    return assembled(parts, kept_length(parts, length), head_added, butt_added)


def points(club: Club) -> float:
    """Return a club's swingweight on the usual scale, above A0."""
    return USUAL_SCALE.index(club.moment_about(FULCRUM))


def with_head(parts: BuildParts, added: float) -> BuildParts:
    """Return parts with a heavier head."""
    return replace(parts, head=replace(parts.head, mass=parts.head.mass + added))

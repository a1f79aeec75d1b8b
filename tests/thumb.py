"""The trade's rules of thumb beside what clubs do: the figures of the page on builds."""

from dataclasses import dataclass, replace

from builds import DRIVER, club_at, points
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.physics.build.club import Club
from loftwright.physics.build.parts import BuildParts, SmallPart
from loftwright.physics.build.solve import Target, solve
from loftwright.physics.build.swingweight import FULCRUM, POINT

HALF = 0.5 * INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a change does to swingweight [points] and inertia [kg cm2]."""

    swing: float
    inertia: float


def change(club: Club, other: Club) -> Change:
    return Change(
        swing=points(other) - points(club),
        inertia=(other.inertia - club.inertia) / KILOGRAM_SQUARE_CENTIMETRE,
    )


def lever(club: Club, name: str) -> float:
    """Return how far a part's centre of gravity lies from the fulcrum [m]."""
    return next(part.along for part in club.parts if part.name == name) - FULCRUM


def with_part(parts: BuildParts, mass: float, reach: float) -> BuildParts:
    extra = SmallPart(name="extra", mass=mass, reach=reach)
    return replace(parts, small=(*parts.small, extra))


def rules_of_thumb(parts: BuildParts, length: float) -> dict[str, float]:
    """Return grams a point, or points, as the first table of the page has them."""
    club = club_at(length, parts)
    gram = 1.0 * GRAM
    heavier = club_at(length, parts, head_added=gram)
    at_butt = club_at(length, parts, butt_added=gram)
    grip = replace(parts, grip=replace(parts.grip, mass=parts.grip.mass + gram))
    shorter = club_at(length - HALF, parts)
    wrap = 1.2 * GRAM * (parts.grip.cap + 2.5 * INCH - FULCRUM) / POINT
    return {
        "head": 1.0 / change(club, heavier).swing,
        "grip": -1.0 / change(club, club_at(length, grip)).swing,
        "half inch": -change(club, shorter).swing,
        "shaft": POINT / lever(club, "shaft") / GRAM,
        "counterweight": -1.0 / change(club, at_butt).swing,
        "tape": wrap,
    }


def without_sleeve(parts: BuildParts) -> BuildParts:
    names = {"adapter", "screw"}
    return replace(parts, small=tuple(one for one in parts.small if one.name not in names))


def driver_changes() -> dict[str, Change]:
    """Return what changes of the driver do, as the second table of the page has them."""
    length, gram = 45.5 * INCH, 1.0 * GRAM
    club = club_at(length)
    grip, head, shaft = DRIVER.grip, DRIVER.head, club.parts[1]
    kept_share = gram / shaft.mass
    rod = replace(DRIVER.shaft.rod, density=DRIVER.shaft.rod.density * (1.0 + kept_share))
    changed = {
        "head": club_at(length, head_added=gram),
        "grip": club_at(length, replace(DRIVER, grip=replace(grip, mass=grip.mass + gram))),
        "counterweight": club_at(length, butt_added=gram),
        "shaft": club_at(length, replace(DRIVER, shaft=replace(DRIVER.shaft, rod=rod))),
        "half inch": club_at(length - HALF),
        "head depth": club_at(
            length, replace(DRIVER, head=replace(head, reach=head.reach + 5e-3))
        ),
        "grip balance": club_at(
            length, replace(DRIVER, grip=replace(grip, balance=grip.balance + HALF))
        ),
        "no sleeve": club_at(length, without_sleeve(DRIVER)),
    }
    return {name: change(club, other) for name, other in changed.items()}


def restoring() -> tuple[float, float]:
    """Return the grams at the head that restore swingweight and inertia after half an inch."""
    club = club_at(45.5 * INCH)
    found = [
        solve(DRIVER, Target(length=45.0 * INCH, swingweight=points(club))).head_added,
        solve(DRIVER, Target(length=45.0 * INCH, inertia=club.inertia)).head_added,
    ]
    swing, inertia = (one / GRAM for one in found if one is not None)
    return swing, inertia

"""How sure a build's figures are, from how sure its parts' are."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from math import hypot
from typing import Final

from loftwright.constants import GRAM, KILOGRAM_SQUARE_CENTIMETRE, MILLIMETRE
from loftwright.physics.build.club import Club, assembled
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.rods import Rod
from loftwright.physics.build.swingweight import FULCRUM, POINT
from loftwright.physics.shaft.limits import not_negative

NINETY_FIVE: Final = 2.0
"""Standard errors in a half-width that holds 95 times in 100."""

SHARE: Final = 1e-3
"""Of an error by which a part is moved, so that the change is that of a slope."""

_HEAD_WORDS: Final = {
    "mass": "mass",
    "reach": "depth along the shaft",
    "toe": "distance to the toe",
    "to_plane": "to the 60-degree plane",
    "inertia": "own inertia",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartErrors:
    """Standard errors of what was weighed and measured of the parts.

    Attributes
    ----------
    mass : float
        Of every part by itself [kg].
    shaft_balance, grip_balance : float
        Of the raw shaft's and the grip's balance points [m].
    balance : float
        Of a whole club's or dry fit's balance point [m].
    kept, to_plane, cap : float
        Of the cut shaft's length, the seated head's and the cap's [m].
    reach, toe : float
        Of the head's centre of gravity along and across the shaft [m].
    small_reach : float
        Of where the small parts sit [m].
    inertia : float
        Of the head about its own centre of gravity [kg m^2].

    Notes
    -----
    The figures are a judgement: parts weighed to a tenth of a gram, a shaft balanced to a
    millimetre, a head whose depth along the shaft nobody has measured.
    """

    mass: float = 0.1 * GRAM
    shaft_balance: float = 1.0 * MILLIMETRE
    grip_balance: float = 3.0 * MILLIMETRE
    balance: float = 1.0 * MILLIMETRE
    kept: float = 0.4 * MILLIMETRE
    to_plane: float = 0.4 * MILLIMETRE
    cap: float = 0.2 * MILLIMETRE
    reach: float = 2.5 * MILLIMETRE
    toe: float = 3.0 * MILLIMETRE
    small_reach: float = 3.0 * MILLIMETRE
    inertia: float = 0.3 * KILOGRAM_SQUARE_CENTIMETRE

    def __post_init__(self) -> None:
        for one in fields(self):
            not_negative(getattr(self, one.name), f"error of {one.name.replace('_', ' ')}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubErrors:
    """Standard errors of a club's figures.

    Attributes
    ----------
    length, mass, balance : float
        [m, kg, m]
    swingweight : float
        In points.
    inertia : float
        About the top of the grip [kg m^2].
    by_part : tuple of (str, float)
        What each measured thing adds to the swingweight, in points, the most first.
    """

    length: float
    mass: float
    balance: float
    swingweight: float
    inertia: float
    by_part: tuple[tuple[str, float], ...] = ()


def club_errors(
    parts: BuildParts,
    kept: float,
    errors: PartErrors,
    head_added: float = 0.0,
    butt_added: float = 0.0,
) -> ClubErrors:
    """Return the standard errors of a club before it is built.

    Parameters
    ----------
    parts : BuildParts
    kept : float
        Of the cut shaft [m].
    errors : PartErrors
    head_added, butt_added : float
        [kg]

    Returns
    -------
    ClubErrors

    Notes
    -----
    To first order, every measured thing by itself: an error that all weighings share is not in
    it. Each part is moved a little and the club summed again.
    """
    middle = assembled(parts, kept, head_added, butt_added)
    changes = [
        (name, _change(middle, club))
        for name, club in _moved(parts, kept, errors, head_added, butt_added)
    ]
    sums = [hypot(*(change[at] for _, change in changes)) for at in range(5)]
    points = sorted(((name, abs(change[3])) for name, change in changes), key=lambda one: -one[1])
    return ClubErrors(
        length=sums[0],
        mass=sums[1],
        balance=sums[2],
        swingweight=sums[3],
        inertia=sums[4],
        by_part=tuple(points),
    )


def _moved(
    parts: BuildParts, kept: float, errors: PartErrors, head_added: float, butt_added: float
) -> Iterator[tuple[str, Club]]:
    """Yield the club with each measured thing moved by a small share of its error."""
    for name, moved in _moved_parts(parts, errors):
        yield name, assembled(moved, kept, head_added, butt_added)
    step = SHARE * errors.kept
    cut = min(kept + step, parts.shaft.rod.length - parts.shaft.tip_trim)
    yield (
        "shaft length",
        assembled(parts, cut if cut > kept else kept - step, head_added, butt_added),
    )
    if head_added != 0.0:
        heavier = head_added + SHARE * errors.mass
        yield "head weight", assembled(parts, kept, heavier, butt_added)
    if butt_added != 0.0:
        heavier = butt_added + SHARE * errors.mass
        yield "counterweight", assembled(parts, kept, head_added, heavier)


def _moved_parts(parts: BuildParts, errors: PartErrors) -> Iterator[tuple[str, BuildParts]]:
    head, grip, tape, shaft = parts.head, parts.grip, parts.tape, parts.shaft
    for name, size in (
        ("mass", errors.mass),
        ("reach", errors.reach),
        ("toe", errors.toe),
        ("to_plane", errors.to_plane),
        ("inertia", errors.inertia),
    ):
        value = getattr(head, name) + SHARE * size
        yield f"head {_HEAD_WORDS[name]}", replace(parts, head=replace(head, **{name: value}))
    inward = 1.0 if grip.balance < grip.length / 2.0 else -1.0
    for name, size in (
        ("mass", errors.mass),
        ("balance", inward * errors.grip_balance),
        ("cap", errors.cap),
    ):
        value = getattr(grip, name) + SHARE * size
        yield f"grip {name}", replace(parts, grip=replace(grip, **{name: value}))
    if tape.mass > 0.0:
        heavier = replace(tape, mass=tape.mass + SHARE * errors.mass)
        yield "tape mass", replace(parts, tape=heavier)
    for name, rod in _moved_rods(shaft.rod, errors):
        yield name, replace(parts, shaft=replace(shaft, rod=rod))
    for at, small in enumerate(parts.small):
        for name, size in (("mass", errors.mass), ("reach", errors.small_reach)):
            other = replace(small, **{name: getattr(small, name) + SHARE * size})
            row = (*parts.small[:at], other, *parts.small[at + 1 :])
            word = "place" if name == "reach" else name
            yield f"{small.name} {word}", replace(parts, small=row)


def _moved_rods(rod: Rod, errors: PartErrors) -> Iterator[tuple[str, Rod]]:
    """Yield a shaft a little heavier, and one of the same weight that balances elsewhere."""
    whole = rod.whole
    heavier = rod.density * (1.0 + SHARE * errors.mass / whole.mass)
    yield "shaft mass", Rod(stations=rod.stations, density=heavier)
    moved = rod.density * (rod.stations - whole.balance)
    size = SHARE * errors.shaft_balance * whole.mass / whole.inertia
    yield "shaft balance", Rod(stations=rod.stations, density=rod.density + size * moved)


def _change(middle: Club, moved: Club) -> tuple[float, float, float, float, float]:
    return (
        (moved.length - middle.length) / SHARE,
        (moved.mass - middle.mass) / SHARE,
        (moved.balance - middle.balance) / SHARE,
        (moved.moment_about(FULCRUM) - middle.moment_about(FULCRUM)) / POINT / SHARE,
        (moved.inertia - middle.inertia) / SHARE,
    )

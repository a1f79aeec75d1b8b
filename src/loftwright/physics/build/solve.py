"""What must be added to head and butt so that a club meets its targets.

Every target is linear in the masses that may be added, so that the answer is exact. Where a part
would have to be lighter than it is, the club cannot be built of these parts: the figure is told
as it is, nothing is clipped.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.build.club import (
    LENGTHS,
    MASSES,
    Club,
    Cuts,
    assembled,
    check_club,
    cuts_for,
    kept_length,
    longest,
)
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.swingweight import (
    FULCRUM,
    HIGHEST,
    OFF_SCALE,
    USUAL_SCALE,
    SwingweightScale,
    letters,
)

WORST_CONDITION: Final = 1e6
INERTIAS: Final = (1000.0 * KILOGRAM_SQUARE_CENTIMETRE, 5000.0 * KILOGRAM_SQUARE_CENTIMETRE)
LEAST_ADDED: Final = 1e-9
"""Below this an amount is nothing, so that rounding does not make a club impossible [kg]."""


class Quantity(StrEnum):
    """What a target may be stated in."""

    SWINGWEIGHT = "swingweight"
    MASS = "mass"
    INERTIA = "inertia"


class Obstacle(StrEnum):
    """Why parts cannot make a club.

    Attributes
    ----------
    SHAFT_SHORT
        By so much length.
    HEAD_HEAVY, BUTT_HEAVY
        Head or grip would have to be lighter.
    HEAD_FULL, BUTT_FULL
        More would have to be added than there is room for.
    """

    SHAFT_SHORT = "shaft_short"
    HEAD_HEAVY = "head_heavy"
    HEAD_FULL = "head_full"
    BUTT_HEAVY = "butt_heavy"
    BUTT_FULL = "butt_full"


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What a club shall be.

    Attributes
    ----------
    length : float
        By the 60-degree plane [m].
    swingweight : float, optional
        In points above A0 on `scale`.
    mass : float, optional
        Of the whole club [kg].
    inertia : float, optional
        About the top of the grip [kg m^2].
    scale : SwingweightScale
    """

    length: float
    swingweight: float | None = None
    mass: float | None = None
    inertia: float | None = None
    scale: SwingweightScale = USUAL_SCALE

    def __post_init__(self) -> None:
        _check("length", self.length, LENGTHS, "in", INCH)
        if self.mass is not None:
            _check("mass", self.mass, MASSES, "g", GRAM)
        if self.inertia is not None:
            _check("inertia", self.inertia, INERTIAS, "kg cm^2", KILOGRAM_SQUARE_CENTIMETRE)
        if self.swingweight is not None and not 0.0 <= self.swingweight <= HIGHEST:
            raise InputError(
                f"{self.swingweight:g} points above A0 are {OFF_SCALE}",
                place="swingweight",
                mend=f"Give {letters(0.0)} to {letters(HIGHEST)}.",
            )
        if not 1 <= len(self.wanted) <= 2:
            raise InputError(
                f"{len(self.wanted)} targets besides the length cannot be met with two masses",
                place="swingweight, mass, inertia",
                mend="Give one or two of swingweight, mass and inertia: one sets the head's mass, "
                "two the counterweight as well.",
            )

    @property
    def wanted(self) -> dict[Quantity, float]:
        """Return what is wanted besides the length; a swingweight as its moment [kg m]."""
        found: dict[Quantity, float] = {}
        if self.swingweight is not None:
            found[Quantity.SWINGWEIGHT] = self.scale.moment(self.swingweight)
        if self.mass is not None:
            found[Quantity.MASS] = self.mass
        if self.inertia is not None:
            found[Quantity.INERTIA] = self.inertia
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Free:
    """A place where mass may be added, from nothing to `most`; places in metres [m, m, kg]."""

    along: float
    across: float = 0.0
    most: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a club cannot be built as it is asked for.

    Attributes
    ----------
    obstacle : Obstacle
    amount : float
        How much shorter, lighter or less it would have to be [m or kg].
    grip : float, optional
        How much lighter the grip would have to be instead, where it is the butt that is too heavy
        [kg].
    """

    obstacle: Obstacle
    amount: float
    grip: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What head and butt need so that a club meets its targets.

    Attributes
    ----------
    target : Target
    cuts : Cuts or None
        None where the shaft is too short.
    head_added, butt_added : float or None
        As the equations have them, below nothing where a part is too heavy [kg].
    club : Club or None
        With them.
    reasons : tuple of Reason
        Why it cannot be built; empty where it can.
    """

    target: Target
    cuts: Cuts | None
    head_added: float | None
    butt_added: float | None
    club: Club | None
    reasons: tuple[Reason, ...]

    @property
    def feasible(self) -> bool:
        """Return whether the club can be built of these parts."""
        return not self.reasons


def value_of(quantity: Quantity, club: Club) -> float:
    """Return a quantity of a club as targets are solved for: moment, mass, inertia, SI."""
    if quantity is Quantity.SWINGWEIGHT:
        return club.moment_about(FULCRUM)
    return club.mass if quantity is Quantity.MASS else club.inertia


def gain_of(quantity: Quantity, place: Free) -> float:
    """Return what a kilogram at a place adds to a quantity."""
    if quantity is Quantity.SWINGWEIGHT:
        return place.along - FULCRUM
    return 1.0 if quantity is Quantity.MASS else place.along**2 + place.across**2


def amounts(club: Club, wanted: Mapping[Quantity, float], places: Sequence[Free]) -> FloatArray:
    """Return the masses that meet as many targets as there are places.

    Parameters
    ----------
    club : Club
        Without them.
    wanted : mapping of Quantity to float
        Moment, mass and inertia about the butt, SI.
    places : sequence of Free

    Returns
    -------
    FloatArray
        One a place; below nothing where a part is too heavy [kg].

    Raises
    ------
    ConvergenceError
        If targets and places say the same thing twice.
    """
    if len(places) != len(wanted):
        raise InputError(
            f"{len(wanted)} targets need {len(wanted)} places for mass, not {len(places)}",
            place="target",
            mend="Free one place for every target.",
        )
    scale = np.array([[value] for value in wanted.values()])
    rows = np.array([[gain_of(one, place) for place in places] for one in wanted]) / scale
    lacking = np.array([value - value_of(one, club) for one, value in wanted.items()])
    if not np.linalg.cond(rows) <= WORST_CONDITION:
        raise ConvergenceError(
            "these targets cannot be told apart by masses at these places",
            place="target",
            mend="Leave one target out, or move the counterweight away from the head.",
        )
    found: FloatArray = np.linalg.solve(rows, lacking / scale[:, 0])
    return found


def places_of(parts: BuildParts, club: Club) -> tuple[Free, Free]:
    """Return where mass may be added: at the head's centre of gravity, and in the butt."""
    head = next(part for part in club.parts if part.name == "head")
    butt = parts.butt_weight
    return (
        Free(along=head.along, across=head.across, most=parts.head.most_added),
        Free(along=parts.grip.cap + butt.below_cap, most=butt.most),
    )


def solve(parts: BuildParts, target: Target) -> Answer:
    """Return what must be added to meet a club's targets.

    Parameters
    ----------
    parts : BuildParts
    target : Target
        With one figure besides the length the head's mass is solved for, with two the
        counterweight too.

    Returns
    -------
    Answer

    Raises
    ------
    InputError
        If the parts make no club.
    ConvergenceError
        If the targets cannot be told apart.
    """
    lacking = target.length - longest(parts)
    if lacking > LEAST_ADDED:
        reason = Reason(obstacle=Obstacle.SHAFT_SHORT, amount=lacking)
        return Answer(
            target=target,
            cuts=None,
            head_added=None,
            butt_added=None,
            club=None,
            reasons=(reason,),
        )
    kept = kept_length(parts, target.length)
    base = assembled(parts, kept)
    check_club(base)
    places = places_of(parts, base)[: len(target.wanted)]
    masses = [float(one) for one in amounts(base, target.wanted, places)]
    head, butt = masses[0], masses[1] if len(masses) > 1 else 0.0
    return Answer(
        target=target,
        cuts=cuts_for(parts, kept),
        head_added=head,
        butt_added=butt,
        club=assembled(parts, kept, head, butt),
        reasons=_reasons(parts, target, base, head, butt),
    )


def _reasons(
    parts: BuildParts, target: Target, base: Club, head: float, butt: float
) -> tuple[Reason, ...]:
    found = []
    at_head, at_butt = places_of(parts, base)
    if head < -LEAST_ADDED:
        found.append(Reason(obstacle=Obstacle.HEAD_HEAVY, amount=-head))
    if head > at_head.most + LEAST_ADDED:
        found.append(Reason(obstacle=Obstacle.HEAD_FULL, amount=head - at_head.most))
    if butt < -LEAST_ADDED:
        grip = Free(along=parts.grip.balance)
        lighter = -float(amounts(base, target.wanted, (at_head, grip))[1])
        found.append(Reason(obstacle=Obstacle.BUTT_HEAVY, amount=-butt, grip=lighter))
    if butt > at_butt.most + LEAST_ADDED:
        found.append(Reason(obstacle=Obstacle.BUTT_FULL, amount=butt - at_butt.most))
    return tuple(found)


def _check(name: str, value: float, limits: tuple[float, float], unit: str, size: float) -> None:
    if not limits[0] <= value <= limits[1]:
        raise InputError(
            f"a club {name} of {value / size:g} {unit} is outside {limits[0] / size:g} to "
            f"{limits[1] / size:g} {unit}",
            place=name,
            mend="Check the unit.",
        )

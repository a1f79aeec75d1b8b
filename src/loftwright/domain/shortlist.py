"""Whom a shortlist is for, and which measured shafts may stand on it."""

from dataclasses import dataclass, field
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import FASTEST_HEAD, SLOWEST_HEAD, Wish
from loftwright.domain.home import Home
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import LONGEST_CLUB, SHORTEST_CLUB
from loftwright.errors import InputError
from loftwright.physics.shaft_swing.players import Loading

LONGEST_TRIM: Final = 4.0 * INCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShaftOnHand:
    """A measured shaft that may be tried.

    Attributes
    ----------
    name : str
        By which the fitter knows it.
    measured : MeasuredProfile
    weighed : float, optional
        On the shop's scale, where the profile does not say [kg].
    place : str
        Where it lies.
    elsewhere : str
        Why it cannot be handed over here: who has it, locked, another sleeve; empty if it can.
    """

    name: str
    measured: MeasuredProfile
    weighed: float | None = None
    place: str = ""
    elsewhere: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sought:
    """A golfer for whom shafts are sought before a ball is hit.

    Attributes
    ----------
    head_speed : float
        With the own club [m s^-1].
    length : float
        Playing length of the own club; the others are cut to it [m].
    own : ShaftOnHand, optional
        The shaft in the own club; None where it was not measured.
    wish : Wish
    loadings : tuple of Loading
        How the shaft is loaded; both where that is not known.
    home : Home
    loft : float, optional
        Of the own club with its sleeve as set [rad].
    head_mass : float
        With what sits in the hosel [kg].
    tip_trim : float
        Cut off the tip of every shaft, as of the own one [m].
    """

    head_speed: float
    length: float
    own: ShaftOnHand | None
    wish: Wish = Wish.DISTANCE
    loadings: tuple[Loading, ...] = tuple(Loading)
    home: Home = field(default_factory=Home)
    loft: float | None = None
    head_mass: float = 200.0 * GRAM
    tip_trim: float = 0.0

    def __post_init__(self) -> None:
        for value, low, high, unit, name, place in (
            (self.head_speed, SLOWEST_HEAD, FASTEST_HEAD, MILE_PER_HOUR, "mph", "head_speed"),
            (self.length, SHORTEST_CLUB, LONGEST_CLUB, INCH, "in", "length"),
            (self.loft, 4.0 * DEGREE, 20.0 * DEGREE, DEGREE, "deg", "loft"),
            (self.head_mass, 120.0 * GRAM, 300.0 * GRAM, GRAM, "g", "head_mass"),
            (self.tip_trim, 0.0, LONGEST_TRIM, INCH, "in", "tip_trim"),
        ):
            if value is not None and not low <= value <= high:
                raise InputError(
                    f"a {place.replace('_', ' ')} of {value / unit:.4g} {name} cannot be used",
                    place=place,
                    mend=f"Give {low / unit:.0f} to {high / unit:.0f} {name}.",
                )
        if not self.loadings:
            raise InputError(
                "no way of loading a shaft was given",
                place="loading",
                mend=f"Give {' or '.join(Loading)}, or leave it out for both.",
            )

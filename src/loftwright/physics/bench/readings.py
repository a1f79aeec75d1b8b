"""Readings of one shaft, each with the set-up without which it means nothing."""

from dataclasses import dataclass, replace
from math import isfinite
from typing import Final, TypeAlias

from loftwright.constants import DEGREE, GRAM, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.limits import (
    DEFLECTION,
    END_WEIGHT,
    FREQUENCY,
    Limit,
    not_negative,
    within,
)
from loftwright.physics.shaft.mount import BARE, Dressing, Mount

BEND: Final = Limit(
    "deflection", 0.05 * MILLIMETRE, 0.4, "mm", MILLIMETRE, "inches or m instead of mm"
)
FORCE: Final = Limit("load", 0.1, 500.0, "N", 1.0, "g, kg or lb instead of N")
TURN: Final = Limit("twist", 0.2 * DEGREE, 30.0 * DEGREE, "deg", DEGREE, "rad instead of degrees")
MOMENT: Final = Limit("moment", 0.05, 10.0, "N m", 1.0, "in lb or N mm instead of N m")
WEIGHT: Final = Limit("mass of the shaft", 20.0 * GRAM, 0.25, "g", GRAM, "oz instead of g")
BALANCE: Final = Limit("balance point", 0.2, 1.0, "mm", MILLIMETRE, "inches instead of mm")
DIAMETER: Final = Limit(
    "diameter", 6.0 * MILLIMETRE, 20.0 * MILLIMETRE, "mm", MILLIMETRE, "inches instead of mm"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreePoint:
    """A deflection in the middle of two supports.

    Attributes
    ----------
    station : float
        Of the load, from the butt [m].
    span : float
        Between the supports [m].
    force : float
        [N]
    value : float
        The deflection [m].
    sigma : float
        Its relative error, one standard deviation.
    typed : str
        The digits as they were typed, so that a slip of them can be told.
    """

    station: float
    span: float
    force: float
    value: float
    sigma: float = 0.01
    typed: str = ""

    def __post_init__(self) -> None:
        if not (isfinite(self.span) and self.span > 0.0):
            raise InputError(
                f"a span of {self.span / MILLIMETRE:g} mm cannot be used",
                place="span",
                mend="Give the distance between the supports.",
            )
        within(self.force, FORCE)
        within(self.value, DEFLECTION)
        _check_sigma(self.sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cantilever:
    """A deflection of a shaft held at one end, butt or tip.

    Attributes
    ----------
    mount : Mount
    force : float
        [N]
    force_at, read_at : float
        Of load and gauge, from the butt [m].
    value : float
        What the load added to the deflection [m].
    sigma : float
        Its relative error, one standard deviation.
    typed : str
        The digits as they were typed.
    """

    mount: Mount
    force: float
    force_at: float
    read_at: float
    value: float
    sigma: float = 0.01
    typed: str = ""

    def __post_init__(self) -> None:
        within(self.force, FORCE)
        within(self.value, BEND)
        _check_sigma(self.sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frequency:
    """A frequency of a shaft held at one end, butt or tip.

    Attributes
    ----------
    mount : Mount
    weight : TipBody
        On the free end.
    value : float
        [s^-1]
    sigma : float
        Its relative error, one standard deviation.
    typed : str
        The digits as they were typed.
    """

    mount: Mount
    weight: TipBody
    value: float
    sigma: float = 0.003
    typed: str = ""

    def __post_init__(self) -> None:
        within(self.weight.mass, END_WEIGHT)
        within(self.value, FREQUENCY)
        _check_sigma(self.sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Torque:
    """A twist under a moment about the shaft, the butt held.

    Attributes
    ----------
    clamp : float
        How much of the butt is held [m].
    load_at : float
        Where the moment is applied, from the butt [m].
    moment : float
        [N m]
    value : float
        The twist [rad].
    sigma : float
        Its relative error, one standard deviation.
    typed : str
        The digits as they were typed.
    """

    clamp: float
    load_at: float
    moment: float
    value: float
    sigma: float = 0.01
    typed: str = ""

    def __post_init__(self) -> None:
        within(self.moment, MOMENT)
        within(self.value, TURN)
        _check_sigma(self.sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """What the shaft weighs, with what is on it.

    Attributes
    ----------
    value : float
        [kg]
    dressing : Dressing
    sigma : float
        Its relative error, one standard deviation.
    typed : str
        The digits as they were typed.
    """

    value: float
    dressing: Dressing = BARE
    sigma: float = 0.002
    typed: str = ""

    def __post_init__(self) -> None:
        within(self.value, WEIGHT)
        _check_sigma(self.sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Where the shaft balances, with what is on it.

    Attributes
    ----------
    value : float
        From the butt [m].
    dressing : Dressing
    sigma : float
        Its relative error, one standard deviation.
    typed : str
        The digits as they were typed.
    """

    value: float
    dressing: Dressing = BARE
    sigma: float = 0.002
    typed: str = ""

    def __post_init__(self) -> None:
        within(self.value, BALANCE)
        _check_sigma(self.sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class Diameter:
    """An outside diameter; it is kept with the piece and says nothing of EI by itself.

    Attributes
    ----------
    station : float
        From the butt [m].
    value : float
        [m]
    """

    station: float
    value: float

    def __post_init__(self) -> None:
        not_negative(self.station, "station")
        within(self.value, DIAMETER)


Reading: TypeAlias = ThreePoint | Cantilever | Frequency | Torque | Mass | Balance


def reads(reading: Reading, value: float) -> Reading:
    """Return the reading with another value."""
    return replace(reading, value=value, typed="")


def _check_sigma(sigma: float) -> None:
    if not (isfinite(sigma) and sigma > 0.0):
        raise InputError(
            f"an error of {100.0 * sigma:g} % cannot be used",
            place="sigma",
            mend="Give how far a reading repeats, more than nothing.",
        )

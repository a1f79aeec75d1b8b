"""A club's moment of inertia about its butt from how long it takes to swing."""

from dataclasses import dataclass
from math import hypot, isfinite, pi
from typing import Final

from loftwright.constants import DEGREE, GRAVITY, MILLIMETRE
from loftwright.errors import InputError, MeasurementError

PERIODS: Final = (1.0, 3.0)
WIDEST_SWING: Final = 5.0 * DEGREE


@dataclass(frozen=True, slots=True, kw_only=True)
class Pendulum:
    """A club hung near its butt and let swing.

    Attributes
    ----------
    mass, balance : float
        Of the club, its balance point from the top of the grip [kg, m].
    pivot : float
        From the top of the grip, towards the head positive [m].
    period : float
        Of a whole swing, there and back [s].
    swing : float
        How far it swung to one side [rad].
    gravity : float
        [m s^-2]
    """

    mass: float
    balance: float
    pivot: float
    period: float
    swing: float = 0.0
    gravity: float = GRAVITY

    def __post_init__(self) -> None:
        if not (isfinite(self.mass) and self.mass > 0.0):
            raise InputError(
                f"a club of {self.mass:g} kg cannot swing", place="mass", mend="Weigh the club."
            )
        if not self.balance > self.pivot >= -0.1:
            raise MeasurementError(
                f"a pivot {self.pivot / MILLIMETRE:.1f} mm from the butt is not above the balance "
                f"point at {self.balance / MILLIMETRE:.1f} mm",
                place="pivot",
                mend="Hang the club near its butt, and give places from the top of the grip.",
            )
        if not PERIODS[0] <= self.period <= PERIODS[1]:
            raise MeasurementError(
                f"a club does not swing once in {self.period:g} s",
                place="period",
                mend="Time 20 swings, there and back, and divide by 20; 1 to 3 s are possible.",
            )
        if not 0.0 <= self.swing <= WIDEST_SWING:
            raise MeasurementError(
                f"a swing of {self.swing / DEGREE:.1f} deg to a side is too wide",
                place="swing",
                mend="Let it swing less than 5 deg to a side.",
            )
        if not 9.75 <= self.gravity <= 9.85:
            raise InputError(
                f"{self.gravity:g} m/s^2 are not the pull of this earth",
                place="gravity",
                mend="Give the local value, 9.78 to 9.83.",
            )

    @property
    def arm(self) -> float:
        """Return the distance from pivot to balance point [m]."""
        return self.balance - self.pivot

    @property
    def about_pivot(self) -> float:
        """Return the moment of inertia about the pivot [kg m^2]."""
        small = self.period / (1.0 + self.swing**2 / 16.0)
        return self.mass * self.gravity * self.arm * small**2 / (4.0 * pi**2)


def pendulum_inertia(pendulum: Pendulum) -> float:
    """Return a club's moment of inertia about the top of its grip.

    Parameters
    ----------
    pendulum : Pendulum

    Returns
    -------
    float
        [kg m^2]

    Raises
    ------
    MeasurementError
        If it would be less than that of the same mass in its balance point.

    Notes
    -----
    I = M g d T^2 / (4 pi^2) + M (b^2 - d^2), with d from pivot to balance point b and T that of
    small swings, T / (1 + a^2 / 16) for a swing of a to a side. Friction and air are left out.
    """
    least = pendulum.mass * pendulum.balance**2
    found = pendulum.about_pivot + pendulum.mass * (pendulum.balance**2 - pendulum.arm**2)
    if found < least:
        raise MeasurementError(
            f"a period of {pendulum.period:.3f} s gives less inertia than the same weight in one "
            "point has",
            place="period",
            mend="Time it again, and measure weight, balance point and pivot again.",
        )
    return found


def pendulum_error(
    pendulum: Pendulum,
    *,
    period: float,
    mass: float = 0.0,
    balance: float = 0.0,
    pivot: float = 0.0,
) -> float:
    """Return the standard error of the inertia about the butt.

    Parameters
    ----------
    pendulum : Pendulum
    period, mass, balance, pivot : float
        Their standard errors [s, kg, m, m].
    """
    inertia = pendulum.about_pivot
    about = inertia / pendulum.arm
    whole = inertia / pendulum.mass + pendulum.balance**2 - pendulum.arm**2
    by_balance = about + 2.0 * pendulum.mass * pendulum.pivot
    by_pivot = 2.0 * pendulum.mass * pendulum.arm - about
    return hypot(
        2.0 * inertia * period / pendulum.period,
        whole * mass,
        by_balance * balance,
        by_pivot * pivot,
    )

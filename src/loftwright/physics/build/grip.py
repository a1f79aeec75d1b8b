"""What size a grip comes to on a butt with so much tape: between two ways to reckon it."""

from dataclasses import dataclass
from math import isfinite, sqrt
from typing import Final

from loftwright.constants import INCH
from loftwright.errors import InputError

SIZES: Final = (0.4 * INCH, 1.75 * INCH)
TAPES: Final = (0.0005 * INCH, 0.05 * INCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class GripSize:
    """The outside diameter a grip comes to [m].

    Attributes
    ----------
    stretched : float
        With the rubber's volume and length kept: it thins as it goes over more.
    added : float
        With diameters added, as the trade does.
    """

    stretched: float
    added: float

    @property
    def low(self) -> float:
        """Return the lower end of the bracket [m]."""
        return min(self.stretched, self.added)

    @property
    def high(self) -> float:
        """Return the upper end of the bracket [m]."""
        return max(self.stretched, self.added)


def under_grip(butt: float, wraps: float, tape: float) -> float:
    """Return the diameter under a grip.

    Parameters
    ----------
    butt : float
        Diameter of the shaft's butt [m].
    wraps : float
        How many turns of build-up tape.
    tape : float
        Thickness of the tape, measured [m].
    """
    _size(butt, "butt diameter")
    _tape(tape)
    if not (isfinite(wraps) and 0.0 <= wraps <= 20.0):
        raise InputError(f"{wraps:g} wraps cannot be", place="wraps", mend="Give 0 to 20.")
    return butt + 2.0 * wraps * tape


def wraps_for(growth: float, tape: float) -> float:
    """Return how many turns of tape make the diameter under the grip grow by so much [m].

    Parameters
    ----------
    growth : float
        Of the diameter [m].
    tape : float
        Thickness of the tape, measured: sources differ by half [m].
    """
    _tape(tape)
    if not (isfinite(growth) and growth >= 0.0):
        raise InputError(
            "tape does not make a grip smaller",
            place="growth",
            mend="Take a grip with a larger core.",
        )
    return growth / (2.0 * tape)


def grip_size(nominal: float, core: float, under: float) -> GripSize:
    """Return what a grip comes to over a diameter that is not its core's.

    Parameters
    ----------
    nominal : float
        Outside diameter on a butt of the core's size [m].
    core : float
        Diameter the grip is made for [m].
    under : float
        Diameter under it [m].

    Returns
    -------
    GripSize

    Notes
    -----
    Added: D = nominal + under - core. With the rubber's volume and length kept:
    D^2 = nominal^2 - core^2 + under^2, about two thirds of that growth. A grip stretched along
    is thinner still. Neither is a measurement: calliper the finished grip.
    """
    for name, value in (("nominal size", nominal), ("core", core), ("under grip", under)):
        _size(value, name)
    if not nominal > core:
        raise InputError(
            "a grip is thicker than its core", place="core", mend="Swap core and outside size?"
        )
    return GripSize(stretched=sqrt(nominal**2 - core**2 + under**2), added=nominal + under - core)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildUp:
    """A grip on a butt with tape under it.

    Attributes
    ----------
    butt : float
        Diameter of the shaft's butt [m].
    core, nominal : float
        What the grip is made for, and its outside on such a butt [m].
    tape : float
        Thickness of the build-up tape, measured [m].
    wraps : float
        Turns of it.
    """

    butt: float
    core: float
    nominal: float
    tape: float
    wraps: float = 0.0

    def __post_init__(self) -> None:
        grip_size(self.nominal, self.core, self.under)

    @property
    def under(self) -> float:
        """Return the diameter under the grip [m]."""
        return under_grip(self.butt, self.wraps, self.tape)

    @property
    def size(self) -> GripSize:
        """Return the bracket of what it comes to."""
        return grip_size(self.nominal, self.core, self.under)

    def wraps_to(self, size: float) -> tuple[float, float]:
        """Return the turns that would make it measure so much, by either way to reckon.

        Parameters
        ----------
        size : float
            Outside diameter [m].

        Returns
        -------
        tuple of float
            The fewer first; below nothing where the butt is too thick already.
        """
        _size(size, "grip size")
        added = size - self.nominal + self.core
        stretched = sqrt(max(size**2 - self.nominal**2 + self.core**2, 0.0))
        turns = sorted((under - self.butt) / (2.0 * self.tape) for under in (added, stretched))
        return turns[0], turns[1]


def _size(value: float, name: str) -> None:
    if not SIZES[0] <= value <= SIZES[1]:
        raise InputError(
            f"a {name} of {value / INCH:.3f} in cannot be",
            place=name,
            mend=f"Give {SIZES[0] / INCH:g} to {SIZES[1] / INCH:g} in.",
        )


def _tape(value: float) -> None:
    if not TAPES[0] <= value <= TAPES[1]:
        raise InputError(
            f"tape of {value / INCH:.4f} in cannot be",
            place="tape thickness",
            mend="Measure ten layers and divide; some 0.005 in.",
        )

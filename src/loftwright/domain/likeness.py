"""Plays like: how far two measured shafts are apart, by section, with the bench's noise."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.sections import (
    Difference,
    Section,
    bending_apart,
    density_apart,
    twisting_apart,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """A difference of one figure of whole shafts, with its noise.

    Attributes
    ----------
    value, noise : float
        In SI.
    """

    value: float
    noise: float

    @property
    def told(self) -> bool:
        """Whether it stands out of the noise, at two standard errors."""
        return abs(self.value) > 2.0 * self.noise


@dataclass(frozen=True, slots=True, kw_only=True)
class Likeness:
    """How far a shaft is from another.

    Attributes
    ----------
    bending, twisting, density : dict of Section to Difference
        Only sections that both shafts were seen in.
    mass : Apart, optional
        [kg]
    balance : Apart, optional
        [m]
    """

    bending: dict[Section, Difference]
    twisting: dict[Section, Difference]
    density: dict[Section, Difference]
    mass: Apart | None
    balance: Apart | None

    @property
    def distance(self) -> float | None:
        """Root mean square of the sections' differences in bending; None if none was seen."""
        return _root_mean_square(one.log for one in self.bending.values())

    @property
    def noise(self) -> float | None:
        """Root mean square of their noise: what two looks at one shaft would show."""
        return _root_mean_square(one.noise for one in self.bending.values())

    @property
    def twist_distance(self) -> float | None:
        """Root mean square of the sections' differences in twist; None if none was seen."""
        return _root_mean_square(one.log for one in self.twisting.values())


def likeness(one: MeasuredProfile, other: MeasuredProfile) -> Likeness:
    """Return how far a shaft is from another; positive is more of it than the other has.

    Parameters
    ----------
    one, other : MeasuredProfile
    """

    def by_section(
        found: Iterable[tuple[Section, Difference | None]],
    ) -> dict[Section, Difference]:
        return {section: told for section, told in found if told is not None}

    return Likeness(
        bending=by_section((part, bending_apart(one, other, part)) for part in Section),
        twisting=by_section((part, twisting_apart(one, other, part)) for part in Section),
        density=by_section((part, density_apart(one, other, part)) for part in Section),
        mass=_whole(one.mass, one.mass_error, other.mass, other.mass_error),
        balance=_whole(one.balance, one.balance_error, other.balance, other.balance_error),
    )


def standing(profiles: tuple[MeasuredProfile, ...]) -> MeasuredProfile | None:
    """Return the newest of a piece's profiles that is not set aside."""
    return next((one for one in reversed(profiles) if not one.set_aside), None)


def _whole(
    one: float | None, error: float | None, other: float | None, other_error: float | None
) -> Apart | None:
    if one is None or error is None or other is None or other_error is None:
        return None
    return Apart(value=one - other, noise=sqrt(error**2 + other_error**2))


def _root_mean_square(values: Iterable[float]) -> float | None:
    found = list(values)
    return sqrt(sum(one**2 for one in found) / len(found)) if found else None

"""The parts of a club, each as it was weighed and measured before the build."""

from dataclasses import dataclass
from math import isfinite
from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.build.rods import Rod, straight_rod
from loftwright.physics.shaft.limits import not_negative

OTHERS: Final = ("head", "shaft", "grip", "tape", "counterweight")
HEAVIEST_PART: Final = 400.0 * GRAM
FARTHEST: Final = 0.15
LEAST_SHAFT: Final = 0.3
"""What must stay of a shaft after both cuts [m]."""


def _mass(mass: float, name: str) -> None:
    not_negative(mass, f"{name} mass")
    if mass > HEAVIEST_PART:
        raise InputError(
            f"a {name} of {mass / GRAM:g} g is heavier than a part of a club can be",
            place=f"{name} mass",
            mend="Check the unit: ounces or kilograms instead of grams?",
        )


def _missing(name: str) -> InputError:
    return InputError(
        f"the {name} weighs nothing",
        place=f"{name} mass",
        mend="Weigh it; nothing is guessed for a part that was not weighed.",
    )


def _near(distance: float, name: str) -> None:
    if not (isfinite(distance) and abs(distance) <= FARTHEST):
        raise InputError(
            f"{name} of {distance / MILLIMETRE:g} mm is too far from the tip",
            place=name,
            mend=f"Check the unit; at most {FARTHEST / MILLIMETRE:.0f} mm.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RawShaft:
    """A shaft as it came.

    Attributes
    ----------
    rod : Rod
        Its weight along it, counted from the raw tip.
    tip_trim : float
        To be cut off the tip [m].
    """

    rod: Rod
    tip_trim: float = 0.0

    def __post_init__(self) -> None:
        _mass(self.rod.whole.mass, "shaft")
        not_negative(self.tip_trim, "tip trim")
        if not self.tip_trim < self.rod.length - LEAST_SHAFT:
            raise InputError(
                f"a tip trim of {self.tip_trim / MILLIMETRE:.1f} mm leaves next to nothing of a "
                f"shaft of {self.rod.length / MILLIMETRE:.1f} mm",
                place="tip trim",
                mend="Trim less, or check the unit; the maker's limit comes first.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatedHead:
    """A head as it sits on the tip of its shaft.

    Attributes
    ----------
    mass : float
        Without sleeve, screw and glue [kg].
    reach : float
        Of its centre of gravity along the shaft, beyond the seated tip [m].
    toe : float
        Of its centre of gravity from the shaft's line, to the toe [m].
    inertia : float
        About its own centre of gravity, about the line that a pendulum turns it on [kg m^2].
    to_plane : float
        From the seated tip along the shaft to the 60-degree plane, from a dry fit [m].
    most_added : float
        The heaviest weight that can be added to it [kg].
    """

    mass: float
    reach: float
    toe: float = 0.0
    inertia: float = 0.0
    to_plane: float
    most_added: float = 30.0 * GRAM

    def __post_init__(self) -> None:
        _mass(self.mass, "head")
        if self.mass == 0.0:
            raise _missing("head")
        for name in ("inertia", "most_added"):
            not_negative(getattr(self, name), f"head {name.replace('_', ' ')}")
        for name in ("reach", "toe", "to_plane"):
            _near(getattr(self, name), f"head {name.replace('_', ' ')}")


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedGrip:
    """A grip.

    Attributes
    ----------
    mass, length : float
        [kg, m]
    balance : float
        Of its balance point from its top [m].
    cap : float
        Thickness of its closed end, above the butt of the shaft [m].
    """

    mass: float
    length: float
    balance: float
    cap: float = 0.0

    def __post_init__(self) -> None:
        _mass(self.mass, "grip")
        if self.mass == 0.0:
            raise _missing("grip")
        straight_rod(self.mass, self.length, self.balance, "grip")
        not_negative(self.cap, "grip cap")
        if not self.cap <= 1.0 * INCH:
            raise InputError(
                f"a grip cap of {self.cap / MILLIMETRE:.1f} mm cannot be",
                place="grip cap",
                mend="Give the thickness of the closed end, some 3 to 5 mm.",
            )

    @property
    def rod(self) -> Rod:
        """Return its weight along it, counted from its top."""
        return straight_rod(self.mass, self.length, self.balance, "grip")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """Tape under the grip, spread evenly from the butt of the shaft [kg, m]."""

    mass: float = 0.0
    length: float = 0.0

    def __post_init__(self) -> None:
        _mass(self.mass, "tape")
        not_negative(self.length, "tape length")
        if self.mass > 0.0 and not 0.0 < self.length <= 0.5:
            raise InputError(
                f"tape of {self.mass / GRAM:g} g and {self.length / MILLIMETRE:g} mm cannot be",
                place="tape length",
                mend="Give how far down the shaft it reaches.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallPart:
    """A part at the tip: sleeve, screw, ferrule, glue, plug.

    Attributes
    ----------
    name : str
    mass : float
        [kg]
    reach : float
        Of its centre of gravity beyond the seated tip, towards the head positive [m].
    """

    name: str
    mass: float
    reach: float

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError("a part has no name", place="parts", mend="Say what it is.")
        _mass(self.mass, self.name)
        _near(self.reach, f"place of the {self.name}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ButtWeight:
    """Where a counterweight can go.

    Attributes
    ----------
    below_cap : float
        Of its centre of gravity below the grip's cap [m].
    most : float
        The heaviest that fits [kg].
    """

    below_cap: float = 0.75 * INCH
    most: float = 30.0 * GRAM

    def __post_init__(self) -> None:
        not_negative(self.most, "counterweight")
        if not 0.0 <= self.below_cap <= 12.0 * INCH:
            raise InputError(
                f"a counterweight {self.below_cap / MILLIMETRE:.1f} mm below the cap does not sit "
                "in the butt of the shaft",
                place="counterweight",
                mend="Give 0 to 12 in, from the top of the shaft down.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildParts:
    """Everything a club is built from, weighed."""

    shaft: RawShaft
    head: SeatedHead
    grip: FittedGrip
    tape: Tape = Tape()
    small: tuple[SmallPart, ...] = ()
    butt_weight: ButtWeight = ButtWeight()

    def __post_init__(self) -> None:
        names = [part.name for part in self.small]
        for name in names:
            if name in OTHERS or names.count(name) > 1:
                raise InputError(
                    f"two parts are called {name!r}",
                    place="parts",
                    mend="Give every part a name of its own; shaft, head, grip, tape and "
                    "counterweight have theirs.",
                )

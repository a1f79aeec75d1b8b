"""What the parts of a club come to: weight, balance and inertia about the butt."""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.build.parts import LEAST_SHAFT, BuildParts
from loftwright.physics.build.rods import Stretch
from loftwright.physics.shaft.limits import not_negative

LENGTHS: Final = (18.0 * INCH, 60.0 * INCH)
MASSES: Final = (250.0 * GRAM, 700.0 * GRAM)
BALANCES: Final = (0.4, 0.95)
"""Of a club's balance point, as a share of its length."""

MOST_APART: Final = 2.0 * GRAM
"""What a dry fit and the sum of its parts may differ by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Located:
    """A part where it sits in the club.

    Attributes
    ----------
    name : str
    mass : float
        [kg]
    along : float
        Of its centre of gravity from the top of the grip [m].
    across : float
        Of its centre of gravity from the shaft's line [m].
    inertia : float
        About its own centre of gravity [kg m^2].
    """

    name: str
    mass: float
    along: float
    across: float = 0.0
    inertia: float = 0.0

    @property
    def about_butt(self) -> float:
        """Return its inertia about the top of the grip [kg m^2]."""
        return self.inertia + self.mass * (self.along**2 + self.across**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Club:
    """A club as the sum of its parts.

    Attributes
    ----------
    parts : tuple of Located
    length : float
        From the top of the grip to the 60-degree plane [m].
    """

    parts: tuple[Located, ...]
    length: float

    @property
    def mass(self) -> float:
        """Return its mass [kg]."""
        return sum(part.mass for part in self.parts)

    @property
    def moment(self) -> float:
        """Return its first moment about the top of the grip [kg m]."""
        return sum(part.mass * part.along for part in self.parts)

    @property
    def balance(self) -> float:
        """Return its balance point from the top of the grip [m]."""
        return self.moment / self.mass

    @property
    def inertia(self) -> float:
        """Return its moment of inertia about the top of the grip [kg m^2]."""
        return sum(part.about_butt for part in self.parts)

    def moment_about(self, fulcrum: float) -> float:
        """Return its moment about a place from the top of the grip [m], head down [kg m]."""
        return self.moment - fulcrum * self.mass


@dataclass(frozen=True, slots=True, kw_only=True)
class Cuts:
    """What is cut off a shaft.

    Attributes
    ----------
    raw, tip_trim, butt_cut, kept : float
        Lengths: raw is the sum of the others [m].
    tip_piece, butt_piece : Stretch
        What was cut off; places count from the raw tip.
    """

    raw: float
    tip_trim: float
    butt_cut: float
    kept: float
    tip_piece: Stretch
    butt_piece: Stretch


def kept_length(parts: BuildParts, length: float) -> float:
    """Return how long a shaft a club of some length needs: less cap and seated head [m]."""
    return length - parts.grip.cap - parts.head.to_plane


def longest(parts: BuildParts) -> float:
    """Return the longest club that the shaft gives, with no cut at the butt [m]."""
    kept = parts.shaft.rod.length - parts.shaft.tip_trim
    return kept + parts.grip.cap + parts.head.to_plane


def cuts_for(parts: BuildParts, kept: float) -> Cuts:
    """Return what is cut off the shaft to keep some length of it.

    Parameters
    ----------
    parts : BuildParts
    kept : float
        Of the cut shaft [m].

    Raises
    ------
    InputError
        If the shaft is too short for it, or too little of it is kept.
    """
    rod, trim = parts.shaft.rod, parts.shaft.tip_trim
    butt_cut = rod.length - trim - kept
    if butt_cut < -1e-9:
        raise InputError(
            f"the shaft is too short by {-butt_cut / MILLIMETRE:.1f} mm",
            place="length",
            mend="Build a shorter club, trim the tip less, or take a longer shaft.",
        )
    if kept <= LEAST_SHAFT:
        raise InputError(
            f"{kept / MILLIMETRE:.1f} mm of shaft are too little",
            place="length",
            mend=f"Keep more than {LEAST_SHAFT / MILLIMETRE:.0f} mm.",
        )
    butt_cut = max(butt_cut, 0.0)
    end = rod.length - butt_cut
    return Cuts(
        raw=rod.length,
        tip_trim=trim,
        butt_cut=butt_cut,
        kept=kept,
        tip_piece=rod.between(0.0, trim),
        butt_piece=rod.between(end, rod.length),
    )


def assembled(
    parts: BuildParts, kept: float, head_added: float = 0.0, butt_added: float = 0.0
) -> Club:
    """Return the club that parts make on a shaft cut to a length.

    Parameters
    ----------
    parts : BuildParts
    kept : float
        Of the cut shaft [m].
    head_added : float
        Put into the head at its centre of gravity, its own inertia as it was [kg].
    butt_added : float
        Put into the butt as a counterweight [kg].

    Returns
    -------
    Club

    Notes
    -----
    Places count from the top of the grip along the shaft: the butt lies at the cap's thickness,
    the seated tip at cap and kept length, the 60-degree plane beyond it. Added masses may be
    below nothing, so that what a target would need is seen.
    """
    cuts = cuts_for(parts, kept)
    rod, cap = parts.shaft.rod, parts.grip.cap
    tip = cap + kept
    shaft = rod.between(cuts.tip_trim, rod.length - cuts.butt_cut)
    grip, tape, head = parts.grip.rod.whole, parts.tape, parts.head
    located = [
        Located(
            name="head",
            mass=head.mass + head_added,
            along=tip + head.reach,
            across=head.toe,
            inertia=head.inertia,
        ),
        Located(
            name="shaft",
            mass=shaft.mass,
            along=tip + cuts.tip_trim - shaft.balance,
            inertia=shaft.inertia,
        ),
        Located(name="grip", mass=grip.mass, along=grip.balance, inertia=grip.inertia),
        Located(
            name="tape",
            mass=tape.mass,
            along=cap + tape.length / 2.0,
            inertia=tape.mass * tape.length**2 / 12.0,
        ),
        *(Located(name=part.name, mass=part.mass, along=tip + part.reach) for part in parts.small),
        Located(name="counterweight", mass=butt_added, along=cap + parts.butt_weight.below_cap),
    ]
    return Club(parts=tuple(located), length=tip + head.to_plane)


def check_club(club: Club) -> None:
    """Refuse a club that no workshop has seen, naming the unit that was probably meant.

    Raises
    ------
    InputError
        If length, weight or balance point are outside what clubs have.
    """
    for name, value, (low, high), unit, size in (
        ("club length", club.length, LENGTHS, "in", INCH),
        ("club mass", club.mass, MASSES, "g", GRAM),
        (
            "club balance",
            club.balance,
            (BALANCES[0] * club.length, BALANCES[1] * club.length),
            "in",
            INCH,
        ),
    ):
        if not low <= value <= high:
            raise InputError(
                f"a {name} of {value / size:.2f} {unit} is outside {low / size:.1f} to "
                f"{high / size:.1f} {unit}",
                place=name,
                mend="Check the units of the parts, and that none is missing.",
            )


def head_reach(
    parts: BuildParts,
    kept: float,
    mass: float,
    balance: float,
    without: frozenset[str] = frozenset(),
) -> float:
    """Return the head's balance point beyond the tip from a dry fit that was weighed.

    Parameters
    ----------
    parts : BuildParts
        The head's own reach is not used.
    kept : float
        Of the shaft [m].
    mass, balance : float
        Of the dry fit, its balance point from the top of the grip, or of the shaft where the
        grip is off [kg, m].
    without : frozenset of str
        Names of parts that were not on it.

    Raises
    ------
    InputError
        If parts and whole do not weigh the same within 2 g.

    Notes
    -----
    The moment of the whole less that of all other parts is the head's. Its depth along the shaft
    is the largest unknown of a build: 5 mm are three quarters of a point.
    """
    not_negative(mass, "dry fit mass")
    there = [part for part in assembled(parts, kept).parts if part.name not in without]
    come_to = sum(part.mass for part in there)
    if abs(mass - come_to) > MOST_APART:
        raise InputError(
            f"the dry fit weighs {mass / GRAM:.1f} g, its parts {come_to / GRAM:.1f} g",
            place="dry fit mass",
            mend="Weigh the parts again, and count those that sat on the scale.",
        )
    top = parts.grip.cap if "grip" in without else 0.0
    others = sum(part.mass * part.along for part in there if part.name != "head")
    tip = parts.grip.cap + kept
    return (mass * (balance + top) - others) / parts.head.mass - tip

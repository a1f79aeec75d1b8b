"""A shaft in the clamp: what is held, what bends, and what hangs on the free end."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.beam import (
    ELEMENTS,
    WEIGHTS,
    Beam,
    TipBody,
    gauss_points,
    joined,
)
from loftwright.physics.shaft.limits import END_WEIGHT, SHORTEST_FREE, not_negative, within
from loftwright.physics.shaft.profile import Profile, mass_between

LONGEST_GRIP: Final = 0.4
LONGEST_SLEEVE: Final = 0.1
STEEP: Final = 0.02


class End(StrEnum):
    """Which end of the shaft sits in the clamp."""

    BUTT = "butt"
    TIP = "tip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dressing:
    """What sits on a shaft that is measured as it is.

    Attributes
    ----------
    grip_mass, grip_length : float
        With its tape, from the butt [kg, m]; it adds weight and no stiffness.
    sleeve_mass, sleeve_length : float
        Of the sleeve on the tip [kg, m]; the shaft is rigid inside it.
    sleeve_balance : float
        Of the sleeve's balance point from the tip end, towards the butt positive [m].
    """

    grip_mass: float = 0.0
    grip_length: float = 0.0
    sleeve_mass: float = 0.0
    sleeve_length: float = 0.0
    sleeve_balance: float = 0.0

    def __post_init__(self) -> None:
        not_negative(self.grip_mass, "grip mass")
        not_negative(self.sleeve_mass, "sleeve mass")
        for name, length, longest in (
            ("grip length", self.grip_length, LONGEST_GRIP),
            ("sleeve length", self.sleeve_length, LONGEST_SLEEVE),
        ):
            not_negative(length, name)
            if length > longest:
                raise InputError(
                    f"a {name} of {length:g} m is more than {longest:g} m",
                    place=name,
                    mend="Check the unit: mm or inches instead of m?",
                )
        if self.grip_mass > 0.0 and self.grip_length == 0.0:
            raise InputError(
                "a grip with a weight has no length",
                place="grip length",
                mend="Give how far down the shaft it reaches.",
            )
        if not -LONGEST_SLEEVE <= self.sleeve_balance <= LONGEST_SLEEVE:
            raise InputError(
                f"a sleeve cannot balance {self.sleeve_balance:g} m from the tip end",
                place="sleeve balance",
                mend="Check the unit: mm instead of m?",
            )


BARE: Final = Dressing()


@dataclass(frozen=True, slots=True, kw_only=True)
class Mount:
    """How a shaft is held.

    Attributes
    ----------
    clamp : float
        How much of the shaft the clamp holds, from the end held [m].
    held : End
    dressing : Dressing
        What is on the shaft.
    """

    clamp: float
    held: End = End.BUTT
    dressing: Dressing = BARE

    def __post_init__(self) -> None:
        not_negative(self.clamp, "clamp")

    def rigid(self, length: float) -> tuple[float, float]:
        """Return how much of a shaft cannot bend at the held end and at the free end [m].

        Parameters
        ----------
        length : float
            Of the shaft [m].

        Raises
        ------
        InputError
            If the clamp leaves less than 0.3 m free.
        """
        sleeve = self.dressing.sleeve_length
        held, free = (
            (self.clamp, sleeve) if self.held is End.BUTT else (max(self.clamp, sleeve), 0.0)
        )
        if not held + free < length - SHORTEST_FREE:
            raise InputError(
                f"a clamp of {self.clamp / MILLIMETRE:g} mm leaves too little of a shaft of "
                f"{length / MILLIMETRE:g} mm free",
                place="clamp",
                mend="Hold less of it, or trim less: more than 300 mm must be free to bend.",
            )
        return held, free


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placed:
    """Where the elements of a shaft in its clamp lie.

    Attributes
    ----------
    nodes : FloatArray
        From the clamp, shape (elements + 1,) [m].
    along : FloatArray
        The Gauss points from the butt, shape (elements, 4) [m].
    rigid : float
        How much of the shaft's free end cannot bend [m].
    """

    nodes: FloatArray
    along: FloatArray
    rigid: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mounted:
    """A shaft in its clamp, as a beam with a body on its end.

    Attributes
    ----------
    beam : Beam
        Its nodes count from the clamp.
    body : TipBody
        All that is rigid on the free end.
    """

    beam: Beam
    body: TipBody


def mounted(
    profile: Profile, mount: Mount, weight: TipBody | None = None, elements: int = ELEMENTS
) -> Mounted:
    """Return a shaft in its clamp.

    Parameters
    ----------
    profile : Profile
        Of the bare shaft.
    mount : Mount
    weight : TipBody, optional
        Put on the free end; its reach counts from the shaft's own end.
    elements : int
        Of the beam; a jump of EI becomes a node.

    Returns
    -------
    Mounted

    Raises
    ------
    InputError
        If the clamp holds too much, or the weight is none.
    """
    where = placed(profile.length, mount, elements, _jumps(profile, elements))
    density = np.interp(where.along, profile.stations, profile.line_density)
    beam = Beam(
        nodes=where.nodes,
        bending=np.interp(where.along, profile.stations, profile.bending),
        line_density=density + grip_density(mount, where.along),
    )
    inside = within_sleeve(where, mount, profile.stations, profile.line_density)
    return Mounted(beam=beam, body=joined(*hung(where, mount, weight), inside))


def placed(
    length: float, mount: Mount, elements: int = ELEMENTS, jumps: FloatArray | None = None
) -> Placed:
    """Return where the elements of a shaft lie that is held in a clamp.

    Parameters
    ----------
    length : float
        Of the shaft [m].
    mount : Mount
    elements : int
    jumps : FloatArray, optional
        Where nodes shall lie besides the grip's end, from the butt [m].
    """
    held, free = mount.rigid(length)
    turned = mount.held is End.TIP
    start = length - held if turned else held
    special = np.append(mount.dressing.grip_length, [] if jumps is None else jumps)
    away = start - special if turned else special - start
    nodes = _nodes(away, length - held - free, elements)
    points = gauss_points(nodes)
    return Placed(nodes=nodes, along=start - points if turned else start + points, rigid=free)


def grip_density(mount: Mount, along: FloatArray) -> FloatArray:
    """Return what a grip adds to the line density at points from the butt [kg m^-1]."""
    grip = mount.dressing
    if grip.grip_mass == 0.0:
        return np.zeros_like(along)
    return np.where(along < grip.grip_length, grip.grip_mass / grip.grip_length, 0.0)


def hung(where: Placed, mount: Mount, weight: TipBody | None) -> tuple[TipBody, ...]:
    """Return weight and sleeve as they hang on the end of the part that bends."""
    bodies = []
    if weight is not None:
        within(weight.mass, END_WEIGHT)
        not_negative(weight.inertia, "inertia of the weight")
        reach = weight.reach + where.rigid
        bodies.append(TipBody(mass=weight.mass, inertia=weight.inertia, reach=reach))
    if mount.held is End.BUTT:
        sleeve = mount.dressing
        reach = where.rigid - sleeve.sleeve_balance
        bodies.append(TipBody(mass=sleeve.sleeve_mass, reach=reach))
    return tuple(bodies)


def within_sleeve(
    where: Placed, mount: Mount, stations: FloatArray, line_density: FloatArray
) -> TipBody:
    """Return the part of the shaft that a sleeve on the free end makes rigid.

    Parameters
    ----------
    where : Placed
    mount : Mount
    stations, line_density : FloatArray
        Of the shaft [m, kg m^-1].
    """
    if mount.held is End.TIP or where.rigid == 0.0:
        return TipBody()
    end = float(stations[-1])
    start = end - where.rigid
    mass, balance = mass_between(stations, line_density, start, end)
    return TipBody(mass=mass, inertia=mass * where.rigid**2 / 12.0, reach=balance - start)


def _nodes(special: FloatArray, span: float, elements: int) -> FloatArray:
    """Return nearly equal elements, with nodes at special places, the first before others."""
    step = span / elements
    nodes = np.linspace(0.0, span, elements + 1)
    taken: list[float] = []
    for place in special.tolist():
        apart = min((abs(place - other) for other in taken), default=step)
        if 0.25 * step < place < span - 0.25 * step and apart > 0.25 * step:
            taken.append(place)
            nearest = 1 + int(np.abs(nodes[1:-1] - place).argmin())
            if nodes[nearest] in taken:
                nodes = np.sort(np.append(nodes, place))
            else:
                nodes[nearest] = place
    return nodes


def _jumps(profile: Profile, elements: int) -> FloatArray:
    """Return the middles of ramps in which EI changes much within a fraction of an element."""
    step = profile.length / elements
    steep = np.abs(np.diff(np.log(profile.bending))) > STEEP
    narrow = np.diff(profile.stations) < 0.25 * step
    middles = 0.5 * (profile.stations[1:] + profile.stations[:-1])
    return middles[steep & narrow]


def total_mass(mounted_shaft: Mounted) -> float:
    """Return the mass that swings: of the beam and of the body on its end [kg]."""
    beam = mounted_shaft.beam
    moving = (beam.line_density * WEIGHTS).sum(axis=-1) * beam.steps
    return float(moving.sum()) + mounted_shaft.body.mass

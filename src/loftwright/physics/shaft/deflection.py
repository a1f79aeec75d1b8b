"""How far a shaft gives way on the bench: three supports, one clamp, a pull, a moment, a twist."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAVITY
from loftwright.physics.shaft.beam import (
    NOTHING,
    WEIGHTS,
    Beam,
    TipBody,
    assembled,
    shapes,
    stiffness_elements,
    tension_elements,
)
from loftwright.physics.shaft.bending_work import (
    Work,
    cantilever_work,
    free_part,
    panels,
    three_point_work,
    twist_work,
)
from loftwright.physics.shaft.mount import Mount, mounted
from loftwright.physics.shaft.profile import Profile


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bent:
    """A bent beam.

    Attributes
    ----------
    deflections, slopes : FloatArray
        Of every node, the clamped one first, shape (elements + 1,) [m, rad].
    """

    deflections: FloatArray
    slopes: FloatArray

    @property
    def deflection(self) -> float:
        """Return the deflection of the free end [m]."""
        return float(self.deflections[-1])

    @property
    def slope(self) -> float:
        """Return the slope of the free end [rad]."""
        return float(self.slopes[-1])


def three_point(profile: Profile, station: float, span: float, force: float) -> float:
    """Return the deflection under a force in the middle of two supports.

    Parameters
    ----------
    profile : Profile
    station : float
        Of the force, from the butt [m].
    span : float
        Between the supports [m].
    force : float
        [N]

    Returns
    -------
    float
        [m]

    Raises
    ------
    InputError
        If a support is beyond the shaft.

    Notes
    -----
    For an even shaft F S^3 / (48 EI); else the integral of z^2/4 over EI from each support to
    the middle. Crushed walls, seats and shear are left out.
    """
    return force * _bending(profile, three_point_work(profile.stations, station, span))


def cantilever(
    profile: Profile, mount: Mount, force: float, force_at: float, read_at: float
) -> float:
    """Return the deflection that a force on a clamped shaft brings.

    Parameters
    ----------
    profile : Profile
    mount : Mount
    force : float
        Across the shaft [N].
    force_at, read_at : float
        Of the force and of the gauge, from the butt [m].

    Returns
    -------
    float
        [m]

    Raises
    ------
    InputError
        If force or gauge lie in the clamp or beyond the shaft.
    """
    return force * _bending(profile, cantilever_work(profile.stations, mount, force_at, read_at))


def tip_slope(profile: Profile, mount: Mount, moment: float = 1.0) -> float:
    """Return how far a moment [N m] on the free end turns it [rad]: what loft and lie feel."""
    work = panels(profile.stations, *free_part(profile.length, mount))
    return moment * _bending(profile, work)


def twist(profile: Profile, clamp: float, load_at: float, moment: float) -> float:
    """Return how far a moment about the shaft twists it: the torque that is printed.

    Parameters
    ----------
    profile : Profile
    clamp : float
        How much of the butt is held [m].
    load_at : float
        Where the moment is applied, from the butt [m].
    moment : float
        [N m]

    Returns
    -------
    float
        [rad]
    """
    work = twist_work(profile.stations, clamp, load_at)
    stiffness = np.interp(work.points, profile.stations, profile.torsion)
    return moment * float((work.weights / stiffness).sum())


def bend(
    beam: Beam,
    force: float = 0.0,
    moment: float = 0.0,
    pull: float = 0.0,
    tip: TipBody = NOTHING,
    line_load: FloatArray | None = None,
) -> Bent:
    """Return a beam bent by loads on its free end and along it.

    Parameters
    ----------
    beam : Beam
    force : float
        Across the free end [N].
    moment : float
        On the free end [N m].
    pull : float
        On the body's centre of gravity, parallel to the beam as it was [N].
    tip : TipBody
        Whose reach is the lever of the pull.
    line_load : FloatArray, optional
        Across the beam at its Gauss points [N m^-1].

    Returns
    -------
    Bent
        For small slopes.
    """
    elements = stiffness_elements(beam)
    if pull != 0.0:
        elements = elements + tension_elements(beam, np.full_like(beam.bending, pull))
    at_tip = np.array([[0.0, 0.0], [0.0, pull * tip.reach]])
    loads = np.zeros(2 * beam.nodes.size)
    if line_load is not None:
        parts = shapes(beam.steps) * (line_load * WEIGHTS * beam.steps[:, None])[..., None]
        rows = 2 * np.arange(beam.nodes.size - 1)[:, None] + np.arange(4)
        np.add.at(loads, rows, parts.sum(axis=1))
    loads[-2:] += (force, moment)
    found = np.linalg.solve(assembled(elements, at_tip), loads[2:])
    return Bent(
        deflections=frozen_array(np.concatenate([[0.0], found[::2]])),
        slopes=frozen_array(np.concatenate([[0.0], found[1::2]])),
    )


def droop(beam: Beam, tip: TipBody, offset: float, pull: float) -> Bent:
    """Return how a head beside the shaft's line bends it while it is flung outwards.

    Parameters
    ----------
    beam : Beam
    tip : TipBody
        The head.
    offset : float
        Of its centre of gravity from the shaft's line, to the positive side [m].
    pull : float
        On it, parallel to the shaft as it was [N].

    Returns
    -------
    Bent
        The centre of gravity moves towards the clamp's line: the tip goes to the negative side.

    Notes
    -----
    For an even shaft without weight or reach, with k^2 = pull / EI, deflection
    -offset (1 - 1 / cosh kL) and slope -offset k tanh kL.
    """
    return bend(beam, moment=-pull * offset, pull=pull, tip=tip)


def sag(profile: Profile, mount: Mount, weight: TipBody = NOTHING) -> Bent:
    """Return how far a shaft held level hangs by its own weight and a body on its end."""
    held = mounted(profile, mount, weight)
    body = held.body
    return bend(
        held.beam,
        force=body.mass * GRAVITY,
        moment=body.mass * body.reach * GRAVITY,
        line_load=held.beam.line_density * GRAVITY,
    )


def _bending(profile: Profile, work: Work) -> float:
    stiffness = np.interp(work.points, profile.stations, profile.bending)
    return float((work.weights / stiffness).sum())

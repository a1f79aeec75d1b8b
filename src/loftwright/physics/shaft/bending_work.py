"""Readings of a static test as integrals over 1/EI or 1/GJ: points along the shaft and weights.

A shaft on two supports or in one clamp is statically determinate, so that a deflection is the
integral of moment times virtual moment over EI, whatever EI does along the shaft.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import not_negative
from loftwright.physics.shaft.mount import End, Mount

PANEL: Final = 12.5 * MILLIMETRE
_ROOTS, _SHARES = np.polynomial.legendre.leggauss(5)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Work:
    """One reading for a unit load: the sum of weights over the stiffness at the points.

    Attributes
    ----------
    points : FloatArray
        From the butt [m].
    weights : FloatArray
        Of 1/EI or 1/GJ there; [m^3] of a deflection, [m] of an angle.
    """

    points: FloatArray
    weights: FloatArray


def panels(breaks: FloatArray, start: float, end: float) -> Work:
    """Return points and lengths that integrate from `start` to `end`, split at the breaks.

    Parameters
    ----------
    breaks : FloatArray
        Where the integrand has a corner [m].
    start, end : float
        [m]
    """
    inner = breaks[(breaks > start) & (breaks < end)]
    even = np.linspace(start, end, int(np.ceil((end - start) / PANEL)) + 1)
    edges = np.union1d(even, inner)
    edges = edges[np.append(True, np.diff(edges) > 1e-12)]
    half = 0.5 * np.diff(edges)[:, None]
    points = edges[:-1, None] + half * (1.0 + _ROOTS)
    return Work(
        points=frozen_array(points.ravel()), weights=frozen_array((half * _SHARES).ravel())
    )


def three_point_work(breaks: FloatArray, station: float, span: float) -> Work:
    """Return the deflection in the middle of two supports under a unit force there.

    Parameters
    ----------
    breaks : FloatArray
        Stations of the profile, the last the shaft's end [m].
    station : float
        Of the force, from the butt [m].
    span : float
        Between the supports [m].
    """
    length = float(breaks[-1])
    if not span > 0.0:
        raise InputError(
            f"a span of {span / MILLIMETRE:g} mm cannot be used",
            place="span",
            mend="Give the distance between the supports.",
        )
    low, high = station - span / 2.0, station + span / 2.0
    if low < 0.0 or high > length:
        raise InputError(
            f"a support at {(low if low < 0.0 else high) / MILLIMETRE:g} mm is beyond the shaft, "
            f"0 to {length / MILLIMETRE:g} mm",
            place="span",
            mend="Check station and span; the station is where the load hangs, from the butt.",
        )
    flat = panels(np.append(breaks, station), low, high)
    arm = np.minimum(flat.points - low, high - flat.points)
    return Work(points=flat.points, weights=frozen_array(flat.weights * (0.5 * arm) ** 2))


def cantilever_work(breaks: FloatArray, mount: Mount, force_at: float, read_at: float) -> Work:
    """Return the deflection at a gauge of a clamped shaft under a unit force.

    Parameters
    ----------
    breaks : FloatArray
        Stations of the profile, the last the shaft's end [m].
    mount : Mount
    force_at, read_at : float
        Of force and gauge, from the butt [m].
    """
    start, end = free_part(float(breaks[-1]), mount)
    fixed = start if mount.held is End.BUTT else end
    for name, at in (("load", force_at), ("gauge", read_at)):
        if not start <= at <= end or at == fixed:
            raise InputError(
                f"the {name} at {at / MILLIMETRE:g} mm does not lie on the free part of the "
                f"shaft, {start / MILLIMETRE:g} to {end / MILLIMETRE:g} mm from the butt",
                place=f"{name} station",
                mend="Stations count from the butt end, the clamp from the end that is held.",
            )
    if mount.held is End.BUTT:
        flat = panels(breaks, start, min(force_at, read_at))
        product = (force_at - flat.points) * (read_at - flat.points)
    else:
        flat = panels(breaks, max(force_at, read_at), end)
        product = (flat.points - force_at) * (flat.points - read_at)
    return Work(points=flat.points, weights=frozen_array(flat.weights * product))


def free_part(length: float, mount: Mount) -> tuple[float, float]:
    """Return where the part that can bend begins and ends, from the butt [m]."""
    held, free = mount.rigid(length)
    return (held, length - free) if mount.held is End.BUTT else (free, length - held)


def twist_work(breaks: FloatArray, clamp: float, load_at: float) -> Work:
    """Return the twist between the clamp on the butt and a unit moment.

    Parameters
    ----------
    breaks : FloatArray
        Stations of the profile, the last the shaft's end [m].
    clamp, load_at : float
        Where the gauge length begins and ends, from the butt [m].
    """
    length = float(breaks[-1])
    not_negative(clamp, "clamp")
    if not clamp < load_at <= length:
        raise InputError(
            f"a moment at {load_at / MILLIMETRE:g} mm with a clamp to {clamp / MILLIMETRE:g} mm "
            f"does not twist a shaft of {length / MILLIMETRE:g} mm",
            place="load station",
            mend="Give where the moment is applied, from the butt, beyond the clamp.",
        )
    return panels(breaks, clamp, load_at)

"""How a delivered club head launches a ball: one impulse between two free rigid bodies."""

from dataclasses import astuple, dataclass, fields
from functools import lru_cache
from math import isfinite
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics._impact_kernels import strike_rows
from loftwright.physics.heads import PUBLISHED_HEAD, REFERENCE_HEAD, Head
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.impulse import (
    GREATEST_RESTITUTION,
    LEAST_RESTITUTION,
    LEAST_SPIN_WITH_AXIS,
    HeadNumbers,
    LawNumbers,
    Separation,
    collide,
    launch_numbers,
)
from loftwright.physics.spin_axis import axis_from_tilt, tilt_from_axis
from loftwright.physics.vectors import Vector, inverse

__all__ = [
    "PUBLISHED_HEAD",
    "REFERENCE_HEAD",
    "Delivery",
    "Head",
    "Impact",
    "ImpactLaw",
    "axis_from_tilt",
    "strike",
    "strike_many",
    "tilt_from_axis",
]

DELIVERY_COLUMNS: Final = (
    "head speed",
    "attack",
    "path",
    "face",
    "loft",
    "strike toe",
    "strike high",
)
SPEEDS: Final = (65.0 * MILE_PER_HOUR, 130.0 * MILE_PER_HOUR)
LOFTS: Final = (8.0 * DEGREE, 20.0 * DEGREE)
WIDEST_STRIKE: Final = 25.0 * MILLIMETRE
HIGHEST_STRIKE: Final = 15.0 * MILLIMETRE


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """How the head arrives at the ball; right-handed signs, SI and radians.

    Attributes
    ----------
    head_speed : float
        Speed of the face centre [m/s].
    attack : float
        Upwards positive [rad].
    path : float
        In-to-out (to the right) positive [rad].
    face : float
        Open (to the right) positive, at the face centre [rad].
    loft : float
        Dynamic loft at the face centre [rad].
    lie : float
        Turn about the face normal, toe up positive [rad].
    strike_toe, strike_high : float
        Strike along the face from its centre [m].
    rotation : tuple of 3 floats
        Of the head before impact about (target, up, right) [rad/s]; up positive closes the
        face, right positive adds loft.
    """

    head_speed: float
    attack: float
    path: float
    face: float
    loft: float
    lie: float = 0.0
    strike_toe: float = 0.0
    strike_high: float = 0.0
    rotation: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Impact:
    """The launch of a ball, and head and ball as they part.

    Attributes
    ----------
    ball_speed : float
        [m/s]
    launch, direction : float
        Upwards and to the right positive [rad].
    spin : float
        [rad/s]
    axis : float
        Tilt of the spin axis in the plane across the launch direction [rad], positive curves
        right, beyond a right angle is topspin; 0 below 1 rpm.
    back_spin, side_spin : float
        [rad/s]
    speed_ratio : float
        Ball speed over head speed.
    velocity, spin_vector, impulse : tuple of 3 floats
        Of the ball, along target, up and right [m/s], [rad/s], [N s].
    head_velocity, head_rotation : tuple of 3 floats
        Of the head's centre of gravity after impact [m/s], and about it [rad/s].
    restitution : float
        Normal restitution of this strike.
    slides : bool
        Whether the ball slides on the face until it leaves.
    warnings : tuple of str
        Where the model is used beyond its validity.
    """

    ball_speed: float
    launch: float
    direction: float
    spin: float
    axis: float
    back_spin: float
    side_spin: float
    speed_ratio: float
    velocity: Vector
    spin_vector: Vector
    impulse: Vector
    head_velocity: Vector
    head_rotation: Vector
    restitution: float
    slides: bool
    warnings: tuple[str, ...] = ()


@lru_cache(maxsize=64)
def _head_numbers(head: Head) -> HeadNumbers:
    i = head.inertia
    stiffness = (i[0, 0], i[1, 1], i[2, 2], i[0, 1], i[0, 2], i[1, 2])
    xx, yy, zz, xy, xz, yz = (float(value) for value in stiffness)
    return HeadNumbers(
        mass=head.mass,
        cg=(float(head.cg[0]), float(head.cg[1]), float(head.cg[2])),
        compliance=inverse((xx, yy, zz, xy, xz, yz)),
        bulge_curvature=1.0 / head.bulge,
        roll_curvature=1.0 / head.roll,
        restitution=head.restitution,
    )


def _law_numbers(law: ImpactLaw) -> LawNumbers:
    return LawNumbers(*astuple(law))


_USUAL_LAW: Final = ImpactLaw()


def _check_finite(delivery: Delivery) -> None:
    for name in (f.name for f in fields(delivery)):
        value = getattr(delivery, name)
        if not all(isfinite(part) for part in (value if name == "rotation" else (value,))):
            raise InputError(f"{value} is no number", place=name.replace("_", " "))
    if delivery.head_speed <= 0.0:
        raise InputError("it must be positive", place="head speed")


def _require_impact(after: Separation, place: str) -> None:
    if not after.approach > 0.0:
        raise InputError(
            "the face moves away from the ball, so there is no impact",
            place=place,
            mend="Check head speed, attack and dynamic loft.",
        )
    if not after.settled:
        raise ConvergenceError("the direction of sliding does not settle", place=place)


def _warnings(delivery: Delivery, after: Separation, spin: float, back_spin: float) -> list[str]:
    found = []
    if not SPEEDS[0] <= delivery.head_speed <= SPEEDS[1]:
        speed = delivery.head_speed / MILE_PER_HOUR
        found.append(f"extrapolated: head speed {speed:.0f} mph lies outside 65 to 130 mph")
    if not LOFTS[0] <= delivery.loft <= LOFTS[1]:
        loft = delivery.loft / DEGREE
        found.append(f"extrapolated: dynamic loft {loft:.1f}° lies outside 8 to 20°")
    if abs(delivery.strike_toe) > WIDEST_STRIKE:
        toe = abs(delivery.strike_toe) / MILLIMETRE
        found.append(f"extrapolated: a strike {toe:.0f} mm across the face lies beyond 25 mm")
    if abs(delivery.strike_high) > HIGHEST_STRIKE:
        high = abs(delivery.strike_high) / MILLIMETRE
        found.append(f"extrapolated: a strike {high:.0f} mm up or down lies beyond 15 mm")
    if after.restitution in {LEAST_RESTITUTION, GREATEST_RESTITUTION}:
        found.append(f"extrapolated: restitution held at its limit of {after.restitution:g}")
    if after.slides:
        found.append("the ball slides on the face: spin follows the friction assumed")
    if back_spin < 0.0 and spin >= LEAST_SPIN_WITH_AXIS:
        found.append("topspin: the attack exceeds the loft at the strike")
    return found


def strike(head: Head, delivery: Delivery, law: ImpactLaw = _USUAL_LAW) -> Impact:
    """Solve one impact.

    Parameters
    ----------
    head : Head
        The club head.
    delivery : Delivery
        How it arrives at the ball.
    law : ImpactLaw, optional
        Constants of the impact.

    Returns
    -------
    Impact
        The launch, with warnings.

    Raises
    ------
    InputError
        For a value that is no number, a head speed that is not positive, or a face that moves
        away from the ball.
    ConvergenceError
        If the direction of sliding does not settle.

    Notes
    -----
    A free head, its full inertia tensor and a ball at rest; the local normal from bulge and
    roll; normal restitution by speed and place; rolling at separation, or sliding where that
    would need more than the friction. The spin factor multiplies the spin after the solve, so
    angular momentum closes at 1 only. Meant for drivers, dynamic loft 8-20 degrees, 65-130 mph,
    strikes within 25 mm across and 15 mm up and down, dry face. The shaft's hold on the head,
    the size of the contact and the bending of the face are not modelled.

    References
    ----------
    Winfield and Tan 1994, Computers & Structures 53:19-25 (three-dimensional rigid impulse).
    Penner 2001, American Journal of Physics 69:563 (rolling at separation; from memory).
    """
    _check_finite(delivery)
    after = collide(
        _head_numbers(head),
        _law_numbers(law),
        delivery.head_speed,
        delivery.attack,
        delivery.path,
        delivery.face,
        delivery.loft,
        delivery.lie,
        delivery.strike_toe,
        delivery.strike_high,
        delivery.rotation,
    )
    _require_impact(after, "delivery")
    speed, launch, direction, spin, axis, back, side = launch_numbers(after.velocity, after.spin)
    return Impact(
        ball_speed=speed,
        launch=launch,
        direction=direction,
        spin=spin,
        axis=axis,
        back_spin=back,
        side_spin=side,
        speed_ratio=speed / delivery.head_speed,
        velocity=after.velocity,
        spin_vector=after.spin,
        impulse=after.impulse,
        head_velocity=after.head_velocity,
        head_rotation=after.head_rotation,
        restitution=after.restitution,
        slides=after.slides,
        warnings=tuple(_warnings(delivery, after, spin, back)),
    )


def strike_many(head: Head, deliveries: FloatArray, law: ImpactLaw = _USUAL_LAW) -> FloatArray:
    """Solve many impacts of one head.

    Parameters
    ----------
    head : Head
        The club head.
    deliveries : FloatArray, shape (n, 7)
        Head speed [m s^-1], attack, path, face, dynamic loft [rad], strike toe and strike high
        [m], signs as in `Delivery`.
    law : ImpactLaw, optional
        Constants of the impact.

    Returns
    -------
    FloatArray, shape (n, 5)
        Ball speed [m s^-1], launch [rad], spin [rad s^-1], axis as its tilt from the horizontal
        [rad] and direction [rad]: what `loftwright.physics.flight.fly_many` takes. A row with
        NaN gives NaN.

    Raises
    ------
    InputError
        For a wrong shape, an infinite value, or a face that moves away from the ball.
    ConvergenceError
        If the direction of sliding does not settle.

    Notes
    -----
    The same formula as `strike`, without its warnings.
    """
    rows = np.ascontiguousarray(deliveries, dtype=np.float64)
    if rows.ndim != 2 or rows.shape[1] != len(DELIVERY_COLUMNS):
        raise InputError(
            f"deliveries of shape {rows.shape} were given",
            place="deliveries",
            mend=f"Give one row a ball: {', '.join(DELIVERY_COLUMNS)}.",
        )
    if np.isinf(rows).any():
        row, column = np.argwhere(np.isinf(rows))[0]
        raise InputError(
            "the value is infinite", place=f"delivery {row}, {DELIVERY_COLUMNS[column]}"
        )
    launches = np.empty((rows.shape[0], 5))
    numbers = _head_numbers(head), _law_numbers(law)
    refused = strike_rows(*numbers, rows, launches)
    if refused >= 0:
        speed, attack, path, face, loft, toe, high = rows[refused]
        rest = (0.0, 0.0, 0.0)
        after = collide(*numbers, speed, attack, path, face, loft, 0.0, toe, high, rest)
        _require_impact(after, f"delivery {refused}")
        raise ConvergenceError("the impact does not settle", place=f"delivery {refused}")
    return launches

"""The impulse between a free rigid head and a ball at rest, in closed form.

Vectors in the head's axes (normal, up, toe) unless a name says world. World axes: X to the
target, Y up, Z to the right.
"""

from math import atan2, cos, hypot, sin, sqrt
from typing import NamedTuple

from numba.extending import register_jitable

from loftwright.constants import REVOLUTION_PER_MINUTE
from loftwright.physics.vectors import (
    Symmetric,
    Vector,
    combine,
    cross,
    dot,
    inverse,
    scaled,
    times,
    unit,
)

LEAST_RESTITUTION = 0.3
GREATEST_RESTITUTION = 0.92
LEAST_SPIN_WITH_AXIS = 1.0 * REVOLUTION_PER_MINUTE
SLIDING_TOLERANCE = 1e-12
SLIDING_ROUNDS = 500


class HeadNumbers(NamedTuple):
    """What the impulse needs of a head; `compliance` is the inverse of the inertia."""

    mass: float
    cg: Vector
    compliance: Symmetric
    bulge_curvature: float
    roll_curvature: float
    restitution: float


class LawNumbers(NamedTuple):
    """What the impulse needs of a law of impact."""

    ball_mass: float
    ball_radius: float
    shaft_mass: float
    restitution_speed: float
    restitution_slope: float
    restitution_toe: float
    restitution_high: float
    tangential_restitution: float
    spin_factor: float
    friction: float


class Contact(NamedTuple):
    """Head and strike at the first touch, in the head's axes.

    `arm` reaches from the centre of gravity to the strike; `face_velocity` is the face's there.
    """

    normal: Vector
    arm: Vector
    head_velocity: Vector
    head_rotation: Vector
    face_velocity: Vector


class Separation(NamedTuple):
    """Head and ball as they part, in world axes; speeds [m/s], spins [rad/s].

    `approach` is the normal speed of the face into the ball; where it is not positive there is
    no impact and everything else is zero.
    """

    approach: float
    restitution: float
    slides: bool
    settled: bool
    impulse: Vector
    velocity: Vector
    spin: Vector
    head_velocity: Vector
    head_rotation: Vector


@register_jitable
def head_axes(face: float, loft: float, lie: float) -> tuple[Vector, Vector, Vector]:
    """Return normal, up and toe axes of a delivered head in world axes."""
    normal = (cos(loft) * cos(face), sin(loft), cos(loft) * sin(face))
    level_toe = (-sin(face), 0.0, cos(face))
    level_up = cross(level_toe, normal)
    toe = combine(scaled(level_toe, cos(lie)), sin(lie), level_up)
    up = combine(scaled(level_up, cos(lie)), -sin(lie), level_toe)
    return normal, up, toe


@register_jitable
def to_head(axes: tuple[Vector, Vector, Vector], a: Vector) -> Vector:
    """Return a world vector in the head's axes."""
    return (dot(axes[0], a), dot(axes[1], a), dot(axes[2], a))


@register_jitable
def to_world(axes: tuple[Vector, Vector, Vector], a: Vector) -> Vector:
    """Return a vector of the head's axes in world axes."""
    return combine(combine(scaled(axes[0], a[0]), a[1], axes[1]), a[2], axes[2])


@register_jitable
def contact_mobility(head: HeadNumbers, law: LawNumbers, r: Vector, n: Vector) -> Symmetric:
    """Return the relative velocity that a unit impulse takes away at the contact [1/kg].

    A = (1/M + 1/m) E - S(r) I^-1 S(r) - S(rb) S(rb) / I_ball, S(q) the skew matrix of q.

    Parameters
    ----------
    head : HeadNumbers
    law : LawNumbers
    r, n : tuple of 3 floats
        From the head's centre of gravity to the strike [m], and the unit normal there.
    """
    m = law.ball_mass
    free = 1.0 / (head.mass + law.shaft_mass) + 1.0 / m
    turning = 1.0 / (0.4 * m)
    about_x = (0.0, r[2], -r[1])
    about_y = (-r[2], 0.0, r[0])
    about_z = (r[1], -r[0], 0.0)
    k_x = times(head.compliance, about_x)
    k_y = times(head.compliance, about_y)
    k_z = times(head.compliance, about_z)
    return (
        free + dot(about_x, k_x) + turning * (1.0 - n[0] * n[0]),
        free + dot(about_y, k_y) + turning * (1.0 - n[1] * n[1]),
        free + dot(about_z, k_z) + turning * (1.0 - n[2] * n[2]),
        dot(about_x, k_y) - turning * n[0] * n[1],
        dot(about_x, k_z) - turning * n[0] * n[2],
        dot(about_y, k_z) - turning * n[1] * n[2],
    )


@register_jitable
def restitution_at(
    head: HeadNumbers, law: LawNumbers, approach: float, toe: float, high: float
) -> float:
    """Return the normal restitution for a normal speed and a place on the face."""
    e = (
        head.restitution
        - law.restitution_slope * (approach - law.restitution_speed)
        - law.restitution_toe * toe * toe
        - law.restitution_high * high * high
    )
    return min(max(e, LEAST_RESTITUTION), GREATEST_RESTITUTION)


@register_jitable
def sliding_impulse(
    mobility: Symmetric, n: Vector, w: Vector, e: float, friction: float, gripping: Vector
) -> tuple[Vector, bool]:
    """Return the impulse at the friction limit and whether its direction settled.

    Friction points along the mean of the slip before and after. Far off the centre the plain
    round for that direction swings between two of them, so only a share of each turn is taken,
    a smaller one the longer it lasts.

    Parameters
    ----------
    mobility : tuple of 6 floats
        From `contact_mobility` [kg^-1].
    n, w : tuple of 3 floats
        Unit normal, and velocity of the face at the strike [m s^-1].
    e, friction : float
        Normal restitution, and Coulomb's coefficient.
    gripping : tuple of 3 floats
        The impulse of a ball that grips [N s]; the first direction of friction is its own.
    """
    w_n = dot(w, n)
    t = unit(combine(gripping, -dot(gripping, n), n))
    impulse = gripping
    for i in range(SLIDING_ROUNDS):
        pull = combine(n, friction, t)
        impulse = scaled(pull, (1.0 + e) * w_n / dot(n, times(mobility, pull)))
        slip = combine(scaled(w, 2.0), -1.0, times(mobility, impulse))
        turned = unit(combine(slip, -dot(slip, n), n))
        change = combine(turned, -1.0, t)
        if dot(change, change) < SLIDING_TOLERANCE * SLIDING_TOLERANCE:
            return impulse, True
        t = unit(combine(t, 0.5 / (1.0 + i // 50), change))
    return impulse, False


@register_jitable
def meet(
    head: HeadNumbers,
    head_speed: float,
    attack: float,
    path: float,
    axes: tuple[Vector, Vector, Vector],
    toe: float,
    high: float,
    rotation: Vector,
) -> Contact:
    """Return where and how fast a delivered head meets the ball.

    Parameters
    ----------
    head : HeadNumbers
    head_speed, attack, path, toe, high, rotation
        As in `collide`.
    axes : tuple of 3 vectors
        From `head_axes`.
    """
    n = unit((1.0, high * head.roll_curvature, toe * head.bulge_curvature))
    sag = 0.5 * (toe * toe * head.bulge_curvature + high * high * head.roll_curvature)
    r = combine((-sag, high, toe), -1.0, head.cg)
    level = head_speed * cos(attack)
    velocity = (level * cos(path), head_speed * sin(attack), level * sin(path))
    omega = to_head(axes, rotation)
    v_cg = combine(to_head(axes, velocity), 1.0, cross(omega, head.cg))
    return Contact(n, r, v_cg, omega, combine(v_cg, 1.0, cross(omega, r)))


@register_jitable
def contact_impulse(
    head: HeadNumbers, law: LawNumbers, contact: Contact, e: float
) -> tuple[Vector, bool, bool]:
    """Return the impulse on the ball, whether it slides, and whether that settled; e restitution.

    Parameters
    ----------
    head : HeadNumbers
    law : LawNumbers
    contact : Contact
    e : float
    """
    n, w = contact.normal, contact.face_velocity
    w_n = dot(w, n)
    mobility = contact_mobility(head, law, contact.arm, n)
    w_t = combine(w, -w_n, n)
    wanted = combine(combine(w, e * w_n, n), law.tangential_restitution, w_t)
    gripping = times(inverse(mobility), wanted)
    j_n = dot(gripping, n)
    across = combine(gripping, -j_n, n)
    if sqrt(dot(across, across)) <= law.friction * j_n:
        return gripping, False, True
    impulse, settled = sliding_impulse(mobility, n, w, e, law.friction, gripping)
    return impulse, True, settled


@register_jitable
def collide(
    head: HeadNumbers,
    law: LawNumbers,
    head_speed: float,
    attack: float,
    path: float,
    face: float,
    loft: float,
    lie: float,
    toe: float,
    high: float,
    rotation: Vector,
) -> Separation:
    """Solve one impact of a free head and a ball at rest.

    Parameters
    ----------
    head : HeadNumbers
        The head; its mass without the shaft's share.
    law : LawNumbers
        The law of impact.
    head_speed : float
        Speed of the face centre [m s^-1].
    attack, path, face, loft, lie : float
        Delivered angles at the face centre [rad].
    toe, high : float
        Strike along the face from its centre [m].
    rotation : tuple of 3 floats
        Head rotation before impact, world axes [rad s^-1].

    Returns
    -------
    Separation
        Velocities, spins and the impulse.
    """
    axes = head_axes(face, loft, lie)
    contact = meet(head, head_speed, attack, path, axes, toe, high, rotation)
    approach = dot(contact.face_velocity, contact.normal)
    if not approach > 0.0:
        zero = (0.0, 0.0, 0.0)
        return Separation(approach, 0.0, False, True, zero, zero, zero, zero, zero)

    e = restitution_at(head, law, approach, toe, high)
    impulse, slides, settled = contact_impulse(head, law, contact, e)
    to_contact = scaled(contact.normal, -law.ball_radius)
    ball_inertia = 0.4 * law.ball_mass * law.ball_radius * law.ball_radius
    spin = scaled(cross(to_contact, impulse), law.spin_factor / ball_inertia)
    head_velocity = combine(contact.head_velocity, -1.0 / (head.mass + law.shaft_mass), impulse)
    head_rotation = combine(
        contact.head_rotation, -1.0, times(head.compliance, cross(contact.arm, impulse))
    )
    return Separation(
        approach,
        e,
        slides,
        settled,
        to_world(axes, impulse),
        to_world(axes, scaled(impulse, 1.0 / law.ball_mass)),
        to_world(axes, spin),
        to_world(axes, head_velocity),
        to_world(axes, head_rotation),
    )


@register_jitable
def launch_numbers(
    velocity: Vector, spin: Vector
) -> tuple[float, float, float, float, float, float, float]:
    """Return ball speed, launch, direction, spin, axis, back spin and side spin.

    The axis lies in the plane across the launch direction; positive curves to the right.

    Parameters
    ----------
    velocity, spin : tuple of 3 floats
        Of the ball, world axes [m s^-1], [rad s^-1].
    """
    level = hypot(velocity[0], velocity[2])
    launch = atan2(velocity[1], level)
    direction = atan2(velocity[2], velocity[0])
    right = (-sin(direction), 0.0, cos(direction))
    up = (
        -sin(launch) * cos(direction),
        cos(launch),
        -sin(launch) * sin(direction),
    )
    back = dot(spin, right)
    side = 0.0 - dot(spin, up)
    total = sqrt(dot(spin, spin))
    axis = atan2(side, back) if total >= LEAST_SPIN_WITH_AXIS else 0.0
    return sqrt(dot(velocity, velocity)), launch, direction, total, axis, back, side


@register_jitable
def turned_to_horizontal(axis: float, launch: float) -> float:
    """Return the tilt from the horizontal of a spin axis given across the launch direction."""
    return atan2(sin(axis), cos(axis) * cos(launch))

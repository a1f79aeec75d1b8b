"""The impulse between a free rigid head and a ball at rest, in closed form.

Vectors in the head's axes (normal, up, toe) unless a name says world. World axes: X to the
target, Y up, Z to the right.
"""

from math import atan2, cos, hypot, sin, sqrt
from typing import NamedTuple, TypeAlias

from numba.extending import register_jitable

from loftwright.constants import REVOLUTION_PER_MINUTE

Vector: TypeAlias = tuple[float, float, float]
Symmetric: TypeAlias = tuple[float, float, float, float, float, float]
"""A symmetric 3 x 3 matrix as (xx, yy, zz, xy, xz, yz)."""

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
def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


@register_jitable
def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


@register_jitable
def combine(a: Vector, factor: float, b: Vector) -> Vector:
    """Return a + factor b."""
    return (a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2])


@register_jitable
def scaled(a: Vector, factor: float) -> Vector:
    """Return factor a."""
    return (factor * a[0], factor * a[1], factor * a[2])


@register_jitable
def unit(a: Vector) -> Vector:
    """Return the direction of `a`, or zero where it has none."""
    length = sqrt(dot(a, a))
    if length == 0.0:
        return (0.0, 0.0, 0.0)
    return scaled(a, 1.0 / length)


@register_jitable
def times(m: Symmetric, a: Vector) -> Vector:
    """Return the product of a symmetric matrix and a vector."""
    xx, yy, zz, xy, xz, yz = m
    return (
        xx * a[0] + xy * a[1] + xz * a[2],
        xy * a[0] + yy * a[1] + yz * a[2],
        xz * a[0] + yz * a[1] + zz * a[2],
    )


@register_jitable
def inverse(m: Symmetric) -> Symmetric:
    """Return the inverse of a symmetric matrix by its cofactors."""
    xx, yy, zz, xy, xz, yz = m
    c_xx = yy * zz - yz * yz
    c_xy = xz * yz - xy * zz
    c_xz = xy * yz - xz * yy
    share = 1.0 / (xx * c_xx + xy * c_xy + xz * c_xz)
    return (
        c_xx * share,
        (xx * zz - xz * xz) * share,
        (xx * yy - xy * xy) * share,
        c_xy * share,
        c_xz * share,
        (xy * xz - xx * yz) * share,
    )


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
    n = unit((1.0, high * head.roll_curvature, toe * head.bulge_curvature))
    sag = 0.5 * (toe * toe * head.bulge_curvature + high * high * head.roll_curvature)
    r = combine((-sag, high, toe), -1.0, head.cg)
    v = head_speed
    world_velocity = (v * cos(attack) * cos(path), v * sin(attack), v * cos(attack) * sin(path))
    omega = to_head(axes, rotation)
    v_cg = combine(to_head(axes, world_velocity), 1.0, cross(omega, head.cg))
    w = combine(v_cg, 1.0, cross(omega, r))
    w_n = dot(w, n)
    zero = (0.0, 0.0, 0.0)
    if not w_n > 0.0:
        return Separation(w_n, 0.0, False, True, zero, zero, zero, zero, zero)

    e = restitution_at(head, law, w_n, toe, high)
    mobility = contact_mobility(head, law, r, n)
    w_t = combine(w, -w_n, n)
    wanted = combine(combine(w, e * w_n, n), law.tangential_restitution, w_t)
    impulse = times(inverse(mobility), wanted)
    j_n = dot(impulse, n)
    across = combine(impulse, -j_n, n)
    slides = sqrt(dot(across, across)) > law.friction * j_n
    settled = True
    if slides:
        impulse, settled = sliding_impulse(mobility, n, w, e, law.friction, impulse)

    arm = scaled(n, -law.ball_radius)
    ball_inertia = 0.4 * law.ball_mass * law.ball_radius * law.ball_radius
    spin = scaled(cross(arm, impulse), law.spin_factor / ball_inertia)
    v_cg_after = combine(v_cg, -1.0 / (head.mass + law.shaft_mass), impulse)
    omega_after = combine(omega, -1.0, times(head.compliance, cross(r, impulse)))
    return Separation(
        w_n,
        e,
        slides,
        settled,
        to_world(axes, impulse),
        to_world(axes, scaled(impulse, 1.0 / law.ball_mass)),
        to_world(axes, spin),
        to_world(axes, v_cg_after),
        to_world(axes, omega_after),
    )


@register_jitable
def launch_numbers(
    velocity: Vector, spin: Vector
) -> tuple[float, float, float, float, float, float, float]:
    """Return ball speed, launch, direction, spin, axis, back spin and side spin.

    The axis lies in the plane across the launch direction; positive curves to the right.
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

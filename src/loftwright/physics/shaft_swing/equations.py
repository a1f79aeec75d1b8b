"""The equations of a swing: two links in an inclined plane, with a shaft that bends.

The arm turns by theta and the club against it by phi, both from straight down and positive
towards the target. Lengths are resolved along the club (r), across it in the plane of the swing
(t) and along the plane's normal, which points up and away from the player (z). The shaft bends by
q in the plane and by p out of it, and a bent shaft reaches less far: that shortening gives the
whole stiffening of the pull outwards.

Notes
-----
A convective part is what of an acceleration holds no second derivative. A derivative by time is
named with `_rate`.
"""

from math import cos, exp, sin, tanh
from typing import Final, NamedTuple, TypeAlias

from numba.extending import register_jitable

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, GRAVITY

PLANE: Final = 50.0 * DEGREE
"""Slope of the plane of the swing."""

_DOWN_PLANE: Final = GRAVITY * sin(PLANE)
_INTO_PLANE: Final = GRAVITY * cos(PLANE)
_FACE_ROLL: Final = 1.45
_FACE_ROLL_WIDTH: Final = 0.8
_RANGE_END: Final = 1.0
_RANGE_WIDTH: Final = 0.7

Triple: TypeAlias = tuple[float, float, float]


class PlayerNumbers(NamedTuple):
    """What the equations need of a player; see `loftwright.physics.shaft_swing.players.Player`."""

    hub_torque: float
    hub_rise: float
    hub_speed: float
    release: float
    release_length: float
    wrist_torque: float
    range_torque: float
    wrist_damping: float
    cock: float
    cock_stiffness: float
    cock_damping: float
    cock_limit: float
    start: float
    square: float
    arm_length: float
    arm_inertia: float
    arm_moment: float
    hand_inertia: float


class ClubNumbers(NamedTuple):
    """What the equations need of a shaft and its head; arrays are C-contiguous.

    The shaft is taken at m places, its bending in n shapes; see `ShaftBasis` and `SwungHead`.
    """

    places: FloatArray
    masses: FloatArray
    shapes: FloatArray
    shortening: FloatArray
    end: float
    end_shapes: FloatArray
    end_slopes: FloatArray
    end_shortening: FloatArray
    frequencies: FloatArray
    damping: float
    head_mass: float
    head_inertia: float
    head_back: float
    head_toe: float
    head_beyond: float


class FaceRoll(NamedTuple):
    """Sine and cosine of the club's roll about its shaft, with its slope and curvature by phi."""

    sine: float
    cosine: float
    slope: float
    curvature: float


class Offset(NamedTuple):
    """A point of the head beside the shaft's line, its rates and its convective part."""

    across: float
    normal: float
    across_rate: float
    normal_rate: float
    across_convective: float
    normal_convective: float


@register_jitable
def smooth_step(share: float) -> float:
    """Return 3 u^2 - 2 u^3, with u held between 0 and 1."""
    u = min(1.0, max(0.0, share))
    return u * u * (3.0 - 2.0 * u)


@register_jitable
def hub_torque(time: float, arm_rate: float, player: PlayerNumbers) -> float:
    """Return the torque of the body on the arm [N m]: it rises, and falls as the arm is fast."""
    rise = 1.0 - exp(-time / player.hub_rise)
    return player.hub_torque * rise * (1.0 - arm_rate / player.hub_speed)


@register_jitable
def wrist_torque(time: float, wrist: float, wrist_rate: float, player: PlayerNumbers) -> float:
    """Return the torque of the wrists on the club [N m]: it holds, then drives.

    Parameters
    ----------
    time : float
        Since the change of direction [s].
    wrist, wrist_rate : float
        phi [rad] and its rate [rad s^-1].
    player : PlayerNumbers

    Returns
    -------
    float
        Positive towards the target.
    """
    hold = max(
        -player.cock_stiffness * (wrist - player.cock) - player.cock_damping * wrist_rate,
        -player.cock_limit,
    )
    ended = smooth_step((wrist + _RANGE_END) / _RANGE_WIDTH)
    drive = player.wrist_torque - (player.wrist_torque - player.range_torque) * ended
    drive -= player.wrist_damping * wrist_rate
    released = smooth_step((time - player.release) / player.release_length)
    return (1.0 - released) * hold + released * drive


@register_jitable
def face_roll(wrist: float, square: float) -> FaceRoll:
    """Return the roll of the club about its shaft at a wrist angle; none where it is square."""
    share = tanh((wrist - square) / _FACE_ROLL_WIDTH)
    roll = -_FACE_ROLL * share
    slope = -_FACE_ROLL / _FACE_ROLL_WIDTH * (1.0 - share * share)
    return FaceRoll(sin(roll), cos(roll), slope, -2.0 * share / _FACE_ROLL_WIDTH * slope)


@register_jitable
def head_offset(back: float, toe: float, roll: FaceRoll, wrist_rate: float) -> Offset:
    """Return where a point of the head lies beside the shaft's line.

    Parameters
    ----------
    back, toe : float
        Of the point, towards the target and the toe with the face square [m].
    roll : FaceRoll
    wrist_rate : float
        [rad s^-1]

    Returns
    -------
    Offset
        Along t and z.
    """
    across = back * roll.cosine - toe * roll.sine
    normal = back * roll.sine + toe * roll.cosine
    turn = roll.slope * wrist_rate
    square = wrist_rate * wrist_rate
    return Offset(
        across,
        normal,
        -normal * turn,
        across * turn,
        -across * turn * turn - normal * roll.curvature * square,
        across * roll.curvature * square - normal * turn * turn,
    )


@register_jitable
def tilted_reach(
    beyond: float, offset: Offset, slopes: tuple[float, float], slope_rates: tuple[float, float]
) -> Triple:
    """Return how far a point of the tilted head reaches along r beyond the end of the shaft.

    Parameters
    ----------
    beyond : float
        Its distance along the shaft's line [m].
    offset : Offset
        Where it lies beside that line.
    slopes, slope_rates : tuple of float
        Of the shaft's end, in the plane and out of it [rad], [rad s^-1].

    Returns
    -------
    tuple of float
        The reach, its rate and its convective part.
    """
    alpha, beta = slopes
    alpha_rate, beta_rate = slope_rates
    reach = beyond * (1.0 - 0.5 * (alpha * alpha + beta * beta))
    reach -= offset.across * alpha + offset.normal * beta
    rate = -beyond * (alpha * alpha_rate + beta * beta_rate)
    rate -= offset.across_rate * alpha + offset.across * alpha_rate
    rate -= offset.normal_rate * beta + offset.normal * beta_rate
    convective = -beyond * (alpha_rate * alpha_rate + beta_rate * beta_rate)
    convective -= offset.across_convective * alpha + 2.0 * offset.across_rate * alpha_rate
    convective -= offset.normal_convective * beta + 2.0 * offset.normal_rate * beta_rate
    return reach, rate, convective


@register_jitable
def turning_acceleration(
    turn: float, along: Triple, across: Triple, normal_convective: float
) -> Triple:
    """Return the convective acceleration of a point of the turning club about the wrist.

    Parameters
    ----------
    turn : float
        Rate of theta and phi together [rad s^-1].
    along, across : tuple of float
        Place along r and t, its rate and its convective part.
    normal_convective : float
        Of its place along z [m s^-2].

    Returns
    -------
    tuple of float
        Along r, t and z [m s^-2].
    """
    return (
        along[2] - along[0] * turn * turn - 2.0 * across[1] * turn,
        across[2] + 2.0 * along[1] * turn - across[0] * turn * turn,
        normal_convective,
    )


@register_jitable
def wrist_acceleration(arm_length: float, wrist: float, arm_rate: float) -> Triple:
    """Return the convective acceleration of the wrist along r, t and z [m s^-2]."""
    pull = arm_length * arm_rate * arm_rate
    return -pull * cos(wrist), pull * sin(wrist), 0.0


@register_jitable
def gravity(club_angle: float) -> Triple:
    """Return gravity along r, t and z, with the club at psi = theta + phi [m s^-2]."""
    return _DOWN_PLANE * cos(club_angle), -_DOWN_PLANE * sin(club_angle), -_INTO_PLANE


@register_jitable
def arm_weight(arm_moment: float, arm_angle: float) -> float:
    """Return the torque of the arm's weight on theta [N m]."""
    return -arm_moment * _DOWN_PLANE * sin(arm_angle)

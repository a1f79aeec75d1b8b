"""A club at impact, and which impacts are refused."""

from dataclasses import dataclass
from math import asin, atan2, cos, hypot, sin
from typing import Final

from loftwright.arrays import FloatArray
from loftwright.errors import ConvergenceError
from loftwright.physics.shaft_swing._steps import Ended
from loftwright.physics.shaft_swing.basis import ShaftBasis
from loftwright.physics.shaft_swing.equations import (
    PLANE,
    face_roll,
    head_offset,
    tilted_reach,
)
from loftwright.physics.shaft_swing.players import Player

SPEEDS: Final = (20.0, 70.0)
"""Of the head at impact, between which a swing is given [m s^-1]."""
_GREATEST_SLOPE: Final = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """A club at impact. Its angles serve differences between shafts, never alone.

    Attributes
    ----------
    time : float
        Since the change of direction [s].
    head_speed : float
        Of the head's centre of gravity [m s^-1].
    club_angle : float
        Of the club in the hands from straight down, the head before the hands positive [rad].
    wrist_angle : float
        phi [rad].
    lead, droop : float
        Deflection of the top of the hosel, forward and away from the player [m].
    bend_loft, droop_angle : float
        Slopes there [rad].
    kick : float
        Rate of the lead [m s^-1].
    lag, lag_before : float
        Greatest deflection backwards [m], and how long before impact [s].
    attack, attack_above_ground : float
        Direction of the head in the plane of the swing, and against the ground [rad].
    """

    time: float
    head_speed: float
    club_angle: float
    wrist_angle: float
    lead: float
    droop: float
    bend_loft: float
    droop_angle: float
    kick: float
    lag: float
    lag_before: float
    attack: float
    attack_above_ground: float

    @property
    def delivered_loft(self) -> float:
        """Club angle and bend together, in the plane of the swing [rad]."""
        return self.club_angle + self.bend_loft


def at_impact(shaft: ShaftBasis, player: Player, ended: Ended, state: FloatArray) -> Swing:
    """Return what the club does at impact.

    Parameters
    ----------
    shaft : ShaftBasis
    player : Player
    ended : Ended
    state : FloatArray, shape (4 + 4 n,)
        theta, phi, q and p; then their rates.

    Returns
    -------
    Swing

    Raises
    ------
    ConvergenceError
        If the head comes at less than 20 or more than 70 m/s, or the shaft's end is bent by more
        than 0.25 rad.
    """
    size, n, head = len(state) // 2, len(shaft.frequencies), shaft.head
    place, rate = state[:size], state[size:]
    (theta, phi), (arm_rate, wrist_rate) = place[:2], rate[:2]
    q, p, q_rate, p_rate = place[2 : 2 + n], place[2 + n :], rate[2 : 2 + n], rate[2 + n :]
    slopes = float(shaft.end_slopes @ q), float(shaft.end_slopes @ p)
    slope_rates = float(shaft.end_slopes @ q_rate), float(shaft.end_slopes @ p_rate)
    offset = head_offset(-head.back, head.toe, face_roll(phi, player.square), wrist_rate)
    tilt = tilted_reach(head.beyond, offset, slopes, slope_rates)
    short = shaft.end_shortening
    reach = shaft.end - 0.5 * (q @ short @ q + p @ short @ p) + tilt[0]
    across = offset.across + head.beyond * slopes[0] + shaft.end_shapes @ q
    turn, psi = arm_rate + wrist_rate, theta + phi
    along = tilt[1] - q @ short @ q_rate - p @ short @ p_rate - across * turn
    beside = offset.across_rate + head.beyond * slope_rates[0] + shaft.end_shapes @ q_rate
    beside += reach * turn
    normal = offset.normal_rate + head.beyond * slope_rates[1] + shaft.end_shapes @ p_rate
    hand = player.arm_length * arm_rate
    forward = hand * cos(theta) + along * sin(psi) + beside * cos(psi)
    upward = hand * sin(theta) - along * cos(psi) + beside * sin(psi)
    speed = float(hypot(forward, upward, normal))
    _refuse(speed, slopes)
    return Swing(
        time=ended.time,
        head_speed=speed,
        club_angle=float(psi),
        wrist_angle=float(phi),
        lead=float(shaft.end_shapes @ q),
        droop=float(shaft.end_shapes @ p),
        bend_loft=slopes[0],
        droop_angle=slopes[1],
        kick=float(shaft.end_shapes @ q_rate),
        lag=ended.lag,
        lag_before=ended.time - ended.lag_time,
        attack=atan2(upward, forward),
        attack_above_ground=asin((upward * sin(PLANE) + normal * cos(PLANE)) / speed),
    )


def _refuse(speed: float, slopes: tuple[float, float]) -> None:
    """Refuse an impact that the equations or the game do not cover."""
    if not SPEEDS[0] <= speed <= SPEEDS[1]:
        raise ConvergenceError(
            f"the head comes through at {speed:.1f} m/s, not between {SPEEDS[0]:.0f} and "
            f"{SPEEDS[1]:.0f}.",
            place="swing",
            mend="Match the player to the golfer's own head speed.",
        )
    steepest = max(abs(slopes[0]), abs(slopes[1]))
    if not steepest <= _GREATEST_SLOPE:
        raise ConvergenceError(
            f"the shaft's end is bent by {steepest:.2f} rad at impact; small slopes end at "
            f"{_GREATEST_SLOPE}.",
            place="swing",
            mend="Look at the stiffness of the shaft and its unit.",
        )

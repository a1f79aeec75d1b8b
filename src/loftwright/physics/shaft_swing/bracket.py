"""What another shaft does to a swing, for three players in one.

One keeps the torques, one the motion of the grip, one the delivered loft. Golfers are somewhere
between, and nobody knows where before the balls.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft_swing.basis import ShaftBasis
from loftwright.physics.shaft_swing.players import Player
from loftwright.physics.shaft_swing.scatter import swing_to_swing
from loftwright.physics.shaft_swing.struck import Swing
from loftwright.physics.shaft_swing.swings import (
    STEP,
    grip_motion,
    release_anew,
    replay,
    swing,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SwingChange:
    """One swing less another, at impact.

    Attributes
    ----------
    head_speed : float
        [m s^-1]
    bend_loft, delivered_loft : float
        In the plane of the swing [rad].
    droop_angle : float
        Less toe-down positive [rad].
    lead, lag : float
        At the top of the hosel [m].
    kick : float
        [m s^-1]
    attack : float
        Against the ground [rad].
    """

    head_speed: float
    bend_loft: float
    delivered_loft: float
    droop_angle: float
    lead: float
    lag: float
    kick: float
    attack: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bracket:
    """Another shaft less the own one, for two players who do not adapt.

    Attributes
    ----------
    held_torques : SwingChange
        Body and wrists pull as before.
    held_motion : SwingChange
        The grip moves as before.
    """

    held_torques: SwingChange
    held_motion: SwingChange

    @property
    def delivered_loft(self) -> float:
        """The middle of both, in the plane of the swing [rad]."""
        return 0.5 * (self.held_torques.delivered_loft + self.held_motion.delivered_loft)

    @property
    def droop_angle(self) -> float:
        """The middle of both [rad]."""
        return 0.5 * (self.held_torques.droop_angle + self.held_motion.droop_angle)


def change(other: Swing, own: Swing) -> SwingChange:
    """Return one swing less another."""
    return SwingChange(
        head_speed=other.head_speed - own.head_speed,
        bend_loft=other.bend_loft - own.bend_loft,
        delivered_loft=other.delivered_loft - own.delivered_loft,
        droop_angle=other.droop_angle - own.droop_angle,
        lead=other.lead - own.lead,
        lag=other.lag - own.lag,
        kick=other.kick - own.kick,
        attack=other.attack_above_ground - own.attack_above_ground,
    )


def brackets(
    others: Sequence[ShaftBasis], own: ShaftBasis, player: Player, *, step: float = STEP
) -> tuple[Bracket, ...]:
    """Return what each other shaft changes, with torques held and with the grip's motion held.

    Parameters
    ----------
    others : sequence of ShaftBasis
    own : ShaftBasis
    player : Player
        Matched with the own shaft.
    step : float
        Of the integration [s].

    Returns
    -------
    tuple of Bracket
        In the order of `others`.

    Raises
    ------
    ConvergenceError
        As `swing`; it names the shaft by its number.
    InputError
        If the step is not above 0.

    Notes
    -----
    With a held motion the own shaft is replayed on the same grip, so that errors of the steps
    drop out of the difference.
    """
    grip = grip_motion(own, player, step=step)
    by_torques, by_motion = swing(own, player, step=step), replay(own, grip)
    found = []
    for number, other in enumerate(others, start=1):
        try:
            torques, motion = swing(other, player, step=step), replay(other, grip)
        except ConvergenceError as error:
            raise ConvergenceError(
                error.message, place=f"shaft {number} of {len(others)}", mend=error.mend
            ) from error
        found.append(
            Bracket(
                held_torques=change(torques, by_torques), held_motion=change(motion, by_motion)
            )
        )
    return tuple(found)


def adapted(
    other: ShaftBasis, own: ShaftBasis, player: Player, *, step: float = STEP
) -> SwingChange:
    """Return what another shaft changes when the wrists bring the delivered loft back.

    Parameters
    ----------
    other, own : ShaftBasis
    player : Player
        Matched with the own shaft.
    step : float
        Of the integration [s].

    Returns
    -------
    SwingChange

    Raises
    ------
    ConvergenceError
        If there is no such release, or as `swing`.
    InputError
        If the step is not above 0.
    """
    before = swing(own, player, step=step)
    return change(release_anew(other, player, before.delivered_loft, step=step), before)


def scatter_ratio(
    other: ShaftBasis,
    own: ShaftBasis,
    player: Player,
    draws: FloatArray,
    *,
    step: float = STEP,
) -> float:
    """Return how much wider the delivered loft scatters from swing to swing with another shaft.

    Parameters
    ----------
    other, own : ShaftBasis
    player : Player
    draws : FloatArray, shape (k, 5)
        Standard normal; the same swings with both shafts.
    step : float
        Of the integration [s].

    Returns
    -------
    float
        Ratio of two standard deviations.

    Raises
    ------
    ConvergenceError
        As `swing`.
    InputError
        If there are fewer than two swings.
    """
    lofts = [swing_to_swing(shaft, player, draws, step=step)[:, 0] for shaft in (other, own)]
    if len(lofts[0]) < 2:
        raise InputError(
            "one swing has no scatter.", place="draws", mend="Give two swings or more."
        )
    return float(np.std(lofts[0], ddof=1) / np.std(lofts[1], ddof=1))

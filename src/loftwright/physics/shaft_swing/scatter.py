"""A player's swings one after the other, with small differences of torque and timing."""

from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import InputError
from loftwright.physics.shaft_swing.basis import ShaftBasis
from loftwright.physics.shaft_swing.players import Player
from loftwright.physics.shaft_swing.swings import STEP, swing

HUB_TORQUE_SHARE: Final = 0.01
RELEASE_SD: Final = 0.003
WRIST_TORQUE_SHARE: Final = 0.03
HUB_RISE_SHARE: Final = 0.05
COCK_SD: Final = 0.01
"""Spreads from swing to swing: shares, seconds and radians (judgement)."""


def swing_to_swing(
    shaft: ShaftBasis, player: Player, draws: FloatArray, *, step: float = STEP
) -> FloatArray:
    """Return delivered loft and head speed of repeated swings.

    Parameters
    ----------
    shaft : ShaftBasis
    player : Player
    draws : FloatArray, shape (k, 5)
        Standard normal: hub torque, release, wrist torque, hub rise, cock.
    step : float
        Of the integration [s].

    Returns
    -------
    FloatArray, shape (k, 2)
        [rad], in the plane of the swing; [m s^-1].

    Raises
    ------
    ConvergenceError
        As `swing`.
    InputError
        If the draws have another shape.
    """
    if draws.ndim != 2 or draws.shape[1] != 5:
        raise InputError(
            f"draws of the shape {draws.shape} do not make swings.",
            place="draws",
            mend="Give five standard normal numbers a swing.",
        )
    table = np.empty((len(draws), 2))
    for row, (hub, release, wrist, rise, cock) in zip(table, draws.tolist(), strict=True):
        made = swing(
            shaft,
            replace(
                player,
                hub_torque=player.hub_torque * (1.0 + HUB_TORQUE_SHARE * hub),
                release=player.release + RELEASE_SD * release,
                wrist_torque=player.wrist_torque * (1.0 + WRIST_TORQUE_SHARE * wrist),
                hub_rise=player.hub_rise * (1.0 + HUB_RISE_SHARE * rise),
                cock=player.cock + COCK_SD * cock,
            ),
            step=step,
        )
        row[:] = made.delivered_loft, made.head_speed
    return table

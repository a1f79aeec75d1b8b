"""Players drawn about the two invented ones, for studies of what differs between them."""

from dataclasses import replace

import numpy as np

from loftwright.physics.shaft_swing.players import Player


def drawn_players(style: Player, count: int, seed: int) -> list[Player]:
    """Return players with normal differences of torque, timing, cock and start."""
    random = np.random.default_rng(seed)
    players = []
    for draw in random.normal(size=(count, 8)):
        hub, rise, release, wrist, cock, range_end, hold, start = draw.tolist()
        players.append(
            replace(
                style,
                hub_torque=style.hub_torque * (1.0 + 0.06 * hub),
                hub_rise=style.hub_rise * max(0.1, 1.0 + 0.25 * rise),
                release=style.release + 0.008 * release,
                wrist_torque=style.wrist_torque * (1.0 + 0.12 * wrist),
                cock=style.cock + 0.08 * cock,
                range_torque=style.range_torque + 3.0 * range_end,
                cock_stiffness=style.cock_stiffness * max(0.1, 1.0 + 0.30 * hold),
                start=style.start + 0.08 * start,
            )
        )
    return players

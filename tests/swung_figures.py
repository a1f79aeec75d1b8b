"""What a separate prototype of the swing said of players and of repeated swings.

Shared by the published checks and the study; all of it is self-consistent.
"""

from math import degrees

from loftwright.constants import MILE_PER_HOUR
from loftwright.physics.shaft_swing.bracket import SwingChange
from loftwright.physics.shaft_swing.players import QUICK_LATE, SMOOTH_EARLY

LATE, STEADY = QUICK_LATE, SMOOTH_EARLY
# Half of the last digit printed, and what gravity 9.81 moves at most.
PRINTED = 0.0055

# Mean (SD) over 96 players: delivered loft with torques held, with motion held; mph with torques.
PLAYERS = {
    LATE: {
        "b": ((0.01, 0.25), (0.10, 0.15), (-0.19, 0.09)),
        "u": ((-0.02, 0.26), (0.18, 0.09), (0.22, 0.10)),
        "l": ((-0.06, 0.09), (-0.13, 0.03), (-0.06, 0.03)),
        "t": ((-0.25, 0.06), (-0.28, 0.04), (-0.01, 0.01)),
        "a": ((0.06, 0.70), (0.65, 0.26), (0.59, 0.26)),
        "b'": ((0.13, 0.06), (0.26, 0.06), (0.02, 0.02)),
        "t'": ((-0.24, 0.05), (-0.27, 0.04), (0.00, 0.01)),
    },
    STEADY: {
        "b": ((0.06, 0.05), (-0.10, 0.10), (-0.24, 0.05)),
        "u": ((-0.06, 0.06), (0.29, 0.08), (0.25, 0.06)),
        "l": ((-0.03, 0.02), (-0.15, 0.03), (-0.07, 0.02)),
        "t": ((-0.22, 0.01), (-0.27, 0.02), (-0.02, 0.01)),
        "a": ((0.06, 0.16), (0.96, 0.17), (0.67, 0.17)),
        "b'": ((0.10, 0.01), (0.22, 0.03), (0.03, 0.01)),
        "t'": ((-0.22, 0.01), (-0.25, 0.02), (0.00, 0.00)),
    },
}
# SD of delivered loft over 200 swings [deg], and of head speed [m/s]; where only a range was
# printed, its middle.
_LATE_LOFTS = {"reference": 0.57, "b": 0.46, "u": 0.67, "l": 0.54, "t": 0.58, "a": 0.77}
_LATE_LOFTS |= {"b'": 0.57, "u'": 0.59, "l'": 0.57, "t'": 0.59}
_STEADY_LOFTS = dict.fromkeys(_LATE_LOFTS, 0.22) | {"reference": 0.21, "a": 0.24}
SCATTERS = {LATE: (_LATE_LOFTS, 0.26), STEADY: (_STEADY_LOFTS, 0.40)}
# Mean (SD) over 96 players of the bend at impact [deg] and of the kick [m/s].
BASES = {LATE: ((3.8, 3.3), (2.0, 5.3)), STEADY: ((3.5, 1.1), (0.4, 1.4))}


def three(change: SwingChange) -> list[float]:
    """Return head speed [mph], bend and delivered loft [deg]."""
    return [
        change.head_speed / MILE_PER_HOUR,
        degrees(change.bend_loft),
        degrees(change.delivered_loft),
    ]

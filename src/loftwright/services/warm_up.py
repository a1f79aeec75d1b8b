"""Load before the first ball what the first comparison would load while a golfer waits."""

from typing import Final

import numpy as np

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home
from loftwright.evidence.alarms import alarms
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import compare, decide
from loftwright.evidence.visit import Beliefs

_CLUBS: Final = 2
_BALLS_EACH: Final = 3


def warm_up() -> None:
    """Compare two invented clubs once: compiled loops and slow libraries are loaded by then."""
    count = _CLUBS * _BALLS_EACH
    spread = np.linspace(-1.0, 1.0, count)[:, None]
    launch = np.array(
        [
            150.0 * MILE_PER_HOUR,
            12.0 * DEGREE,
            2600.0 * REVOLUTION_PER_MINUTE,
            2.0 * DEGREE,
            0.5 * DEGREE,
        ]
    )
    delivery = np.array([100.0 * MILE_PER_HOUR, 0.5 * DEGREE, 0.5 * DEGREE, 0.5 * DEGREE])
    comparison = compare(
        Balls(
            clubs=tuple(str(club) for club in range(_CLUBS)),
            own=0,
            club=np.arange(count) % _CLUBS,
            row=np.arange(count),
            order=np.arange(count, dtype=np.float64),
            launch=launch * (1.0 + 0.01 * spread),
            delivery=delivery * (1.0 + 0.01 * spread),
            marks=0.005 * np.hstack([spread, -spread]),
            mark_set=np.full(count, -1),
            carry=np.full(count, np.nan),
        ),
        Home(),
        Beliefs(),
    )
    decide(comparison, Budget())
    alarms(comparison.visit.setup)

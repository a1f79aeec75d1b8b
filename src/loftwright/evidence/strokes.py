"""Expected strokes to hole out, from where a drive comes to rest.

References
----------
Broadie 2012, Assessing golfer performance on the PGA TOUR, Interfaces 42(2):146-165; table 9 of
its working paper of 8 April 2011, from more than eight million shots of 2003 to 2010. Read in
transcriptions that agree with one another, not in the original. The players are the elite: no
table of this resolution is published for amateurs.
"""

from functools import cache
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.domain.home import Lie

TABLE_ORIGIN: Final = "table of tour players' shots 2003 to 2010 (Broadie 2012)"

DISTANCES: Final = (
    40, 60, 80, 100, 120, 140, 160, 180, 200, 220, 240, 260, 280, 300, 320, 340, 360,
)  # fmt: skip
STROKES: Final = {
    Lie.FAIRWAY: (
        2.60, 2.70, 2.75, 2.80, 2.85, 2.91, 2.98, 3.08, 3.19, 3.32, 3.45, 3.58, 3.69, 3.78,
        3.84, 3.88, 3.95,
    ),
    Lie.ROUGH: (
        2.78, 2.91, 2.96, 3.02, 3.08, 3.15, 3.23, 3.31, 3.42, 3.53, 3.64, 3.74, 3.83, 3.90,
        3.95, 4.02, 4.11,
    ),
    Lie.SAND: (
        2.82, 3.15, 3.24, 3.23, 3.21, 3.22, 3.28, 3.40, 3.55, 3.70, 3.84, 3.93, 4.00, 4.04,
        4.12, 4.26, 4.41,
    ),
    Lie.RECOVERY: (
        3.71, 3.83, 3.84, 3.80, 3.78, 3.80, 3.81, 3.82, 3.87, 3.92, 3.97, 4.03, 4.10, 4.20,
        4.31, 4.44, 4.56,
    ),
}  # fmt: skip

STROKES_PER_METRE: Final = 0.0045 / YARD
"""What a length of value stands for: 0.0045 strokes a yard, the fairway's slope near 160 yd."""

_FINE_YARDS: Final = np.arange(40.0, 361.0)


@cache
def _fine_table(lie: Lie) -> FloatArray:
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415 - scipy is slow to import

    return np.asarray(PchipInterpolator(DISTANCES, STROKES[lie])(_FINE_YARDS))


def expected_strokes(distance: FloatArray, lie: Lie) -> FloatArray:
    """Return the strokes to hole out from a distance and a lie.

    Parameters
    ----------
    distance : FloatArray
        Left to the hole [m].
    lie : Lie

    Returns
    -------
    FloatArray
        Expected strokes, the next one counted.

    Notes
    -----
    A monotone cubic through the table's rows. Nearer than 40 yd it stays at the 40 yd row, so a
    drive on the green of a short hole is not valued beyond a short pitch; beyond 360 yd it goes
    on with the slope from 300 to 360 yd.
    """
    yards = np.asarray(distance, dtype=np.float64) / YARD
    table = _fine_table(lie)
    inside = np.interp(yards, _FINE_YARDS, table)
    slope = (table[-1] - table[-61]) / 60.0
    return inside + slope * np.maximum(yards - 360.0, 0.0)

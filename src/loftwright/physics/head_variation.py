"""How driver heads differ from each other in what a fitter cannot see."""

from dataclasses import replace
from functools import lru_cache
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import MILLIMETRE
from loftwright.physics.heads import Head

VARIATIONS: Final = ("depth", "height", "toe", "inertia", "bulge", "roll", "restitution")
"""What varies: the centre of gravity in three directions, the inertia, the face's radii, and its
restitution."""

_CG_SD: Final[FloatArray] = frozen_array(np.array([3.0, 2.0, 2.0]) * MILLIMETRE)
_INERTIA_SD: Final = 0.08
_RADIUS_SD: Final = 25.0 * MILLIMETRE
_RESTITUTION_SD: Final = 0.012


def varied_head(head: Head, by: FloatArray) -> Head:
    """Return a head that differs from another one.

    Parameters
    ----------
    head : Head
    by : FloatArray, shape (7,)
        How far, in standard deviations between heads, in the order of `VARIATIONS`.

    Returns
    -------
    Head

    Raises
    ------
    InputError
        If no head can be so.

    Notes
    -----
    The standard deviations are assumptions: centre of gravity 3 mm in depth, 2 mm in height and
    2 mm to the toe, inertia 8 %, radii 25 mm, restitution 0.012.
    """
    return replace(
        head,
        name=f"{head.name}, varied",
        cg=head.cg + _CG_SD * by[:3],
        inertia=head.inertia * (1.0 + _INERTIA_SD * by[3]),
        bulge=head.bulge + _RADIUS_SD * by[4],
        roll=head.roll + _RADIUS_SD * by[5],
        restitution=head.restitution + _RESTITUTION_SD * by[6],
    )


@lru_cache(maxsize=16)
def heads_around(head: Head) -> tuple[tuple[Head, Head], ...]:
    """Return two heads for each thing that varies: a standard deviation more of it, and less."""
    return tuple(
        (varied_head(head, one), varied_head(head, -one)) for one in np.eye(len(VARIATIONS))
    )

"""How far two clubs built to one sheet may differ, and what a golfer's own balls drown.

The tolerances of a build are carried through the impact at the golfer's own delivery, and what
two samples of one head differ in unseen goes with them. A difference of that size is explained by
the build. Half the spread of single balls on top of it is the size from which a difference is
worth a name: below it a ball tells which of two clubs it came from hardly better than a guess.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.tolerances import Tolerances
from loftwright.evidence.build_changes import SPEED_OF_LENGTH
from loftwright.evidence.compare import Comparison
from loftwright.evidence.flight_map import TOTAL
from loftwright.evidence.scales import DISTANCE, LAUNCH_NAMES, LAUNCH_SCALE, PART_UNIT
from loftwright.evidence.visit import Setup
from loftwright.physics.impact import strike_many

NUMBERS: Final = (*LAUNCH_NAMES, "total")
"""What two clubs are compared in: the five launch numbers and the total at home."""

SAMPLE_SHARE: Final = 1.0 / 3.0
"""Two heads of one model differ unseen by this share of what two models do (judgement)."""
SAMPLE_SPREADS: Final = 2.0
"""Standard deviations of that within which a difference is explained by the samples."""
BALL_SHARE: Final = 0.5
"""Share of the spread of single balls that is no difference to a golfer (judgement): whoever
guesses from one ball which of two clubs so far apart it came from is right 60 times in 100."""

_INERTIA_POWER: Final = 0.26
_CLUB_INERTIA: Final = 2850.0 * KILOGRAM_SQUARE_CENTIMETRE
"""Of a usual driver about the top of its grip."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BuildLimits:
    """Limits of a difference between two clubs, in the order of `NUMBERS`, SI.

    Attributes
    ----------
    explained : FloatArray, shape (6,)
        What the tolerances of a build and two samples of one head explain; not a number for what
        the device does not give.
    margin : FloatArray, shape (6,)
        From which a difference is worth a name.
    """

    explained: FloatArray
    margin: FloatArray

    def __post_init__(self) -> None:
        for name in ("explained", "margin"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))


def build_limits(comparison: Comparison, tolerances: Tolerances) -> BuildLimits:
    """Return how far two clubs of one sheet may differ with this golfer.

    Parameters
    ----------
    comparison : Comparison
        Of the golfer's balls; its slopes stand at the golfer's own mean delivery.
    tolerances : Tolerances
        The shop's.

    Returns
    -------
    BuildLimits

    Notes
    -----
    Tolerances add as they stand, every one at its end: loft, lie, face, length, inertia and the
    mass of the head. Samples add as standard deviations do, `SAMPLE_SPREADS` of them.

    References
    ----------
    Cross and Bower 2006, Effects of swing-weight on swing speed and racket power, J. Sports Sci.
    24(1):23-30 (abstract): swing speed goes with inertia to the power of -0.27; earlier measured
    with golf clubs, -0.26.
    """
    setup = comparison.visit.setup
    at_end = tolerance_effects(setup, tolerances)
    samples = np.sqrt(2.0) * SAMPLE_SHARE * LAUNCH_SCALE * setup.slopes.heads.T
    way = comparison.total_gradient
    explained = np.append(np.abs(at_end).sum(axis=0), np.abs(at_end @ way).sum())
    explained += SAMPLE_SPREADS * np.append(
        np.sqrt((samples**2).sum(axis=0)), np.sqrt(((samples @ way) ** 2).sum())
    )
    single = np.append(np.sqrt(np.diag(comparison.visit.scatter)), comparison.swung.spread[TOTAL])
    given = np.full(len(NUMBERS), np.nan)
    given[list(setup.columns.responses)] = 1.0
    given[-1] = 1.0 if set(setup.columns.responses) >= DISTANCE else np.nan
    return BuildLimits(
        explained=given * explained, margin=given * (explained + BALL_SHARE * single)
    )


def tolerance_effects(setup: Setup, tolerances: Tolerances) -> FloatArray:
    """Return what each tolerance, at its end, does to the five launch numbers, SI.

    Parameters
    ----------
    setup : Setup
    tolerances : Tolerances

    Returns
    -------
    FloatArray, shape (6, 5)
        Loft, face, lie, length, inertia and head mass.

    Notes
    -----
    To first order a head whose lie is off by an angle faces off by the angle times the tangent
    of the loft.
    """
    slopes = setup.slopes
    speed, loft = slopes.delivery[0], slopes.delivery[4]
    parts = np.zeros((5, 5))
    parts[0, 4] = tolerances.loft
    parts[1, 3] = tolerances.face
    parts[2, 3] = tolerances.lie * np.tan(loft)
    parts[3, 0] = SPEED_OF_LENGTH * tolerances.length * speed
    parts[4, 0] = _INERTIA_POWER * tolerances.inertia / _CLUB_INERTIA * speed
    effects = (parts / PART_UNIT) @ slopes.parts.T * LAUNCH_SCALE
    row = np.append(slopes.delivery, [0.0, 0.0])[None]
    heavier = replace(setup.head, mass=setup.head.mass + tolerances.part_mass)
    mass = strike_many(heavier, row)[0] - strike_many(setup.head, row)[0]
    return np.vstack([effects, mass])

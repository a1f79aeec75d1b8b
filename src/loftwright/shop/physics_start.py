"""What physics says of a fitting before a shop has learned anything, in units of the sums."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.domain.fitting import MARK_ERROR
from loftwright.evidence.priors import (
    UNLEARNED_DOUBT,
    effect_covariance,
    launch_prior,
)
from loftwright.evidence.scales import STRIKE_UNIT
from loftwright.evidence.slopes import slopes_at
from loftwright.evidence.spreads import DELIVERY_ERROR, Spreads
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.shop.columns import SWING_FEATURES, SWING_RESPONSES
from loftwright.shop.physics import COLUMNS
from loftwright.shop.population import Population

USUAL_DELIVERY: Final[FloatArray] = frozen_array(
    [101.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 13.0 * DEGREE]
)
"""At which physics says what slopes are where there is no golfer yet."""

SWING_ERROR: Final[FloatArray] = frozen_array(
    [*(DELIVERY_ERROR[name] for name in COLUMNS.delivery), *2 * (MARK_ERROR / STRIKE_UNIT,)]
)
"""Errors of one reading of delivery and mark [mph, deg, 10 mm]."""

_GOLFERS: Final = (10.0, 5.0, 5.0, 5.0, 1.0, 1.0)
"""How golfers' mean swings differ [mph, deg, 10 mm], wide on purpose."""
_WARM_UP: Final = (1.5, 0.5, 0.5, 0.5, 0.25, 0.25)
_DRIFT: Final = (0.5, 0.5, 0.5, 0.5, 0.25, 0.25)


def physics_population(delivery: FloatArray, head: Head = REFERENCE_HEAD) -> Population:
    """Return the population that physics believes in, delivery counted from fixed origins.

    Parameters
    ----------
    delivery : FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, dynamic loft [rad] at which slopes are taken: the
        mean of the shop's golfers.
    head : Head

    Returns
    -------
    Population
    """
    slopes, spreads = slopes_at(delivery, head), Spreads(factor=1.0)
    clubs = UNLEARNED_DOUBT * effect_covariance(slopes, COLUMNS, spreads)
    prior = launch_prior(
        slopes, spreads, COLUMNS, np.asarray(np.linalg.inv(clubs))[None], np.zeros((len(clubs), 1))
    )
    variances = prior.coefficient_sd**2
    return Population(
        slopes=frozen_array(prior.coefficients.T),
        spread=frozen_array(np.array([np.diag(one) for one in variances])),
        clubs=frozen_array(clubs),
        left=frozen_array(prior.residual),
    )


def nothing_beyond(delivery: FloatArray, head: Head = REFERENCE_HEAD) -> Population:
    """Return the population of what physics leaves out before anything was learned: nothing.

    Parameters
    ----------
    delivery : FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, dynamic loft [rad].
    head : Head
    """
    whole = physics_population(delivery, head)
    return Population(
        slopes=frozen_array(np.zeros_like(whole.slopes)),
        spread=whole.spread,
        clubs=whole.clubs,
        left=whole.left,
    )


def swing_population() -> Population:
    """Return what is believed of swings before anything was learned.

    Notes
    -----
    Clubs are believed twice as variable as judged. What is left is the plain variance of a mid
    golfer's swings and of the readings: robust weights tell odd launches, not odd swings.
    """
    spreads = Spreads(factor=1.0)
    functionals = COLUMNS.functionals
    clubs, left = np.zeros((6, 6)), np.diag(SWING_ERROR**2)
    clubs[:4, :4] = (functionals * spreads.table.club_parts**2) @ functionals.T
    clubs[4:, 4:] = np.diag((spreads.table.club_strike / STRIKE_UNIT) ** 2)
    left[:4, :4] += functionals @ spreads.parts @ functionals.T
    left[4:, 4:] += np.diag((spreads.strike / STRIKE_UNIT) ** 2)
    sd = np.array([_GOLFERS, _WARM_UP, _DRIFT])
    return Population(
        slopes=frozen_array(np.zeros((len(SWING_FEATURES), len(SWING_RESPONSES)))),
        spread=frozen_array(np.array([np.diag(one**2) for one in sd.T])),
        clubs=frozen_array(UNLEARNED_DOUBT * clubs),
        left=frozen_array(left),
    )

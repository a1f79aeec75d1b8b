"""What physics says of a fitting before a shop has learned anything, in units of the sums."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.columns import Columns
from loftwright.evidence.priors import UNLEARNED_DOUBT, effect_covariance, launch_prior
from loftwright.evidence.slopes import slopes_at
from loftwright.evidence.spreads import Spreads
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.shop.population import Population

COLUMNS: Final = Columns(
    responses=(0, 1, 2, 3, 4),
    delivery=("head_speed", "attack", "face_to_path", "face"),
    marks=True,
)
"""Of a fitting whose balls are in the sums: everything measured, every ball of them marked."""


def physics_population(delivery: FloatArray, head: Head = REFERENCE_HEAD) -> Population:
    """Return the population that physics believes in.

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

"""What would be believed without some fittings, or with them at less weight: no refit.

References
----------
Sherman & Morrison 1950, Adjustment of an inverse matrix corresponding to a change in one element
of a given matrix, Annals of Mathematical Statistics 21:124, in its form for blocks.
Cook 1977, Detection of influential observation in linear regression, Technometrics 19:15.
"""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.shop.told import Told


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Without:
    """What is believed of the members that some fittings hit, those fittings left out.

    Attributes
    ----------
    means : FloatArray, shape (k R,)
    covariance : FloatArray, shape (k R, k R)
    told : Told
        What the fittings tell at full weight.
    """

    means: FloatArray
    covariance: FloatArray
    told: Told

    def at(self, weight: float) -> tuple[FloatArray, FloatArray]:
        """Return by how much the fittings move the means at a weight, and what doubt is left."""
        eye = np.eye(len(self.means))
        information = weight * self.told.information
        left = np.linalg.solve(eye + self.covariance @ information, self.covariance)
        pull = self.told.pull - self.told.information @ self.means
        return np.asarray(left @ (weight * pull)), np.asarray(0.5 * (left + left.T))


def without(means: FloatArray, covariance: FloatArray, gone: Told, whole: Told) -> Without:
    """Return what is believed of members without fittings that told something of them.

    Parameters
    ----------
    means : FloatArray, shape (k R,)
        Of the members that the fittings hit.
    covariance : FloatArray, shape (k R, k R)
    gone : Told
        What of the fittings is in them.
    whole : Told
        What the fittings tell at full weight, of the same members.

    Notes
    -----
    Members that the fittings did not hit follow from those that they did, and how much things
    differ is left as it was learned.
    """
    eye = np.eye(len(means))
    back = eye - gone.information @ covariance
    left = covariance @ np.linalg.inv(back)
    change = left @ (gone.information @ means - gone.pull)
    return Without(
        means=np.asarray(means + change), covariance=np.asarray(0.5 * (left + left.T)), told=whole
    )

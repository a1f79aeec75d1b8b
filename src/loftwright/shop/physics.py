"""What physics says of one fitting at its golfer's own mean delivery, in units of the sums."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array, frozen_index
from loftwright.evidence.balls import Balls
from loftwright.evidence.columns import Columns
from loftwright.evidence.priors import regress_delivery
from loftwright.evidence.slopes import NOMINAL_LOFT, Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import Spreads
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.shop.columns import FEATURES, RESPONSES

COLUMNS: Final = Columns(
    responses=(0, 1, 2, 3, 4),
    delivery=("head_speed", "attack", "face_to_path", "face"),
    marks=True,
)
"""Of a fitting whose balls are in the sums: everything measured, every ball of them marked."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Physics:
    """What physics says of one fitting.

    Attributes
    ----------
    at : Slopes
        At the golfer's own mean delivery.
    slopes : FloatArray, shape (P, R)
        Of launch on the features, delivery counted from the golfer's own mean.
    """

    at: Slopes
    slopes: FloatArray

    def launch_of(self, shift: FloatArray) -> FloatArray:
        """Return what a shift of the delivery does to launch from the same swing, shape (R,).

        Parameters
        ----------
        shift : FloatArray, shape (5,)
            Of head speed [mph], attack, path, face, dynamic loft [deg]. What is measured is a
            feature, so only the loft's share is an effect from the same swing.
        """
        return np.asarray(self.at.parts @ (shift * np.array(COLUMNS.unmeasured, dtype=float)))

    def swing_of(self, shift: FloatArray) -> FloatArray:
        """Return what it does to the measured swing, shape (6,).

        Parameters
        ----------
        shift : FloatArray, shape (5,)
        """
        return np.concatenate([COLUMNS.functionals @ shift, np.zeros(2)])


def physics_at(delivery: FloatArray, head: Head = REFERENCE_HEAD) -> Physics:
    """Return what physics says at a delivery.

    Parameters
    ----------
    delivery : FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, dynamic loft [rad].
    head : Head
    """
    at = slopes_at(delivery, head)
    regression = regress_delivery(at, Spreads(factor=1.0), COLUMNS)
    slopes = np.zeros((len(FEATURES), len(RESPONSES)))
    origins = np.array([one.origin for one in RESPONSES])
    slopes[0] = (at.origin - origins) / [one.unit for one in RESPONSES]
    slopes[1:5] = np.hstack([at.strike, at.curvature]).T
    slopes[5:9] = regression.coefficients.T
    return Physics(at=at, slopes=frozen_array(slopes))


def golfers_delivery(read: FloatArray, head: Head = REFERENCE_HEAD) -> FloatArray:
    """Return a golfer's mean delivery with the dynamic loft that the mean launch asks for.

    Parameters
    ----------
    read : FloatArray, shape (5,)
        Head speed [m/s], attack, path, face, launch [rad]; means over the golfer's balls.
    head : Head
    """
    nothing = np.full(1, np.nan)
    mean = Balls(
        clubs=("mean",),
        own=None,
        club=frozen_index([0]),
        row=frozen_index([0]),
        order=frozen_array([0.0]),
        launch=np.array([[np.nan, read[4], np.nan, np.nan, np.nan]]),
        delivery=read[None, :4],
        marks=np.full((1, 2), np.nan),
        mark_set=frozen_index([-1]),
        carry=nothing,
    )
    return operating_delivery(mean, head)


def at_usual_loft(delivery: FloatArray) -> FloatArray:
    """Return a delivery with the loft of a golfer of whom no launch was read.

    Parameters
    ----------
    delivery : FloatArray, shape (5,)
    """
    return np.array([*delivery[:4], NOMINAL_LOFT])

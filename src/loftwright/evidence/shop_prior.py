"""What a shop's record says before the first ball, in the columns that a fitting measured.

The record is learned from balls of which everything was measured. Where a fitting measured less,
what a club is known to do to a swing has to reach launch by the slopes instead of by a column:

    u = u_all + (B_all - B A) z

with u_all what the club does from the same swing, z what it does to the swing, B_all the
coefficients of all columns, B those of the columns that there are and A how these follow z. The
doubts of u_all and of z are kept apart in the record, so that what a dynamic loft follows of the
attack is counted in that of u_all alone, and the doubt of z goes through the parts that no column
shows, each by itself.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import InputError
from loftwright.evidence.clubs import ClubTraits, build_shares, effect_means, swing_means
from loftwright.evidence.columns import Columns
from loftwright.evidence.priors import (
    STRIKE_SWING_SCALE,
    club_ways,
    delivery_gain,
    regress_delivery,
)
from loftwright.evidence.scales import STRIKE_UNIT
from loftwright.evidence.shop_beliefs import SWING_EFFECTS, KnownClubs, ShopBeliefs
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.spreads import Spreads

_ALL: Final = Columns(
    responses=(0, 1, 2, 3, 4),
    delivery=("head_speed", "attack", "face_to_path", "face"),
    marks=True,
)
_BALL: Final = Columns(responses=(0, 1, 2, 3, 4), delivery=(), marks=False)
_TO_PARTS: Final = np.vstack([np.linalg.inv(_ALL.functionals[:, :4]), np.zeros((1, 4))])
"""Head speed, attack, path, face and loft per head speed, attack, face to path and face."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShopPrior:
    """What is believed of a fitting's clubs by its shop's record.

    Attributes
    ----------
    effects : FloatArray, shape (R, S)
        On the launch numbers that there are, beyond what columns show; scaled units.
    covariance : FloatArray, shape (R S, R S)
        The club runs fastest, as in all of them.
    swing : FloatArray, shape (Z, S)
        On the columns, in the swing model's units.
    swing_covariance : FloatArray, shape (Z S, Z S)
    swung : FloatArray, shape (5 S, 5 S)
        Covariance of what clubs do to launch as they are swung, before a ball.
    """

    effects: FloatArray
    covariance: FloatArray
    swing: FloatArray
    swing_covariance: FloatArray
    swung: FloatArray

    @property
    def between(self) -> FloatArray:
        """How single clubs are believed to differ from what is expected, shape (R, R)."""
        return _of_one(self.covariance, self.effects.shape[1])

    @property
    def swing_between(self) -> FloatArray:
        """The same of the swing, shape (Z, Z)."""
        return _of_one(self.swing_covariance, self.swing.shape[1])


def corrected(slopes: Slopes, shop: ShopBeliefs) -> Slopes:
    """Return slopes with what the shop's golfers show more than physics says.

    Parameters
    ----------
    slopes : Slopes
        Of physics, at the golfer's own delivery.
    shop : ShopBeliefs

    Notes
    -----
    The record regresses on face to path and face, whose slopes are minus that of the path and the
    sum of both.
    """
    parts = slopes.parts.copy()
    parts[:, :4] += shop.slopes[:, 4:] @ _ALL.functionals[:, :4]
    return replace(
        slopes,
        parts=parts,
        strike=slopes.strike + shop.slopes[:, :2],
        curvature=slopes.curvature + shop.slopes[:, 2:4],
    )


def slope_doubts(shop: ShopBeliefs, spreads: Spreads, columns: Columns) -> FloatArray:
    """Return how golfers differ in the slopes of a fitting's own columns.

    Parameters
    ----------
    shop : ShopBeliefs
    spreads : Spreads
    columns : Columns

    Returns
    -------
    FloatArray, shape (5, k)
        Strike where there are marks, then the delivery columns; a column that another part
        follows takes its share of the doubt of that one's slope.
    """
    follows = _ALL.functionals[:, :4] @ delivery_gain(spreads, columns)[:4]
    delivery = np.sqrt(shop.slope_sd[:, 4:] ** 2 @ follows**2)
    strike = shop.slope_sd[:, : 4 * columns.marks]
    return np.hstack([strike, delivery])


def shop_prior(
    shop: ShopBeliefs,
    slopes: Slopes,
    spreads: Spreads,
    columns: Columns,
    clubs: int,
    traits: tuple[ClubTraits, ...] = (),
) -> ShopPrior:
    """Return what is believed of clubs with their known effects.

    Parameters
    ----------
    shop : ShopBeliefs
    slopes : Slopes
        From `corrected`.
    spreads : Spreads
        With the shop's table.
    columns : Columns
    clubs : int
    traits : tuple of ClubTraits
        One a club, for what physics expects of it, or empty; the record is beyond that.

    Returns
    -------
    ShopPrior

    Raises
    ------
    InputError
        If the record's clubs are not as many as the fitting's.
    """
    known, kept = shop.clubs, list(columns.responses)
    if known.launch.shape[1] != clubs:
        raise InputError(
            f"the shop knows {known.launch.shape[1]} clubs of this fitting, which has {clubs}",
            place="shop.clubs",
            mend="Give one a club that was hit, in the order of the balls' clubs.",
        )
    expected = known.launch + _mean_ways(slopes, spreads, columns) @ known.swing
    everything = _covariance(known, slopes, spreads, columns)
    ways = _swing_ways(columns)
    swing = ways @ known.swing
    swing[: len(columns.delivery)] += swing_means(columns, clubs, traits)
    swing_covariance = through(ways, known.swing_covariance)
    if known.own is not None and known.swing_own is not None and traits:
        together = build_shares(traits)
        own = _covariance(_one_alone(known, known.own, known.swing_own), slopes, spreads, columns)
        everything = everything + np.kron(own, together)
        swing_covariance = swing_covariance + np.kron(through(ways, known.swing_own), together)
    index = np.arange(5 * clubs).reshape(5, clubs)[kept].ravel()
    return ShopPrior(
        effects=effect_means(slopes, columns, clubs, traits) + expected[kept],
        covariance=everything[np.ix_(index, index)],
        swing=swing,
        swing_covariance=swing_covariance,
        swung=_covariance(known, slopes, spreads, _BALL),
    )


def _one_alone(known: KnownClubs, own: FloatArray, swing_own: FloatArray) -> KnownClubs:
    """Return a club of which only what is its own is in doubt."""
    return replace(
        known,
        launch=known.launch[:, :1],
        launch_covariance=own,
        swing=known.swing[:, :1],
        swing_covariance=swing_own,
    )


def _mean_ways(slopes: Slopes, spreads: Spreads, columns: Columns) -> FloatArray:
    """Return launch per known effect on the swing beyond what columns show of it, shape (5, 6)."""
    ways = np.zeros((5, len(SWING_EFFECTS)))
    shown = columns.functionals @ _TO_PARTS
    ways[:, :4] = (
        regress_delivery(slopes, spreads, _ALL).coefficients
        - regress_delivery(slopes, spreads, columns).coefficients @ shown
    )
    if not columns.marks:
        # Nobody knows on which side the golfer strikes, so that the bend changes no mean.
        ways[:, 4:] = slopes.strike
    return ways


def _covariance(
    known: KnownClubs, slopes: Slopes, spreads: Spreads, columns: Columns
) -> FloatArray:
    """Return the doubt of effects beyond what columns show, shape (5 S, 5 S)."""
    ways, _ = club_ways(slopes, columns, spreads)
    hidden = np.zeros((5, len(SWING_EFFECTS)))
    hidden[:, :4] = (ways[:, :5] * columns.unmeasured) @ _TO_PARTS
    bend = np.zeros_like(hidden)
    if not columns.marks:
        hidden[:, 4:], bend[:, 4:] = ways[:, 5:7], ways[:, 7:]
    return (
        known.launch_covariance
        + through(hidden, known.swing_covariance)
        + through(bend, known.swing_covariance)
    )


def _swing_ways(columns: Columns) -> FloatArray:
    """Return the swing model's columns per known effect on the swing, shape (Z, 6)."""
    count = len(columns.delivery)
    ways = np.zeros((count + 2 * columns.marks, len(SWING_EFFECTS)))
    ways[:count, :4] = columns.functionals @ _TO_PARTS
    if columns.marks:
        ways[count:, 4:] = np.eye(2) * (STRIKE_UNIT / STRIKE_SWING_SCALE)
    return ways


def _of_one(covariance: FloatArray, clubs: int) -> FloatArray:
    """Return the mean covariance of a club by itself."""
    size = len(covariance) // clubs
    tensor = covariance.reshape(size, clubs, size, clubs)
    return np.asarray(np.einsum("rsqs->rq", tensor) / clubs)


def through(ways: FloatArray, covariance: FloatArray) -> FloatArray:
    """Return a covariance of clubs' effects through ways that are the same for every club.

    Parameters
    ----------
    ways : FloatArray, shape (n, k)
    covariance : FloatArray, shape (k S, k S)
        The club runs fastest, here and in what is returned.

    Returns
    -------
    FloatArray, shape (n S, n S)
    """
    causes = ways.shape[1]
    clubs = len(covariance) // causes
    tensor = covariance.reshape(causes, clubs, causes, clubs)
    moved = np.einsum("zc,csdt,yd->zsyt", ways, tensor, ways)
    size = len(ways) * clubs
    return np.asarray(moved.reshape(size, size))

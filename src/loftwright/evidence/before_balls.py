"""The priors of both models before the first ball: by physics, or by what the shop has learned."""

from dataclasses import dataclass, replace

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.clubs import ClubTraits, effect_means, effect_precisions, head_covariance
from loftwright.evidence.columns import Columns
from loftwright.evidence.model import Prior
from loftwright.evidence.priors import launch_prior, swing_prior
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.shop_prior import ShopPrior, shop_prior, slope_doubts
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.spreads import Spreads


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeforeBalls:
    """What both models start from.

    Attributes
    ----------
    launch : Prior
    swing : Prior, optional
        None where neither delivery nor marks were measured.
    shop : ShopPrior, optional
        What the shop's record says of the clubs.
    """

    launch: Prior
    swing: Prior | None
    shop: ShopPrior | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OfClubs:
    """What is known of the clubs of a fitting.

    Attributes
    ----------
    count : int
    traits : tuple of ClubTraits
        One a club, or empty.
    between : FloatArray, shape (5, 5)
        How clubs that nobody knows differ from the same swing, scaled units.
    doubt : float
        Factor on the variance of what clubs do to a swing.
    shop : ShopBeliefs, optional
        Takes the place of `between` and `doubt`.
    """

    count: int
    traits: tuple[ClubTraits, ...]
    between: FloatArray
    doubt: float
    shop: ShopBeliefs | None


def before_balls(
    known: OfClubs, slopes: Slopes, spreads: Spreads, columns: Columns, mark_error: float
) -> BeforeBalls:
    """Return the priors of launch and swing.

    Parameters
    ----------
    known : OfClubs
    slopes : Slopes
        Corrected by the shop's record where there is one.
    spreads : Spreads
    columns : Columns
    mark_error : float
        Of most marks [m].
    """
    two_stage = bool(columns.delivery) or columns.marks
    swing = (
        swing_prior(spreads, columns, known.count, known.doubt, mark_error) if two_stage else None
    )
    if known.shop is None:
        precisions = effect_precisions(
            known.between, head_covariance(slopes), columns, known.count, known.traits
        )
        means = effect_means(slopes, columns, known.count, known.traits)
        launch = launch_prior(slopes, spreads, columns, precisions, means, mark_error)
        return BeforeBalls(launch=launch, swing=swing, shop=None)
    shop = shop_prior(known.shop, slopes, spreads, columns, known.count, known.traits)
    launch = launch_prior(
        slopes,
        spreads,
        columns,
        np.asarray(np.linalg.inv(shop.covariance))[None],
        shop.effects,
        mark_error,
        slope_doubts(known.shop, spreads, columns),
    )
    if swing is not None:
        swing = replace(
            swing,
            effects=shop.swing,
            effect_precisions=np.asarray(np.linalg.inv(shop.swing_covariance))[None],
        )
    return BeforeBalls(launch=launch, swing=swing, shop=shop)

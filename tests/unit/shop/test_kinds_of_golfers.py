"""A model may do something else for fast golfers than for slow ones, where that can be told."""

import numpy as np
import pytest

from level_samples import BELIEF, R, does, shop_of, usual_shop
from loftwright.shop.levels import LEVELS, Belongs, Effects, known_effects, model_and_kind

SPEED = LEVELS.index("speed")


def typed(
    seed: int, fittings: int, sd: float
) -> tuple[Effects, dict[tuple[str, str], np.ndarray]]:
    """Return what a shop learns whose models do otherwise for slow and fast golfers."""
    visits, truth = usual_shop(seed, fittings)
    rng = np.random.default_rng(seed + 1)
    kinds = ["slow" if one % 2 else "fast" for one in range(fittings)]
    told = [
        [Belongs(**{**parts_of(one), "speed": kind}) for one in clubs]
        for clubs, kind in zip(visits, kinds, strict=True)
    ]
    every = sorted({one for clubs in told for club in clubs for one in club.members})
    truth = {**truth, **{one: sd * rng.standard_normal(R) for one in every if one[0] == "speed"}}
    grams, belongs = shop_of(seed, told, truth)
    return known_effects(grams, BELIEF, belongs), truth


def parts_of(belongs: Belongs) -> dict[str, str]:
    """Return what a club's shaft and head are."""
    return {
        "head": belongs.head,
        "family": belongs.family,
        "model": belongs.model,
        "piece": belongs.piece,
    }


def test_a_model_that_suits_one_kind_is_found_within_its_stated_doubt() -> None:
    inside, gained = [], []
    for seed in range(12):
        found, truth = typed(seed, 60, 0.3)
        shafts = [
            Belongs(head="H", family=f"F{one % 3}", model=f"M{one}", piece=f"P{one}", speed=kind)
            for one in range(8)
            for kind in ("fast", "slow")
        ]
        means, doubt = found.joint(shafts)
        for fast, slow in ((2 * one, 2 * one + 1) for one in range(8)):
            # Against another model, since a level that all share is the golfers' own.
            other_fast, other_slow = (fast + 2) % 16, (slow + 2) % 16
            ways = np.zeros(16)
            ways[[fast, slow, other_fast, other_slow]] = 1.0, -1.0, -1.0, 1.0
            true = ways @ np.array([does(shaft, truth) for shaft in shafts])
            missed = ways @ means - true
            sd = np.sqrt(np.diag(np.einsum("s,srtq,t->rq", ways, doubt, ways)))
            inside.append(np.abs(missed) < 1.2816 * sd)
            gained.append([np.abs(missed).mean(), np.abs(true).mean()])
    assert 0.73 < np.mean(inside) < 0.87
    missed, size = np.mean(gained, axis=0)
    assert missed < 0.7 * size


def test_kinds_that_do_not_matter_are_learned_to_matter_little() -> None:
    found, _ = typed(40, 80, 0.0)
    assert (found.variances[SPEED] < 0.1**2).all()


def test_a_kind_is_not_asked_where_it_cannot_be_told_from_the_model() -> None:
    visits, truth = usual_shop(4, 30)
    told = [[Belongs(**parts_of(one), speed="fast") for one in clubs] for clubs in visits]
    grams, belongs = shop_of(4, told, truth)
    found = known_effects(grams, BELIEF, belongs)
    assert not [one for one in found.members if one[0] == "speed"]
    assert (found.variances[SPEED] == 0.0).all()
    slow = Belongs(**parts_of(visits[0][0]), speed="slow")
    assert found.of(slow)[1] == pytest.approx(found.of(visits[0][0])[1])


def test_a_golfer_of_an_unknown_kind_is_doubted_once_for_each_model() -> None:
    found, _ = typed(5, 60, 0.3)
    one = Belongs(head="H", family="F1", model="M1", piece="P1")
    twin = Belongs(head="H", family="F1", model="M1", piece="P-other")
    _, doubt = found.joint([one, twin])
    apart = doubt[0, :, 0, :] + doubt[1, :, 1, :] - doubt[0, :, 1, :] - doubt[1, :, 0, :]
    piece = found.members.index(("piece", "P1"))
    own = np.diag(found.covariance[piece, :, piece, :]) + found.variances[LEVELS.index("piece")]
    assert np.diag(apart) == pytest.approx(own)
    fast = Belongs(**parts_of(one), speed="fast")
    assert (np.diag(found.of(one)[1]) > np.diag(found.of(fast)[1])).all()


def test_the_name_of_a_kind_tells_model_and_kind() -> None:
    told = Belongs(model="Ash | 60", ability="mid")
    assert model_and_kind(told.name("ability")) == ("Ash | 60", "mid")
    assert Belongs(ability="mid").name("ability") == ""


def test_of_all_golfers_together_no_kind_is_doubted() -> None:
    found, _ = typed(5, 60, 0.3)
    fast = Belongs(head="H", family="F1", model="M1", piece="P1", speed="fast")
    everyone, doubt = found.joint([fast], everyone=True)
    chosen = np.array([one in fast.members[:4] for one in found.members], dtype=float)
    assert everyone[0] == pytest.approx(chosen @ found.means)
    own = np.einsum("m,mrns,n->rs", chosen, found.covariance, chosen)
    assert doubt[0, :, 0, :] == pytest.approx(own)

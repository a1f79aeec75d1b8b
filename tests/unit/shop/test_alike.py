"""What was never hit is expected to do as much of what its like did as it is like it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from level_samples import BELIEF, does, shop_of, usual_shop
from loftwright.shop.alike import MOST_ALIKE, correlation_of, likeness_at
from loftwright.shop.levels import LEVELS, Belongs, Member, Source, known_effects

OLD, NEW = ("generation", "Linnet 1"), ("generation", "Linnet 2")
NAMES = {"F0": "Linnet", "F1": "Wren", "F2": "Crake"}
GENERATION = LEVELS.index("generation")


def lines(seed: int) -> tuple[list[list[Belongs]], dict[Member, np.ndarray]]:
    """Return a shop whose families have two generations each, nought and one."""
    visits, truth = usual_shop(seed, 40)
    rng = np.random.default_rng(seed)
    told = [
        [
            Belongs(
                head=one.head,
                family=one.family,
                generation=f"{NAMES[one.family]} {int(one.model[1:]) % 2}",
                model=one.model,
                piece=one.piece,
            )
            for one in clubs
        ]
        for clubs in visits
    ]
    names = sorted({one.generation for clubs in told for one in clubs})
    return told, {**truth, **{("generation", one): rng.standard_normal(2) for one in names}}


def test_a_new_generation_does_its_likeness_times_what_the_old_one_does() -> None:
    visits, truth = lines(1)
    grams, belongs = shop_of(1, visits, truth)
    plain = known_effects(grams, BELIEF, belongs)
    found = known_effects(grams, BELIEF, belongs, alike={(OLD, NEW): 0.8})
    old, new = found.members.index(OLD), found.members.index(NEW)
    assert found.means[new] == pytest.approx(0.8 * found.means[old])
    assert found.means[old] == pytest.approx(plain.means[plain.members.index(OLD)])
    own = np.diag(found.covariance[new, :, new, :])
    spread = found.variances[GENERATION]
    rest = (1.0 - 0.8**2) * spread + 0.8**2 * np.diag(found.covariance[old, :, old, :])
    assert own == pytest.approx(rest)
    assert (own < spread).all()
    assert found.source(NEW) == Source(fittings=0, like="Linnet 1", likeness=0.8)
    assert found.source(OLD).like == ""


def test_a_club_of_the_new_generation_is_expected_to_do_as_its_forebear() -> None:
    visits, truth = lines(2)
    grams, belongs = shop_of(2, visits, truth)
    found = known_effects(grams, BELIEF, belongs, alike={(OLD, NEW): 0.9})
    new = Belongs(head="H", family="F0", generation="Linnet 2", model="M-new", piece="P-new")
    family, old = found.members.index(("family", "F0")), found.members.index(OLD)
    head = found.members.index(("head", "H"))
    expected = found.means[family] + found.means[head] + 0.9 * found.means[old]
    assert found.of(new)[0] == pytest.approx(expected)
    assert found.seen(new) == ("family", "F0", found.fittings["family", "F0"])


def test_what_is_carried_over_is_nearer_and_within_its_stated_doubt() -> None:
    away: dict[float, list[float]] = {0.0: [], 0.9: []}
    inside: dict[float, list[bool]] = {0.0: [], 0.9: []}
    for seed in range(30):
        visits, truth = lines(seed)
        rng = np.random.default_rng(100 + seed)
        new = Belongs(head="H", family="F0", generation="Linnet 2", model="Mn", piece="Pn")
        truth[NEW] = 0.9 * truth[OLD] + np.sqrt(1.0 - 0.9**2) * rng.standard_normal(2)
        truth["model", "Mn"] = 0.3 * rng.standard_normal(2)
        truth["piece", "Pn"] = 0.1 * rng.standard_normal(2)
        grams, belongs = shop_of(seed, visits, truth)
        other = next(one for one in visits[0] if one.family != "F0")
        for likeness in away:
            found = known_effects(grams, BELIEF, belongs, alike={(OLD, NEW): likeness})
            means, doubt = found.joint([new, other])
            miss = means[0] - means[1] - (does(new, truth) - does(other, truth))
            ways = np.array([1.0, -1.0])
            sd = np.sqrt(np.diag(np.einsum("s,srtq,t->rq", ways, doubt, ways)))
            away[likeness] += np.abs(miss).tolist()
            inside[likeness] += (np.abs(miss) < 1.2816 * sd).tolist()
    nearer = np.array(away[0.0]) - np.array(away[0.9])
    assert nearer.mean() > 2.0 * nearer.std(ddof=1) / np.sqrt(len(nearer))
    assert 0.68 < np.mean(inside[0.9]) < 0.92


def test_nothing_is_carried_over_from_what_was_not_hit_either() -> None:
    visits, truth = lines(3)
    grams, belongs = shop_of(3, visits, truth)
    found = known_effects(grams, BELIEF, belongs, alike={(("generation", "Wren 7"), NEW): 0.9})
    assert NEW not in found.members
    assert found.like == {}


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0), st.floats(0.0, 0.2))
def test_what_is_further_apart_is_less_alike(one: float, other: float, noise: float) -> None:
    near, far = sorted((one, other))
    assert 0.0 <= likeness_at(far, noise) <= likeness_at(near, noise) <= MOST_ALIKE
    assert likeness_at(near, noise) >= likeness_at(near)


@given(st.lists(st.floats(0.0, 1.0), min_size=10, max_size=10))
def test_likenesses_that_contradict_each_other_are_still_a_correlation(told: list[float]) -> None:
    members = [("model", f"M{one}") for one in range(5)]
    pairs = [(one, other) for one in members for other in members if one < other]
    found = correlation_of(members, dict(zip(pairs, told, strict=True)))
    assert np.diag(found) == pytest.approx(np.ones(5))
    assert np.linalg.eigvalsh(found).min() > 0.01
    assert (np.abs(found - np.eye(5)) <= MOST_ALIKE + 1e-12).all()


def test_likenesses_that_agree_are_taken_as_they_are() -> None:
    members = [("model", "A"), ("model", "B")]
    found = correlation_of(members, {(members[0], members[1]): 0.7})
    assert found[0, 1] == pytest.approx(0.7)

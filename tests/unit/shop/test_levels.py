"""What a shop knows of shafts and heads is what they do, and says how well it is known."""

import numpy as np
import pytest

from loftwright.arrays import frozen_array
from loftwright.shop.grams import Gram
from loftwright.shop.levels import LEVELS, Belongs, Effects, known_effects
from loftwright.shop.population import Population

R = 2
LEFT = np.diag([1.0, 0.8])
TRUE_CLUBS = np.diag([0.2, 0.2]) ** 2
SPREADS = {"family": 0.5, "model": 0.3, "piece": 0.1}


def shop(
    seed: int, fittings: int
) -> tuple[list[Gram], dict[tuple[str, str], Belongs], dict[str, np.ndarray]]:
    """Return an invented shop: twelve shafts in four families, four of them in every fitting."""
    rng = np.random.default_rng(seed)
    families = {f"F{one}": SPREADS["family"] * rng.standard_normal(R) for one in range(4)}
    models, pieces = {}, {}
    for number in range(12):
        family = f"F{number % 4}"
        models[f"M{number}"] = SPREADS["model"] * rng.standard_normal(R)
        pieces[f"P{number}"] = (
            Belongs(head="H", family=family, model=f"M{number}", piece=f"P{number}"),
            families[family] + models[f"M{number}"] + SPREADS["piece"] * rng.standard_normal(R),
        )
    grams, belongs = [], {}
    for number in range(fittings):
        chosen = rng.choice(12, 4, replace=False)
        hit = np.eye(4)[np.arange(40) % 4]
        level = 5.0 * rng.standard_normal(R)
        effects = np.array([pieces[f"P{one}"][1] for one in chosen])
        effects = effects + rng.multivariate_normal(np.zeros(R), TRUE_CLUBS, 4)
        said = level + hit @ effects + rng.multivariate_normal(np.zeros(R), LEFT, 40)
        whole = np.hstack([np.ones((40, 1)), hit])
        names = tuple(f"c{one}" for one in range(4))
        grams.append(
            Gram(
                fitting=f"f{number}",
                clubs=names,
                balls=40,
                gram=frozen_array(whole.T @ whole),
                cross=frozen_array(whole.T @ said),
                squares=frozen_array(said.T @ said),
            )
        )
        for name, one in zip(names, chosen, strict=True):
            belongs[f"f{number}", name] = pieces[f"P{one}"][0]
    return grams, belongs, {one: truth for one, (_, truth) in pieces.items()}


BELIEF = Population(
    slopes=frozen_array(np.zeros((1, R))),
    spread=frozen_array(np.array([[[25.0]]] * R)),
    clubs=frozen_array(TRUE_CLUBS),
    left=frozen_array(LEFT),
)


def contrasts(found: Effects, truth: dict[str, np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
    """Return by how much each shaft's effect against the first is missed, and its doubt."""
    shafts = sorted(truth)
    missed, doubts = [], []
    index = {name: place for place, name in enumerate(found.members)}
    for shaft in shafts[1:]:
        chosen = np.zeros(len(found.members))
        for sign, one in ((1.0, shaft), (-1.0, shafts[0])):
            number = int(one[1:])
            for name in (("family", f"F{number % 4}"), ("model", f"M{number}"), ("piece", one)):
                chosen[index[name]] += sign
        missed.append(chosen @ found.means - (truth[shaft] - truth[shafts[0]]))
        cov = np.einsum("m,mrns,n->rs", chosen, found.covariance, chosen)
        doubts.append(np.sqrt(np.diag(cov)))
    return np.array(missed), np.array(doubts)


def test_what_shafts_do_is_found_within_its_stated_doubt() -> None:
    inside, small = [], []
    for seed in range(20):
        grams, belongs, truth = shop(seed, 60)
        missed, doubts = contrasts(known_effects(grams, BELIEF, belongs), truth)
        inside.append(np.abs(missed) < 1.2816 * doubts)
        small.append(np.abs(missed))
    assert 0.74 < np.mean(inside) < 0.86
    assert np.mean(small) < 0.2


def test_a_part_that_nobody_hit_is_as_doubtful_as_such_parts_differ() -> None:
    grams, belongs, _ = shop(3, 60)
    found = known_effects(grams, BELIEF, belongs)
    mean, doubt = found.of(Belongs(head="H", family="F1", model="new", piece="new"))
    _, sure = found.of(Belongs(head="H", family="F1", model="M1", piece="P1"))
    family = found.members.index(("family", "F1"))
    head = found.members.index(("head", "H"))
    assert mean == pytest.approx(found.means[family] + found.means[head])
    assert (np.diag(doubt) > np.diag(sure)).all()
    model = LEVELS.index("model")
    assert (np.diag(doubt) > found.variances[model]).all()


def test_members_count_the_fittings_they_were_hit_in() -> None:
    grams, belongs, _ = shop(3, 30)
    found = known_effects(grams, BELIEF, belongs)
    assert found.fittings["head", "H"] == 30
    assert sum(found.fittings["piece", f"P{one}"] for one in range(12)) == 120


def test_clubs_that_share_a_part_share_its_doubt() -> None:
    grams, belongs, _ = shop(3, 30)
    found = known_effects(grams, BELIEF, belongs)
    one = Belongs(head="H", family="F1", model="M1", piece="P1")
    twin = Belongs(head="H", family="F1", model="M1", piece="P-other")
    means, doubt = found.joint([one, one, twin])
    assert means[0] == pytest.approx(means[1])
    same = doubt[0] - doubt[1]
    assert np.abs(same).max() < 1e-12
    apart = doubt[0, :, 0, :] + doubt[2, :, 2, :] - doubt[0, :, 2, :] - doubt[2, :, 0, :]
    assert (np.diag(apart) >= found.variances[LEVELS.index("piece")]).all()
    assert (np.diag(apart) < np.diag(doubt[0, :, 0, :] + doubt[2, :, 2, :])).all()


def test_two_clubs_of_a_model_that_nobody_hit_differ_by_their_samples_alone() -> None:
    grams, belongs, _ = shop(3, 30)
    found = known_effects(grams, BELIEF, belongs)
    new = [Belongs(head="H", family="F1", model="new", piece=one) for one in ("N1", "N2")]
    _, doubt = found.joint(new)
    apart = doubt[0, :, 0, :] + doubt[1, :, 1, :] - doubt[0, :, 1, :] - doubt[1, :, 0, :]
    assert np.diag(apart) == pytest.approx(2.0 * found.variances[LEVELS.index("piece")])


def test_a_shaft_of_no_family_is_not_doubted_for_the_family_it_does_not_have() -> None:
    grams, belongs, _ = shop(3, 60)
    alone = {
        key: Belongs(head=told.head, model=told.model, piece=told.piece)
        for key, told in belongs.items()
    }
    found = known_effects(grams, BELIEF, alone)
    known = Belongs(head="H", model="M1", piece="P1")
    _, doubt = found.of(known)
    chosen = np.array([member in known.members for member in found.members], dtype=float)
    expected = np.einsum("m,mrns,n->rs", chosen, found.covariance, chosen)
    assert doubt == pytest.approx(expected)


def test_the_nearest_thing_that_was_hit_is_named() -> None:
    grams, belongs, _ = shop(3, 30)
    found = known_effects(grams, BELIEF, belongs)
    hit = found.fittings
    known = Belongs(family="F1", model="M1", piece="P1")
    assert found.seen(known) == ("piece", "P1", hit["piece", "P1"])
    sister = Belongs(family="F1", model="M1", piece="P-other")
    assert found.seen(sister) == ("model", "M1", hit["model", "M1"])
    assert found.seen(Belongs(family="F1", model="x")) == ("family", "F1", hit["family", "F1"])
    assert found.seen(Belongs(head="H", family="x")) == ("", "", 0)

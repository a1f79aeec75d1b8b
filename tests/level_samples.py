"""Invented fittings whose clubs do what they are told, as sums, and who hit them."""

from collections.abc import Mapping, Sequence

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.grams import Gram
from loftwright.shop.levels import Belongs, Member
from loftwright.shop.population import Population

R = 2
LEFT = np.diag([1.0, 0.8])
CLUBS = np.diag([0.2, 0.2]) ** 2
BELIEF = Population(
    slopes=frozen_array(np.zeros((1, R))),
    spread=frozen_array(np.array([[[25.0]]] * R)),
    clubs=frozen_array(CLUBS),
    left=frozen_array(LEFT),
)


def gram_of(
    rng: np.random.Generator, fitting: str, effects: Sequence[FloatArray], balls: int = 40
) -> Gram:
    """Return the sums of a fitting whose clubs do so much, each a little otherwise than it is."""
    count = len(effects)
    hit = np.eye(count)[np.arange(balls) % count]
    own = np.array(effects) + rng.multivariate_normal(np.zeros(R), CLUBS, count)
    said = 5.0 * rng.standard_normal(R) + hit @ own
    said = said + rng.multivariate_normal(np.zeros(R), LEFT, balls)
    whole = np.hstack([np.ones((balls, 1)), hit])
    return Gram(
        fitting=fitting,
        clubs=tuple(f"c{one}" for one in range(count)),
        balls=balls,
        gram=frozen_array(whole.T @ whole),
        cross=frozen_array(whole.T @ said),
        squares=frozen_array(said.T @ said),
    )


def does(told: Belongs, truth: Mapping[Member, FloatArray]) -> FloatArray:
    """Return what a club does when its parts do what they do in truth."""
    return np.asarray(sum((truth[one] for one in told.members if one in truth), np.zeros(R)))


def shop_of(
    seed: int,
    visits: Sequence[Sequence[Belongs]],
    truth: Mapping[Member, FloatArray],
    extra: Mapping[str, FloatArray] | None = None,
) -> tuple[list[Gram], dict[tuple[str, str], Belongs]]:
    """Return the fittings of a shop, one a row of clubs, named f000 and so on.

    What is `extra` in a fitting is added to its first club.
    """
    rng = np.random.default_rng(seed)
    grams, belongs = [], {}
    for number, clubs in enumerate(visits):
        fitting = f"f{number:03d}"
        effects = [does(one, truth) for one in clubs]
        effects[0] = effects[0] + (extra or {}).get(fitting, np.zeros(R))
        grams.append(gram_of(rng, fitting, effects))
        belongs.update({(fitting, f"c{one}"): told for one, told in enumerate(clubs)})
    return grams, belongs


def usual_shop(
    seed: int, fittings: int, models: int = 8
) -> tuple[list[list[Belongs]], dict[Member, FloatArray]]:
    """Return what was hit in a shop of models in three families, and what all of them do."""
    rng = np.random.default_rng(seed)
    shafts = [
        Belongs(head="H", family=f"F{one % 3}", model=f"M{one}", piece=f"P{one}")
        for one in range(models)
    ]
    sizes = {"head": 0.0, "family": 0.4, "model": 0.3, "piece": 0.1}
    truth = {
        member: sizes[member[0]] * rng.standard_normal(R)
        for member in dict.fromkeys(one for shaft in shafts for one in shaft.members)
    }
    visits = [
        [shafts[one] for one in rng.choice(models, 4, replace=False)] for _ in range(fittings)
    ]
    return visits, truth

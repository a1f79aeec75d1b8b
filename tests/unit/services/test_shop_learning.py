"""A shop learns from its record what its shafts do, and keeps it as a file that can be read."""

import json

import numpy as np
import pytest

from loftwright.errors import EvidenceError
from loftwright.services.shop_learning import learn_shop
from loftwright.services.shop_record import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.record import keep
from shop_samples import BELIEF, a_fitting, shaft_effects
from studios import studio_in_memory

FITTINGS = 60


@pytest.fixture(scope="module")
def effects() -> dict[str, np.ndarray]:
    return shaft_effects(3)


@pytest.fixture(scope="module")
def studio(effects: dict[str, np.ndarray]) -> Studio:
    made = studio_in_memory()
    for seed in range(FITTINGS):
        keep(record_folder(made), a_fitting(seed, effects))
    return made


def test_a_shop_learns_what_its_shafts_do(studio: Studio, effects: dict[str, np.ndarray]) -> None:
    learned = learn_shop(studio)
    assert (learned.fittings, learned.balls) == (FITTINGS, FITTINGS * 40)
    found = learned.effects
    models = [place for place, (level, _) in enumerate(found.members) if level == "model"]
    pieces = [place for place, (level, _) in enumerate(found.members) if level == "piece"]
    means = found.means[models] + found.means[pieces]
    truth = np.array([effects[found.members[place][1]] for place in models])
    apart = (means - means.mean(axis=0)) - (truth - truth.mean(axis=0))
    spread = np.sqrt(np.diag(BELIEF.clubs))
    assert (np.sqrt((apart**2).mean(axis=0)) < 0.6 * spread).all()


def test_what_was_learned_is_a_file_of_its_own_version(studio: Studio) -> None:
    first, second = learn_shop(studio), learn_shop(studio)
    assert second.version == first.version + 1
    text = (record_folder(studio) / "learned" / f"{second.version:04d}.json").read_text()
    told = json.loads(text)
    assert told["fittings"] == FITTINGS
    assert tuple(told["slopes"]) == FEATURES
    assert set(told["units"]) == {one.column for one in RESPONSES}
    shafts = [one for one in told["effects"] if one["level"] == "model"]
    assert len(shafts) == 8
    assert all(one["fittings"] > 10 and min(one["sd"].values()) > 0.0 for one in shafts)


def test_a_young_shop_leans_on_the_physics_and_says_so() -> None:
    young = studio_in_memory()
    with pytest.raises(EvidenceError, match="0 fittings") as refused:
        learn_shop(young)
    assert "physics" in refused.value.mend

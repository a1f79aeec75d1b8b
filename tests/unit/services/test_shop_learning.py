"""A shop learns from its record what its shafts do, and keeps it as a file that can be read."""

import json
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace

import numpy as np
import pytest

from loftwright.errors import EvidenceError, StoreError
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import (
    learn_apart,
    learn_shop,
    learned_versions,
    newest_learned,
    read_learned,
)
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
    before = learned_versions(studio)
    learned = learn_shop(studio)
    assert learned_versions(studio) == (*before, learned.version)
    text = (record_folder(studio) / "learned" / f"{learned.version:04d}.json").read_text()
    told = json.loads(text)
    assert told["fittings"] == FITTINGS
    assert tuple(told["launch"]["slopes"]) == FEATURES
    assert {one.column for one in RESPONSES} <= set(told["units"])
    shafts = [one for one in told["effects"]["members"] if one["level"] == "model"]
    assert len(shafts) == 8
    assert all(one["fittings"] > 10 and min(one["sd"].values()) > 0.0 for one in shafts)


def same(one: object, other: object) -> bool:
    """Return whether two values are equal to the last digit, arrays and parts included."""
    if isinstance(one, np.ndarray):
        return isinstance(other, np.ndarray) and np.array_equal(one, other)
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if is_dataclass(one) and not isinstance(one, type):
        return type(one) is type(other) and all(
            same(getattr(one, part.name), getattr(other, part.name)) for part in fields(one)
        )
    return one == other


def test_what_was_learned_is_read_back_to_the_last_digit(studio: Studio) -> None:
    newest = newest_learned(studio)
    assert newest is not None
    learned = learn_shop(studio)
    assert same(read_learned(studio, learned.version), learned)
    assert same(replace(newest, version=learned.version), learned), "the same twice"


def test_a_process_of_its_own_learns_the_same_to_the_last_digit(studio: Studio) -> None:
    here = learn_shop(studio)
    version = learn_apart(studio)
    assert version == here.version + 1
    assert same(read_learned(studio, version), replace(here, version=version))


def test_before_anything_was_learned_there_is_nothing_to_read() -> None:
    young = studio_in_memory()
    assert learned_versions(young) == ()
    assert newest_learned(young) is None
    with pytest.raises(StoreError, match="No such file") as refused:
        read_learned(young, 3)
    assert refused.value.place.endswith("0003.json")


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda text: text[: len(text) // 2], "damaged"),
        (lambda text: text.replace('"toe"', '"heel"'), "damaged"),
        (lambda text: text.replace('"sha256": "', '"sha256": "0'), "damaged"),
        (lambda text: text.replace("learned 1", "learned 2"), "form"),
    ],
    ids=["cut", "renamed", "changed", "newer"],
)
def test_a_file_that_is_not_as_it_was_written_is_refused(
    studio: Studio, spoil: Callable[[str], str], says: str
) -> None:
    version = learned_versions(studio)[0]
    place = record_folder(studio) / "learned" / f"{version:04d}.json"
    text = place.read_text()
    place.write_text(spoil(text))
    try:
        with pytest.raises(StoreError, match=says) as refused:
            read_learned(studio, version)
    finally:
        place.write_text(text)
    assert refused.value.mend


@pytest.mark.parametrize("learn", [learn_shop, learn_apart])
def test_a_shop_without_fittings_leans_on_the_physics_and_says_so(
    learn: Callable[[Studio], object],
) -> None:
    with pytest.raises(EvidenceError, match="0 fittings") as refused:
        learn(studio_in_memory())
    assert "physics" in refused.value.mend

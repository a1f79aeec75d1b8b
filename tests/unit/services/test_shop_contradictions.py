"""A shaft of the rack whose balls contradict its label is named, with its figures."""

from dataclasses import replace

import numpy as np
import pytest

from learned_samples import learned
from loftwright.arrays import frozen_array
from loftwright.constants import DEGREE
from loftwright.domain.rack import Piece, ShaftModel
from loftwright.services.rack import add_item
from loftwright.services.shop_contradictions import contradictions_of
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import LEVELS, Effects
from loftwright.shop.record import keep
from shop_samples import a_fitting, shaft_effects
from studios import studio_in_memory


def a_rack() -> tuple[Studio, list[str]]:
    """Return a studio and the models of four shafts; the first says that it launches low."""
    studio = studio_in_memory()
    models = []
    for number, label in enumerate(("low launch", "R", "S", "")):
        model = add_item(
            studio,
            ShaftModel(id="", maker="", name=f"Shaft {number}", family="Wren", paper_label=label),
        )
        add_item(studio, Piece(id="", model=model.id, label=f"Shaft {number} 1"))
        models.append(model.id)
    return studio, models


def taught(studio: Studio, models: list[str], launch: float) -> ShopLearned:
    """Return a shop in which the first model launches so much higher [scaled units]."""
    members = (
        *(("model", one) for one in models),
        *(("piece", one) for one in studio.store.rack().pieces),
    )

    def effects(responses: int) -> Effects:
        means = np.zeros((len(members), responses))
        means[0, 1] = launch if responses == 5 else 0.0
        shape = (len(members), responses, len(members), responses)
        return Effects(
            members=members,
            means=frozen_array(means),
            covariance=frozen_array(0.01 * np.eye(means.size).reshape(shape)),
            variances=frozen_array(np.zeros((len(LEVELS), responses))),
            fittings=dict.fromkeys(members, 12),
        )

    return replace(learned(1), effects=effects(5), swing_effects=effects(6))


def test_a_low_launch_label_on_a_shaft_that_launches_high_is_told() -> None:
    studio, models = a_rack()
    found = contradictions_of(studio, taught(studio, models, 2.0))
    told = {(one.kind, one.member, one.response) for one in found}
    assert ("label", models[0], "launch") in told
    assert ("physics", models[0], "launch") in told
    label = next(one for one in found if one.kind == "label")
    assert label.claim == "low launch"
    assert label.mean == pytest.approx(1.6 * DEGREE)
    assert label.low > 0.3 * DEGREE


def test_a_rack_whose_balls_agree_with_its_labels_says_nothing() -> None:
    studio, models = a_rack()
    assert contradictions_of(studio, taught(studio, models, 0.0)) == ()


def test_what_the_bench_expected_counts_for_a_label() -> None:
    studio, models = a_rack()
    effects = shaft_effects(1)
    for seed in range(3):
        recorded = a_fitting(seed, effects, balls=8)
        belongs = {
            club: replace(told, model=model)
            for (club, told), model in zip(recorded.belongs.items(), models, strict=True)
        }
        # The bench expects the first to be delivered with two degrees more loft.
        shifts = {next(iter(belongs)): (0.0, 0.0, 0.0, 0.0, 2.0 * DEGREE)}
        keep(record_folder(studio), replace(recorded, belongs=belongs, shifts=shifts))
    found = contradictions_of(studio, taught(studio, models, 0.0))
    assert {(one.kind, one.response) for one in found if one.member == models[0]} == {
        ("label", "launch")
    }

"""What a model's forebear did is carried over by how alike they were measured."""

from math import exp

import numpy as np
import pytest

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece, Rack, ShaftModel
from loftwright.services.demo_family import FAMILY, fill_family
from loftwright.services.shop_likeness import alike_in, alike_of
from loftwright.shop.alike import FALLS_OVER, MOST_ALIKE
from shafts import a_profile, times
from studios import studio_in_memory


def line(family: str = "Wren") -> Rack:
    """Return three models that took each other's place, a sample of each."""
    models = [
        ShaftModel(
            id=f"m{one}",
            maker="",
            name="Wren",
            family=family,
            generation=str(one),
            replaces=f"m{one - 1}" if one > 1 else None,
        )
        for one in (1, 2, 3)
    ]
    pieces = [Piece(id=f"p{one}", model=f"m{one}") for one in (1, 2, 3)]
    return Rack(
        heads={},
        shafts={one.id: one for one in models},
        pieces={one.id: one for one in pieces},
        sleeves={},
        assemblies={},
    )


def measured(**factors: float) -> dict[str, MeasuredProfile]:
    return {name: a_profile(times(factor)) for name, factor in factors.items()}


def test_a_stiffer_follower_is_less_alike() -> None:
    found = alike_in(line(), measured(p1=1.0, p2=1.05, p3=1.15))
    first, second = (
        found[("model", "m1"), ("model", "m2")],
        found[("model", "m1"), ("model", "m3")],
    )
    assert 0.0 < second < first < MOST_ALIKE
    assert first >= exp(-((np.log(1.05) / FALLS_OVER) ** 2))
    assert found[("generation", "Wren 1"), ("generation", "Wren 2")] == pytest.approx(first)


def test_twins_are_as_alike_as_anything_can_be() -> None:
    found = alike_in(line(), measured(p1=1.0, p2=1.0))
    assert found[("model", "m1"), ("model", "m2")] == MOST_ALIKE


def test_nothing_is_carried_over_to_what_was_not_measured() -> None:
    found = alike_in(line(), measured(p1=1.0, p3=1.0))
    assert set(found) == {
        (("model", "m1"), ("model", "m3")),
        (("generation", "Wren 1"), ("generation", "Wren 3")),
    }
    assert alike_in(line(), {}) == {}


def test_models_of_no_family_carry_nothing_over() -> None:
    assert alike_in(line(family=""), measured(p1=1.0, p2=1.0)) == {}


def test_a_family_in_a_rack_is_alike_from_generation_to_generation() -> None:
    studio = studio_in_memory()
    fill_family(studio)
    found = alike_of(studio)
    ages = [one for one in found if one[0][0] == "generation"]
    assert {tuple(name for _, name in pair) for pair in ages} == {
        (f"{FAMILY} first", f"{FAMILY} second"),
        (f"{FAMILY} first", f"{FAMILY} third"),
        (f"{FAMILY} second", f"{FAMILY} third"),
    }
    assert all(0.05 < found[one] <= MOST_ALIKE for one in ages)

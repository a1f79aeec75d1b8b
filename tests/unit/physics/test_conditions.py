"""Conditions: what they refuse, and the constants of flight they give."""

from dataclasses import replace
from math import log, nan

import pytest

from drives import conditions
from loftwright.errors import InputError
from loftwright.physics.turf import GROUNDS


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"wind_along": nan}, "wind"),
        ({"wind_across": 14.0}, "wind"),
        ({"roughness": -0.01}, "roughness"),
        ({"roughness": nan}, "roughness"),
        ({"drag_scale": -0.1}, "drag scale"),
        ({"lift_scale": 2.5}, "lift scale"),
        ({"ground": GROUNDS["normal"]._replace(base_tilt=0.7)}, "base tilt"),
    ],
)
def test_conditions_outside_the_model_are_refused_by_name(
    change: dict[str, float], place: str
) -> None:
    with pytest.raises(InputError) as refused:
        replace(conditions(), **change)  # type: ignore[arg-type]
    assert refused.value.place == place


def test_wind_over_rough_ground_grows_from_nothing_to_itself_at_ten_metres() -> None:
    medium = conditions(tail=10.0, roughness=0.03).medium

    def part(height: float) -> float:
        growth = medium.wind_growth * log(1.0 + height * medium.inverse_roughness)
        return medium.wind_on_ground + growth

    assert part(0.0) == 0.0
    assert part(2.0) == pytest.approx(0.726, abs=0.001)
    assert part(10.0) == pytest.approx(1.0)
    assert part(30.0) > 1.0


@pytest.mark.parametrize("uniform", [{"tail": 10.0, "roughness": 0.0}, {"roughness": 0.03}])
def test_wind_without_roughness_and_no_wind_need_no_profile(uniform: dict[str, float]) -> None:
    medium = conditions(**uniform).medium  # type: ignore[arg-type]
    assert (medium.wind_on_ground, medium.wind_growth, medium.inverse_roughness) == (1.0, 0.0, 0.0)


def test_lift_is_scaled_to_a_ball_of_today_unless_told_otherwise() -> None:
    assert conditions().medium.lift_scale == 1.1
    assert conditions().medium.drag_scale == 1.0

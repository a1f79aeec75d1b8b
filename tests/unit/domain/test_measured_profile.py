"""A measured profile refuses what cannot be, with the place, and never mends it silently."""

from dataclasses import replace
from typing import Any

import pytest

from loftwright.arrays import frozen_array
from loftwright.errors import InputError
from store_samples import PROFILE


@pytest.mark.parametrize(
    ("place", "changed"),
    [
        ("station", {"station": [0.0]}),
        ("station", {"station": [0.0, 0.4, 0.4, 0.95, 1.168]}),
        ("station", {"station": [0.1, 0.4, 0.7, 0.95, 1.168]}),
        ("station", {"station": [0.0, 40.0, 70.0, 95.0, 116.8]}),
        ("station", {"station": [0.0, 0.1, 0.2, 0.3, 0.49]}),
        ("bending", {"bending": [82.0, 64.8, 43.0, 27.0]}),
        ("bending", {"bending": [82.0, 64.8, 43.0, 27.0, 4.9]}),
        ("bending", {"bending": [82.0, 64.8, 43.0, float("nan"), 20.0]}),
        ("bending_error", {"bending_error": [0.8, 0.6, 0.4, 0.0, 3.1]}),
        ("bending_error", {"bending_error": [0.8, 0.6, 0.4, float("inf"), 3.1]}),
        ("twisting_error", {"twisting": [30.0, 25.0, 20.0, 15.0, 10.0]}),
        ("density", {"density": [65.0, 50.0, 47.0, 51.0, 63.0]}),
        ("scale_error", {"scale_error": 0.3}),
        ("mass", {"mass": 61.4}),
        ("mass_error", {"mass_error": None}),
        ("balance_error", {"balance": 0.58}),
        ("balance", {"balance": 57.0, "balance_error": 0.001}),
        ("balance_error", {"balance": 0.58, "balance_error": 0.0}),
        ("butt_diameter", {"butt_diameter": 0.6}),
        ("tip_diameter", {"tip_diameter": 0.335}),
        ("bench", {"bench": " "}),
        ("conditions", {"conditions": ""}),
    ],
)
def test_what_cannot_be_is_named(place: str, changed: dict[str, Any]) -> None:
    with pytest.raises(InputError) as refused:
        replace(PROFILE, **changed)
    assert refused.value.place == place
    assert refused.value.mend


def test_a_stiffness_in_another_unit_is_asked_about() -> None:
    with pytest.raises(InputError, match=r"284\.7 N m2 at 400 mm cannot be: is the unit right"):
        replace(PROFILE, bending=frozen_array([82.0, 284.7, 43.0, 27.0, 20.0]))


def test_its_length_is_where_its_stations_end() -> None:
    assert PROFILE.length == 1.168

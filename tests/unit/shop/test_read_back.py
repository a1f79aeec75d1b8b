"""The record says who hit on what and where."""

from dataclasses import replace
from pathlib import Path

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.shop.leverage import Who
from loftwright.shop.read_back import shifts_in, who_in
from loftwright.shop.record import keep
from shop_samples import a_fitting, shaft_effects


def test_every_fitting_says_who_hit_on_what_and_where(tmp_path: Path) -> None:
    effects = shaft_effects(1)
    keep(tmp_path, a_fitting(1, effects, balls=4))
    keep(tmp_path, replace(a_fitting(2, effects, balls=4), bays=("",), devices=("Flint",)))
    assert who_in(tmp_path) == {
        "f0001": Who(golfer="g0001", devices=("Slate",), bays=("Bay 1",)),
        "f0002": Who(golfer="g0002", devices=("Flint",), bays=()),
    }


def test_an_empty_record_tells_of_nobody(tmp_path: Path) -> None:
    assert who_in(tmp_path) == {}


def test_what_the_bench_expected_is_found_against_other_models(tmp_path: Path) -> None:
    speed = {f"S{one}": one * MILE_PER_HOUR for one in range(8)}
    effects = shaft_effects(1)
    for seed in range(12):
        recorded = a_fitting(seed, effects, balls=8)
        own = speed[recorded.belongs["Own"].model]
        shifts = {
            club: (speed[told.model] - own, 0.0, 0.0, 0.0, speed[told.model] / 100.0)
            for club, told in recorded.belongs.items()
        }
        keep(tmp_path, replace(recorded, shifts=shifts))
    found = shifts_in(tmp_path)
    apart = {name: shift - found["S0"] for name, shift in found.items()}
    assert sorted(apart) == sorted(speed)
    for number, name in enumerate(sorted(speed)):
        loft = number * MILE_PER_HOUR / 100.0 / DEGREE
        assert apart[name] == pytest.approx([number, 0.0, 0.0, 0.0, loft], abs=1e-9)


def test_an_empty_record_tells_of_no_bench(tmp_path: Path) -> None:
    assert shifts_in(tmp_path) == {}

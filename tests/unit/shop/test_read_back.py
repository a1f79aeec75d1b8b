"""The record says who hit on what and where."""

from dataclasses import replace
from pathlib import Path

from loftwright.shop.leverage import Who
from loftwright.shop.read_back import who_in
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

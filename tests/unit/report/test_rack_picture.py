"""Shafts along a rule by their weight."""

import re

from loftwright.report.rack_picture import HungShaft, rack_picture
from loftwright.report.theme_svg import for_screen


def shaft(name: str, grams: float, *, weighed: bool = False) -> HungShaft:
    return HungShaft(name=name, mass=grams / 1000.0, weighed=weighed)


def test_a_heavier_shaft_hangs_further_right() -> None:
    svg = rack_picture([shaft("Heavy", 70.0), shaft("Light", 50.0)])
    places = {
        name: float(re.search(rf'x="([\d.]+)"[^>]*>{name}', svg)[1])  # type: ignore[index]
        for name in ("Light", "Heavy")
    }
    assert places["Light"] < places["Heavy"]


def test_equal_weights_hang_in_rows_of_their_own() -> None:
    svg = rack_picture([shaft("One", 60.0), shaft("Two", 60.0)])
    heights = {
        float(re.search(rf'y="([\d.]+)"[^>]*>{name}', svg)[1])  # type: ignore[index]
        for name in ("One", "Two")
    }
    assert len(heights) == 2


def test_samples_of_one_model_hang_in_one_row_under_one_name() -> None:
    svg = rack_picture([shaft("Reed", grams, weighed=True) for grams in (60.0, 61.0, 60.4)])
    dots = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)"', svg)
    assert len(dots) == 3
    assert len({height for _, height in dots}) == 1
    assert svg.count("Reed") == 1
    assert "Reed, 3 samples" in svg


def test_names_are_drawn_over_the_lines_that_cross_them() -> None:
    svg = rack_picture([shaft(f"Shaft number {one}", 60.0 + 0.5 * one) for one in range(4)])
    assert svg.rindex("V") < svg.index("Shaft number 0")


def test_a_printed_weight_hangs_on_a_dashed_line() -> None:
    assert "stroke-dasharray" in rack_picture([shaft("One", 60.0)])
    assert "stroke-dasharray" not in rack_picture([shaft("One", 60.0, weighed=True)])


def test_what_does_not_fit_is_counted() -> None:
    svg = rack_picture([shaft(f"Shaft number {index}", 60.0) for index in range(12)])
    assert "and 3 more in the table" in svg


def test_an_empty_rack_is_a_bare_rule() -> None:
    svg = for_screen(rack_picture([]))
    assert ">A bare rule<" in svg

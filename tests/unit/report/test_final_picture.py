"""Readings drawn in their tolerances: marks, ranges, arrows, a name for those who hear it."""

import re

import pytest

from final_checks import BUILD, readings
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.report.final_picture import REACH, WIDTH, final_picture
from loftwright.report.screen_numbers import Show
from loftwright.services.build_check import check_sheet

MIDDLE, TOLERANCE = 480.0, 260.0 / REACH


def drawn(show: Show | None = None, **changed: float | str) -> str:
    checked = check_sheet(read_build_text(BUILD), read_measured_text(readings(**changed)))
    return final_picture(checked, show or Show())


def test_its_name_says_every_verdict() -> None:
    svg = drawn(loft_deg__value=11.5, frequency_cpm__value=253.5)
    title = re.findall(r"<title[^>]*>([^<]*)</title>", svg)[0]
    assert "length in; swingweight in" in title
    assert "loft out" in title
    assert "frequency cannot tell" in title


def test_a_reading_stands_where_its_tolerance_puts_it() -> None:
    svg = drawn(loft_deg__value=10.75, loft_deg__u95=0.25)
    left, right = MIDDLE, MIDDLE + TOLERANCE
    ranges = re.findall(r'd="M([\d.]+) [\d.]+H([\d.]+)"', svg)
    assert (f"{left:.1f}", f"{right:.1f}") in ranges
    assert f"M{MIDDLE + 0.5 * TOLERANCE:.1f} " in svg


@pytest.mark.parametrize(("loft", "way"), [(18.0, 7.0), (3.5, -7.0)])
def test_what_lies_beyond_the_rule_is_an_arrow_at_its_edge(loft: float, way: float) -> None:
    edge = MIDDLE + (REACH if way > 0.0 else -REACH) * TOLERANCE
    assert re.search(rf'd="M{edge - way:.1f} [\d.]+L{edge:.1f} ', drawn(loft_deg__value=loft))


def test_out_is_a_cross_and_cannot_tell_a_dashed_range() -> None:
    assert "l12 12M" not in drawn()
    assert "l12 12M" in drawn(grip_inch__value=0.93)
    assert drawn().count('stroke-dasharray="3 4"') == 0
    assert drawn(loft_deg__value=11.1).count('stroke-dasharray="3 4"') == 1


def test_nothing_leaves_the_picture_and_figures_follow_the_shop() -> None:
    svg = drawn(Show(units="metric", decimal="comma"), length_inch__value=46.0)
    places = [float(x) for x in re.findall(r"M([\d.]+) ", svg)]
    assert min(places) >= 0.0
    assert max(places) <= WIDTH
    assert "+25,4 mm" in svg

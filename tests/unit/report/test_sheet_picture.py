"""The shaft as its sheet cuts it: to scale along, every length written."""

import re

import pytest

from built_jobs import DRAFT
from loftwright.constants import INCH
from loftwright.physics.build.club import Cuts
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_picture import cut_picture
from loftwright.services.sheet_issue import try_sheet


def cuts(tip: str = "0.5") -> Cuts:
    found = try_sheet(DRAFT | {"shaft.tip_trim_inch": tip, "shaft.raw_length_inch": "46"})
    assert found.answer.cuts is not None
    return found.answer.cuts


def words(svg: str) -> list[str]:
    return re.findall(r">([^<]+)</text>", svg)


def test_every_length_is_written() -> None:
    said = words(cut_picture(cuts(), Show(), insertion=1.25 * INCH))
    assert "Off the butt: 2.375 in" in said
    assert "Off the tip: 0.500 in" in said
    assert "43.125 in stays" in said
    assert "bonded 1.250 in" in said
    assert "46.000 in raw" in said


def test_what_is_not_cut_is_told_as_nothing() -> None:
    said = words(cut_picture(cuts("0"), Show()))
    assert "Off the tip: nothing" in said
    assert not any(one.startswith("bonded") for one in said)


def test_a_cut_made_otherwise_is_drawn_as_it_was_made() -> None:
    said = words(cut_picture(cuts("0"), Show(), kept=43.0 * INCH))
    assert "43.000 in stays" in said
    assert "Off the butt: 3.000 in" in said


def test_the_cut_line_stands_to_scale() -> None:
    svg = cut_picture(cuts("0"), Show())
    lines = [float(x) for x in re.findall(r"M([\d.]+) 44\.0V124\.0", svg)]
    assert lines == [pytest.approx(24.0 + 2.875 / 46.0 * 832.0, abs=0.06)]


def test_a_metric_rule_counts_millimetres() -> None:
    said = words(cut_picture(cuts(), Show(units="metric", decimal="comma")))
    assert "1095,4 mm stays" in said
    assert "200" in said
    assert not any("in" in one.split() for one in said)

"""A family on four rules: claims full, the rest hollow, the reference a ring on zero."""

import re
from math import log

import pytest

from loftwright.domain.family import Against
from loftwright.domain.sections import Section
from loftwright.report.family_picture import FamilyLine, family_picture
from loftwright.report.look import INK, SHEET
from loftwright.report.theme_svg import for_screen

DOT = re.compile(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="5" fill="(#\w+)"')


def told(share: float, margin: float | None) -> Against:
    return Against(log=log(1.0 + share), samples=2, other_samples=3, noise=0.01, margin=margin)


def line(name: str, note: str = "2 samples", **sections: Against) -> FamilyLine:
    found = {Section(one.replace("_", " ")): value for one, value in sections.items()}
    return FamilyLine(name=name, note=note, found=found)


OLD = FamilyLine(name="Heron I", note="3 samples", found={}, reference=True)


def test_a_claim_is_a_full_dot_and_none_a_hollow_one_on_a_dashed_line() -> None:
    svg = family_picture(
        [OLD, line("Heron II", tip=told(-0.09, 0.05), butt=told(0.02, 0.05))], reference="Heron I"
    )
    assert sorted(fill for *_, fill in DOT.findall(svg)) == sorted([INK, SHEET])
    assert svg.count("stroke-dasharray") == 1


def test_without_a_known_spread_no_range_is_drawn() -> None:
    svg = family_picture([OLD, line("Heron II", tip=told(-0.09, None))], reference="Heron I")
    assert [fill for *_, fill in DOT.findall(svg)] == [SHEET]
    assert "stroke-dasharray" not in svg


def test_softer_lies_left_and_stiffer_right_of_zero() -> None:
    svg = family_picture(
        [OLD, line("Soft", tip=told(-0.09, 0.01)), line("Stiff", tip=told(0.09, 0.01))],
        reference="Heron I",
    )
    rings = re.findall(r'cx="([\d.]+)" cy="[\d.]+" r="6"', svg)
    soft, stiff = (float(x) for x, *_ in DOT.findall(svg))
    assert soft < float(rings[3]) < stiff
    assert len(rings) == len(Section)


def test_a_section_that_was_not_seen_says_so() -> None:
    svg = family_picture([OLD, line("II", butt=told(0.02, 0.05))], reference="I")
    assert svg.count("not seen") == 3


@pytest.mark.parametrize("share", [0.001, 0.05, 0.4])
def test_the_rule_reaches_as_far_as_what_is_on_it(share: float) -> None:
    svg = family_picture([OLD, line("II", tip=told(share, 0.01))], reference="I")
    reach = float(re.findall(r">\+(\d+) %<", svg)[0])
    assert 100.0 * share <= reach <= max(10.0, 250.0 * share)
    assert reach >= 5.0


def test_a_very_wide_range_is_cut_and_not_the_rest() -> None:
    svg = family_picture(
        [OLD, line("II", tip=told(0.05, 3.0), butt=told(0.04, 0.01))], reference="I"
    )
    assert float(re.findall(r">\+(\d+) %<", svg)[0]) <= 30.0


def test_names_are_escaped_and_cut_and_the_picture_has_its_own() -> None:
    svg = family_picture([OLD, line("<Reed> & " + "x" * 60)], reference="Heron I")
    assert "&lt;Reed&gt; &amp;" in svg
    assert "…" in svg
    assert "2 models by section, in per cent of Heron I" in svg
    assert "#" not in for_screen(svg).replace("url(#", "")

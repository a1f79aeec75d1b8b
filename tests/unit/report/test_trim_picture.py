"""A shaft before a cut: what goes is dashed, what is left is parted anew."""

import re

import pytest

from loftwright.constants import INCH, MILLIMETRE
from loftwright.domain.sections import Section
from loftwright.domain.shaft_preview import Trims
from loftwright.report.look import ACCENT
from loftwright.report.trim_picture import trim_picture

LENGTH = 1.168
CLAMP = 5.0 * INCH


def drawn(trims: Trims, **under: str) -> str:
    told = {Section(name.replace("_", " ")): text for name, text in under.items()}
    return trim_picture(LENGTH, trims, CLAMP, told, name="Reed & Rush")


def x_of(svg: str, text: str) -> float:
    found = re.search(rf'x="([\d.]+)"[^>]*>{re.escape(text)}<', svg)
    assert found is not None
    return float(found[1])


def test_a_shaft_as_it_is_has_nothing_dashed() -> None:
    svg = drawn(Trims())
    assert "stroke-dasharray" not in svg
    assert ACCENT not in svg
    assert "Reed &amp; Rush, and what would be cut" in svg


@pytest.mark.parametrize(
    ("trims", "pieces"),
    [
        (Trims(tip=0.5 * INCH), 1),
        (Trims(butt=1.0 * INCH), 1),
        (Trims(tip=0.5 * INCH, butt=1.0 * INCH), 2),
        (Trims(tip=0.5 * MILLIMETRE), 0),
    ],
)
def test_each_piece_that_goes_is_dashed(trims: Trims, pieces: int) -> None:
    assert drawn(trims).count("stroke-dasharray") == pieces


def test_a_cut_of_the_butt_moves_the_sections_and_the_clamp_with_the_new_end() -> None:
    whole, cut = drawn(Trims()), drawn(Trims(butt=50.0 * MILLIMETRE))
    moved = 50.0 * MILLIMETRE / LENGTH * (856.0 - 24.0)
    for name in ("Upper middle", "Lower middle", "held for the frequency"):
        assert x_of(cut, name) - x_of(whole, name) == pytest.approx(moved, abs=0.2)
    assert "950 to 1118 mm" in cut


def test_a_cut_of_the_tip_shortens_the_tip_alone() -> None:
    whole, cut = drawn(Trims()), drawn(Trims(tip=50.0 * MILLIMETRE))
    assert x_of(cut, "Lower middle") == x_of(whole, "Lower middle")
    assert "950 to 1118 mm" in cut


def test_what_changes_stands_under_its_section() -> None:
    svg = drawn(Trims(tip=0.5 * INCH), lower_middle="+2.4 %", tip="mostly not seen")
    assert x_of(svg, "+2.4 %") == x_of(svg, "Lower middle")
    assert "mostly not seen" in svg


def test_tape_and_another_butt_are_drawn_beside_the_tube() -> None:
    bare = drawn(Trims())
    taped = drawn(Trims(wraps=2, tape=0.13 * MILLIMETRE))
    wide = drawn(Trims(butt_diameter=15.9 * MILLIMETRE, wall=1.2 * MILLIMETRE))
    assert taped.count("<path") > bare.count("<path") + 10
    assert wide.count(ACCENT) == 2


def test_a_tip_that_is_cut_away_whole_leaves_three_sections() -> None:
    svg = drawn(Trims(tip=0.23))
    assert "950 to" not in svg
    assert "700 to 938 mm" in svg

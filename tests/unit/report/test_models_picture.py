"""Models against a reference: told apart in full, the rest hollow and without a figure."""

import re
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.report.look import INK, SHEET
from loftwright.report.models_picture import (
    NOT_APART,
    Difference,
    ModelName,
    QuantityBlock,
    models_picture,
    reach_of,
)
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.theme_svg import for_screen

DOT = re.compile(r'<circle cx="([\d.]+)" cy="[\d.]+" r="5" fill="(#\w+)"')
NAMES = (
    ModelName(name="Reed", note="7 golfers, 2 samples"),
    ModelName(name="Rush", note="9 golfers, 1 sample", reference=True),
)


def told(best: float, likely: float, wide: float) -> Difference:
    return Difference(
        best=best, likely=(best - likely, best + likely), wide=(best - wide, best + wide)
    )


def block(*ways: Difference, name: str = "Spin") -> QuantityBlock:
    return QuantityBlock(
        name=name,
        unit="against the reference, rpm",
        less="less",
        more="more",
        digits=0,
        ways=tuple((one, None) for one in ways),
    )


def drawn(*blocks: QuantityBlock, show: Show = TRADE, note: str = "") -> str:
    return models_picture(
        NAMES, blocks, ways=("Same", "Swung"), title="Shafts against Rush", show=show, note=note
    )


def test_what_is_told_apart_is_full_with_its_figure_and_the_rest_hollow_without() -> None:
    svg = drawn(block(told(250.0, 80.0, 120.0), told(-60.0, 80.0, 120.0)))
    assert [fill for _, fill in DOT.findall(svg)] == [INK, SHEET]
    assert ">+250</text>" in svg
    assert svg.count(NOT_APART) == 1
    assert "60</text>" not in svg
    assert svg.count("stroke-dasharray") == 1


def test_less_lies_left_of_zero_and_more_right() -> None:
    svg = drawn(block(told(250.0, 80.0, 120.0), told(-250.0, 80.0, 120.0)))
    rings = [float(x) for x in re.findall(r'cx="([\d.]+)" cy="[\d.]+" r="6"', svg)]
    more, less = (float(x) for x, _ in DOT.findall(svg))
    assert more > rings[0]
    assert less < rings[1]


def test_every_label_has_its_place(misplaced: Callable[[str], list[str]]) -> None:
    wide = told(-1234.0, 300.0, 400.0)
    svg = drawn(block(wide, wide), block(wide, wide, name="Start direction"), note="From a mat")
    assert misplaced(svg) == []
    assert "From a mat" in svg
    assert "<title" in svg
    for_screen(svg)


def test_figures_bear_the_shops_decimal_mark() -> None:
    one = QuantityBlock(
        name="Launch",
        unit="°",
        less="lower",
        more="higher",
        digits=1,
        ways=((told(1.5, 0.2, 0.3), None), (told(0.1, 0.2, 0.3), None)),
    )
    svg = drawn(one, show=Show(decimal="comma"))
    assert ">+1,5</text>" in svg
    assert "+1.5" not in svg


@given(
    best=st.floats(-500.0, 500.0),
    likely=st.floats(1.0, 400.0),
    more=st.floats(1.0, 5.0),
)
def test_a_rule_reaches_over_every_difference_and_likely_range(
    best: float, likely: float, more: float
) -> None:
    one = told(best, likely, likely * more)
    reach = reach_of(block(one, one))
    assert reach >= abs(best) + likely - 1e-9
    assert reach <= 10.0 * max(1.0, abs(best) + likely * more)
    assert f"{reach:.0e}"[0] in "125"


def test_a_name_is_escaped_and_cut() -> None:
    names = (ModelName(name="<Reed> & " + "very " * 20, note="7 golfers"), NAMES[1])
    one = block(told(1.0, 2.0, 3.0), told(1.0, 2.0, 3.0))
    svg = models_picture(names, [one], ways=("a", "b"), title="t", show=TRADE)
    assert "&lt;Reed&gt; &amp;" in svg
    assert "…" in svg


@pytest.mark.parametrize("wide", [(-1.0, 0.0), (0.0, 2.0), (-1.0, 1.0)])
def test_a_range_that_touches_zero_is_not_told_apart(wide: tuple[float, float]) -> None:
    assert not Difference(best=0.5, likely=wide, wide=wide).apart

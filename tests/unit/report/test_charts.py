import re
from dataclasses import replace
from itertools import pairwise

import pypdfium2
import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import YARD
from loftwright.evidence.result import Parts
from loftwright.report.chart_layers import chart_svg
from loftwright.report.charts import (
    PARTS_SIZE,
    RANGES_SIZE,
    parts_chart,
    ranges_chart,
)
from loftwright.report.differences import rounded_parts
from loftwright.report.fonts import font_folders
from loftwright.report.graduated import RangeRow
from loftwright.report.marks import deal_marks

MARKS = deal_marks(["Own", "Ash", "Birch"], "Own")
ASH = RangeRow(club="Ash", label="Ash", mean=2.0, half=(1.0, 3.0), most=(-1.0, 5.0))
BIRCH = RangeRow(club="Birch", label="Birch", mean=-1.0, half=(-2.0, 0.0), most=(-4.0, 2.0))


def parts(*yards: float) -> Parts:
    names = ("odd_balls", "strike", "swing", "warm_up", "club", "left_over")
    return Parts(**{name: value * YARD for name, value in zip(names, yards, strict=True)})


def texts(svg: str) -> list[str]:
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


def set_page(svg: str, width: float) -> pypdfium2.PdfPage:
    """Return a picture set alone, one unit to a point, with a margin of 60 points."""
    source = (
        f"#set page(width: {width + 120.0}pt, height: auto, margin: 60pt)\n"
        '#image(bytes(sys.inputs.svg), format: "svg", width: 100%)'
    )
    paths = [str(folder) for folder in font_folders()]
    data = typst.Compiler(
        source.encode(),
        font_paths=typst.Fonts(include_system_fonts=False, font_paths=paths),
        ignore_system_fonts=True,
        sys_inputs={"svg": svg},
    ).compile(format="pdf")
    return pypdfium2.PdfDocument(data)[0]


NAMES = ("Odd balls", "Strike", "Swing", "Warm-up", "Club", "Left over")


def widest(page: pypdfium2.PdfPage) -> tuple[float, float]:
    """Return how far text reaches to the left and to the right."""
    text = page.get_textpage()
    found = [text.get_rect(index) for index in range(text.count_rects())]
    return min(box[0] for box in found), max(box[2] for box in found)


@given(st.lists(st.floats(-40.0, 40.0), min_size=6, max_size=6))
def test_parts_add_up_as_they_are_printed(values: list[float]) -> None:
    shown = rounded_parts(parts(*values))
    total = round(parts(*values).sum() / YARD, 1)
    assert sum(round(10.0 * value) for _, value in shown) == round(10.0 * total)
    unmeasured = [name for name, value in zip(NAMES, values, strict=True) if value == 0.0]
    left_out = {"Strike", "Swing"} & set(unmeasured)
    assert [name for name, _ in shown] == [name for name in NAMES if name not in left_out]


def test_only_left_over_takes_what_rounding_leaves() -> None:
    values = (0.14, 0.14, 0.14, 0.14, 0.14, 0.0)
    shown = rounded_parts(parts(*values))
    assert [value for _, value in shown] == [0.1, 0.1, 0.1, 0.1, 0.1, 0.2]


def test_a_chart_of_ranges_names_clubs_and_zero_and_draws_the_ring() -> None:
    svg = chart_svg(ranges_chart([ASH, BIRCH], MARKS, zero="Own", zero_is_own=True))
    assert {"Ash", "Birch", "Own", "0", "−2", "+2"} <= set(texts(svg))
    assert svg.count("#0072b2") == 3
    assert svg.count("#d55e00") == 3
    assert 'stroke-width="2.8"' in svg


def test_without_an_own_club_no_ring_stands_at_zero() -> None:
    svg = chart_svg(ranges_chart([ASH], MARKS, zero="mean of all", zero_is_own=False))
    assert "mean of all" in texts(svg)
    assert 'stroke-width="2.8"' not in svg


def test_too_few_balls_are_a_dashed_range_without_marker_or_band() -> None:
    few = replace(ASH, dashed=True)
    svg = chart_svg(ranges_chart([few], MARKS, zero="Own", zero_is_own=True))
    assert 'stroke-dasharray="4,3"' in svg
    assert svg.count("#0072b2") == 1


def test_every_coloured_shape_has_an_ink_outline() -> None:
    svg = chart_svg(ranges_chart([ASH, BIRCH], MARKS, zero="Own", zero_is_own=True))
    for shape in re.findall(r"<path [^>]*fill=\"#(?:0072b2|d55e00)\"[^>]*>", svg):
        assert 'stroke="#182024"' in shape


@pytest.mark.parametrize("mean", [-6.0, 6.0])
def test_no_letter_of_a_chart_of_ranges_is_cut_off(mean: float) -> None:
    wide = RangeRow(
        club="Ash",
        label="WMWMWMWMWMWM…",
        mean=mean,
        half=(mean - 2.0, mean + 2.0),
        most=(mean - 6.0, mean + 6.0),
    )
    chart = ranges_chart([wide], MARKS, zero="Own with the old grip " * 3, zero_is_own=True)
    left, right = widest(set_page(chart_svg(chart), RANGES_SIZE.width))
    assert left >= 60.0
    assert right <= 60.0 + RANGES_SIZE.width


@pytest.mark.parametrize(
    "values",
    [
        (0.7, -4.8, -1.6, -0.7, 5.1, 0.1),
        (0.3, -0.1, 1.7, 0.0, 0.8, -0.1),
        (-30.0, 12.0, -8.0, 4.0, -2.0, 1.0),
        (0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
        (14.0, 8.0, 6.0, 9.0, 3.0, 2.0),
    ],
)
def test_no_letter_of_a_stepped_bar_is_cut_off(values: tuple[float, ...]) -> None:
    chart = parts_chart(parts(*values), a="WMWMWMWMWMW…", b="WMWMWMWMWMW…")
    left, right = widest(set_page(chart_svg(chart), PARTS_SIZE.width))
    assert left >= 59.5
    assert right <= 60.5 + PARTS_SIZE.width


def test_a_stepped_bar_names_every_part_and_both_sides() -> None:
    svg = chart_svg(parts_chart(parts(0.7, -4.8, -1.6, -0.7, 5.1, 0.1), a="Birch", b="Ash"))
    found = texts(svg)
    assert {"Odd balls", "Strike", "Swing", "Warm-up", "Club", "Left over", "Average"} <= set(
        found
    )
    assert {"+0.7", "−4.8", "−1.6", "−0.7", "+5.1", "+0.1", "−1.2"} <= set(found)
    assert {"← for Ash", "for Birch →"} <= set(found)
    assert "#2e3a8c" in svg


def bars(svg: str) -> list[tuple[float, float]]:
    """Return where every bar begins and ends across, from the top down."""
    found = re.findall(r'aria-roledescription="bar" d="M([\d.-]+),([\d.-]+)h([\d.-]+)', svg)
    rows = sorted((float(y), float(x), float(x) + float(w)) for x, y, w in found)
    return [(min(left, right), max(left, right)) for _, left, right in rows]


def test_each_bar_begins_where_the_last_one_ended() -> None:
    # Every part moves the same way, so that ends and beginnings are left and right.
    shown = bars(chart_svg(parts_chart(parts(1.0, 2.0, 1.5, 0.5, 3.0, 1.0), a="a", b="b")))
    assert len(shown) == 7
    for (_, end), (start, _) in pairwise(shown[:6]):
        assert start == pytest.approx(end, abs=0.01)
    assert shown[6] == pytest.approx((shown[0][0], shown[5][1]), abs=0.01)

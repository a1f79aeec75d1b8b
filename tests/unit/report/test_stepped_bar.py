"""The stepped bar from one plain average to the other."""

import re

import pytest

from loftwright.report.stepped_bar import stepped_bar
from loftwright.report.theme_svg import for_screen

PARTS = (
    ("Odd balls", 0.7),
    ("Strike", -4.8),
    ("Swing", -1.6),
    ("Warm-up", -0.7),
    ("Club", 5.1),
    ("Left over", 0.1),
)
BAR = re.compile(r'<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" [^>]*?fill="([^"]+)"')


def bars(svg: str) -> list[tuple[float, float, str]]:
    return [(float(x), float(x) + float(width), fill) for x, _, width, fill in BAR.findall(svg)]


def test_each_step_begins_where_the_last_ended() -> None:
    found = bars(stepped_bar(PARTS, a="Birch", b="Ash", unit="yd"))
    assert len(found) == len(PARTS) + 1
    at = found[0][0]
    for (_, size), (left, right, _) in zip(PARTS, found, strict=False):
        start, end = (left, right) if size > 0.0 else (right, left)
        assert start == pytest.approx(at, abs=0.3)
        at = end
    zero = found[0][0]
    left, right, _ = found[-1]
    assert right == pytest.approx(zero, abs=0.3)
    assert left == pytest.approx(at, abs=0.3)


def test_the_figures_add_up_as_shown() -> None:
    svg = stepped_bar(PARTS, a="Birch", b="Ash", unit="yd")
    told = [
        float(one.replace("−", "-").replace("+", ""))
        for one in re.findall(r'<text class="b[^"]*" font-weight="600"[^>]*>([+−]?[\d.]+)<', svg)
    ]
    assert len(told) == len(PARTS) + 1
    assert sum(told[:-1]) == pytest.approx(told[-1])


def test_only_the_clubs_part_is_in_the_accent() -> None:
    fills = [fill for _, _, fill in bars(stepped_bar(PARTS, a="Birch", b="Ash", unit="yd"))]
    assert fills.count("#2e3a8c") == 1
    assert fills[4] == "#2e3a8c"
    assert len(set(fills)) == 3


def test_the_sides_are_named_for_the_clubs() -> None:
    svg = stepped_bar(PARTS, a="Birch", b="Ash", unit="yd")
    assert "for Birch →" in svg
    assert "← for Ash" in svg


def test_it_is_drawn_in_the_theme_of_the_screen() -> None:
    svg = for_screen(stepped_bar(PARTS, a="Birch", b="Ash", unit="m"))
    assert "style=" not in svg
    assert "#" not in svg


def test_parts_of_nothing_are_drawn_too() -> None:
    svg = stepped_bar((("Club", 0.0), ("Left over", 0.0)), a="Ash", b="Own", unit="yd")
    assert svg.count(">0.0<") == 3

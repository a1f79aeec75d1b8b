"""The picture of how far parts stand from the tested ones."""

import re

import pytest

from loftwright.report.apart_picture import ApartRow, apart_picture
from loftwright.report.theme_svg import for_screen


def drawn(apart: float, doubt: float = 0.7) -> str:
    row = ApartRow(name="Head, loft", apart=apart, doubt=doubt, says="1.0° strong")
    return apart_picture([row], title="Apart")


def marks(svg: str) -> list[float]:
    return [float(one) for one in re.findall(r'<circle cx="([\d.]+)"', svg)]


def test_a_mark_stands_by_its_tolerances() -> None:
    left, middle, right = (marks(drawn(apart))[0] for apart in (-1.0, 0.0, 1.0))
    assert right - middle == pytest.approx(middle - left, abs=0.2)
    band = re.search(r'<rect x="([\d.]+)"[^>]* width="([\d.]+)"', drawn(0.0))
    assert band is not None
    assert float(band[1]) == pytest.approx(left, abs=0.2)
    assert float(band[2]) == pytest.approx(right - left, abs=0.2)


def test_what_lies_beyond_the_rule_points_outwards_without_a_mark() -> None:
    assert marks(drawn(9.0)) == []
    assert marks(drawn(-9.0)) == []
    assert marks(drawn(3.0)) != []


def test_the_picture_says_names_and_differences() -> None:
    svg = drawn(-2.0)
    for word in ("Head, loft", "1.0° strong", "allowed", "as tested"):
        assert f">{word}</text>" in svg


def test_it_takes_the_colours_of_its_page() -> None:
    assert "#" not in re.sub(r"url\(#[^)]*\)|id=\"[^\"]*\"", "", for_screen(drawn(0.0)))

"""The picture of a bag: a rule for each quantity, what is not known left out."""

import re
from xml.etree import ElementTree as ET

import pytest

from loftwright.domain.bag import Known
from loftwright.report.bag_picture import Drawn, DrawnClub, bag_picture
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen

SVG = "{http://www.w3.org/2000/svg}"


def a_club(number: int, **more: object) -> DrawnClub:
    figures = {
        Known.LENGTH: Drawn(value=1.0 - 0.0127 * number, half_width=0.00127),
        Known.SWINGWEIGHT: Drawn(value=32.0, half_width=0.5),
    }
    fields: dict[str, object] = {"name": f"{number} iron", "figures": figures, "row": "irons"}
    return DrawnClub(**(fields | more))  # type: ignore[arg-type]


def drawn(clubs: list[DrawnClub], show: Show | None = None) -> ET.Element:
    svg = for_screen(bag_picture(clubs, show=show or Show()))
    return ET.fromstring(svg)  # noqa: S314 - our own drawing


def texts(svg: ET.Element) -> list[str]:
    return [one.text or "" for one in svg.iter(f"{SVG}text")]


def test_every_known_figure_has_a_dot_and_nothing_else_has() -> None:
    svg = drawn([a_club(number) for number in range(4, 10)])
    assert len(list(svg.iter(f"{SVG}circle"))) == 6 * 2
    assert texts(svg).count("measured of no club yet") == 2


def test_a_club_of_which_nothing_is_known_keeps_its_place() -> None:
    svg = drawn([a_club(4), a_club(5, figures={}), a_club(6)])
    assert len(list(svg.iter(f"{SVG}circle"))) == 4
    assert "5 iron" in texts(svg)


def test_a_club_that_stands_out_has_a_ring_and_its_figure() -> None:
    plain = drawn([a_club(4), a_club(5), a_club(6)])
    ringed = drawn([a_club(4), a_club(5, out={Known.SWINGWEIGHT: 3.0}), a_club(6)])
    assert len(list(ringed.iter(f"{SVG}circle"))) == len(list(plain.iter(f"{SVG}circle"))) + 1
    assert "+3.0" in texts(ringed)


def test_the_even_run_is_drawn_row_by_row() -> None:
    line = {Known.SWINGWEIGHT: 32.0}
    clubs = [a_club(4, line=line), a_club(5, line=line), a_club(6, line=line, row="wedges")]
    (dashed,) = (
        one.get("d", "") for one in drawn(clubs).iter(f"{SVG}path") if one.get("stroke-dasharray")
    )
    assert (dashed.count("M"), dashed.count("L")) == (2, 1)


def test_a_reading_of_another_set_up_is_hollow() -> None:
    other = {Known.FREQUENCY: Drawn(value=4.2, half_width=0.03, hollow=True)}
    svg = drawn([a_club(4), a_club(5, figures=other)])
    fills = [one.get("fill") for one in svg.iter(f"{SVG}circle")]
    assert fills.count("var(--paper)") == 1


def test_rules_are_graduated_in_the_shop_s_units() -> None:
    clubs = [a_club(number) for number in range(4, 10)]
    trade, metric = texts(drawn(clubs)), texts(drawn(clubs, Show(units="metric", decimal="comma")))
    assert "Length, in" in trade
    assert "Length, mm" in metric
    assert any(re.fullmatch(r"D\d", one) for one in trade)
    assert not any("." in one for one in metric)


@pytest.mark.parametrize("number", [0, 1, 6, 7, 14])
def test_any_number_of_clubs_is_drawn_inside_the_picture(number: int) -> None:
    svg = drawn([a_club(one) for one in range(number)])
    wide, tall = float(svg.get("width", "0")), float(svg.get("height", "0"))
    for one in (*svg.iter(f"{SVG}circle"), *svg.iter(f"{SVG}text")):
        x, y = (float(one.get(name, one.get(f"c{name}", "nan"))) for name in ("x", "y"))
        assert 0.0 <= x <= wide
        assert 0.0 <= y <= tall
    assert sum(text in {"Length, in", "Swingweight"} for text in texts(svg)) == 2

"""Both figures of every club with their ranges."""

import re

import pytest

from loftwright.report.club_ranges import RangeClub, RangeColumn, club_ranges
from loftwright.report.graduated import RangeRow
from loftwright.report.marks import deal_marks
from loftwright.report.theme_svg import for_screen

CLUBS = ("Birch", "Ash")
MARKS = deal_marks(["Own", *CLUBS], "Own")


def row(club: str, mean: float, *, dashed: bool = False) -> RangeRow:
    return RangeRow(
        club=club,
        label=club,
        mean=mean,
        half=(mean - 1.0, mean + 1.0),
        most=(mean - 3.0, mean + 3.0),
        dashed=dashed,
    )


def drawn(rows: dict[str, RangeRow], *, columns: int = 1, why: str = "") -> str:
    made = [
        RangeColumn(heading=f"Figure {index}", under="ranked on this", rows=rows)
        for index in range(columns)
    ]
    clubs = [RangeClub(club=club, balls=8, why_none=why) for club in CLUBS]
    return club_ranges(clubs, made, MARKS, unit="yd", zero="Own", zero_is_own=True)


def test_every_club_bears_its_figure_and_its_balls() -> None:
    svg = drawn({"Birch": row("Birch", 5.4), "Ash": row("Ash", -0.6)})
    assert ">+5.4<" in svg
    assert ">−0.6<" in svg
    assert svg.count(">8 balls<") == 2
    assert "<circle" in svg
    assert "Own" in svg


def test_both_figures_stand_on_one_scale() -> None:
    svg = drawn({"Birch": row("Birch", 5.4)}, columns=2)
    marks = [float(x) for x in re.findall(r'<text class="b m"[^>]* x="([\d.]+)"', svg)]
    zeros = [float(x) for x in re.findall(r'd="M([\d.]+) 62.0V', svg)]
    assert len(marks) == len(zeros) == 2
    assert marks[1] - marks[0] == pytest.approx(zeros[1] - zeros[0], abs=0.2)


def test_a_club_without_a_figure_says_why() -> None:
    svg = drawn({"Birch": row("Birch", 5.4)}, why="would not play it")
    assert "would not play it" in svg


def test_too_few_balls_are_a_dash_without_a_marker() -> None:
    svg = drawn({"Birch": row("Birch", 5.4, dashed=True)})
    assert "stroke-dasharray" in svg
    assert ">+5.4<" not in svg


def test_it_is_drawn_in_the_theme_of_the_screen_without_inline_style() -> None:
    svg = for_screen(drawn({"Birch": row("Birch", 40.0), "Ash": row("Ash", -25.0)}, columns=2))
    assert "#" not in re.sub(r"url\(#[^)]*\)", "", svg)
    assert "style=" not in svg


def test_nothing_is_drawn_beyond_the_picture() -> None:
    svg = drawn({"Birch": row("Birch", 80.0), "Ash": row("Ash", -75.0)}, columns=2)
    for x in re.findall(r'[ "M](\d+\.\d) ', svg):
        assert 0.0 <= float(x) <= 880.0


def test_nothing_to_draw_is_a_bare_rule() -> None:
    svg = club_ranges((), (), MARKS, unit="yd", zero="Own", zero_is_own=True)
    assert svg.startswith("<svg")

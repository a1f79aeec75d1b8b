import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from math import exp

import pytest

from loftwright.constants import YARD
from loftwright.domain.home import Hole, Home, Lie, Trouble
from loftwright.evidence.result import Decision, Level, Pattern
from loftwright.report.marks import deal_marks
from loftwright.report.pictures import TWO_OF_THREE, Drive, finish_strip, typical_hole
from loftwright.report.screen_numbers import Show

PATTERN = Pattern(total=8.5 * YARD, offline=14.5 * YARD)
MARKS = deal_marks(["Own", "Birch"], "Own")


@pytest.fixture(scope="module")
def level(make_decision: Callable[..., Decision]) -> Level:
    found = make_decision().clubs[0].level
    assert found is not None
    return found


def drive(level: Level, club: str, total: float, offline: float) -> Drive:
    there = replace(level, total=total * YARD, offline=offline * YARD)
    return Drive(club=club, label=club, mark=MARKS[club], level=there)


def tagged(svg: str, name: str) -> list[dict[str, str]]:
    """Return the attributes of every element of a kind, in their order."""
    found = re.findall(rf"<{name} ([^>]*)>", svg)
    return [dict(re.findall(r'([\w-]+)="([^"]*)"', attributes)) for attributes in found]


def fairway(svg: str) -> tuple[float, float]:
    """Return the top and the height of the fairway in a drawing."""
    ground = [rect for rect in tagged(svg, "rect") if rect.get("fill") == "#f2f4f1"]
    return float(ground[0]["y"]), float(ground[0]["height"])


def test_the_outline_holds_two_of_three_balls() -> None:
    assert 1.0 - exp(-0.5 * TWO_OF_THREE**2) == pytest.approx(2.0 / 3.0)


def test_one_outline_is_slid_to_every_club(level: Level) -> None:
    drives = [drive(level, "Own", 228.0, 9.0), drive(level, "Birch", 233.0, 1.0)]
    ellipses = tagged(finish_strip(Home(), drives, PATTERN).svg, "ellipse")
    assert len(ellipses) == 2
    assert {(found["rx"], found["ry"]) for found in ellipses} == {
        (ellipses[0]["rx"], ellipses[0]["ry"])
    }
    assert "stroke-dasharray" in ellipses[0]
    assert "stroke-dasharray" not in ellipses[1]


def test_fairway_outline_and_finish_are_to_one_scale(level: Level) -> None:
    drives = [drive(level, "Own", 228.0, 9.0), drive(level, "Birch", 233.0, 1.0)]
    strip = finish_strip(Home(), drives, PATTERN)
    own, birch = tagged(strip.svg, "ellipse")
    along = (float(birch["cx"]) - float(own["cx"])) / 5.0
    across = (float(own["cy"]) - float(birch["cy"])) / 8.0
    _, height = fairway(strip.svg)
    assert height / 32.0 == pytest.approx(across, rel=0.01)
    assert float(own["rx"]) == pytest.approx(TWO_OF_THREE * 8.5 * along, rel=0.02)
    assert float(own["ry"]) == pytest.approx(TWO_OF_THREE * 14.5 * across, rel=0.02)
    shares = {"half the": 2, "a third of the": 3, "a quarter of the": 4, "a fifth of the": 5}
    told = {"half": 2.0, **{words: float(share) for words, share in shares.items()}}
    assert along / across == pytest.approx(told[strip.scale], rel=0.02)


def test_right_of_the_target_is_down(level: Level) -> None:
    drives = [drive(level, "Own", 228.0, -9.0), drive(level, "Birch", 228.0, 9.0)]
    left, right = tagged(finish_strip(Home(), drives, PATTERN).svg, "ellipse")
    assert float(left["cy"]) < float(right["cy"])


def test_every_outline_stays_in_the_strip(level: Level) -> None:
    drives = [drive(level, "Own", 260.0, -45.0), drive(level, "Birch", 212.0, 30.0)]
    strip = finish_strip(Home(), drives, PATTERN, height=150.0)
    for found in tagged(strip.svg, "ellipse"):
        assert float(found["cy"]) - float(found["ry"]) >= 0.0
        assert float(found["cy"]) + float(found["ry"]) <= 150.0
        assert float(found["cx"]) - float(found["rx"]) >= 0.0
        assert float(found["cx"]) + float(found["rx"]) <= 660.0


def trees(svg: str) -> list[float]:
    """Return the heights at which crowns of trees begin, the fairway's own lines left out."""
    crowns = re.findall(r'<path d="M[\d.-]+ ([\d.-]+)Q[^"]*" fill="none" stroke="#78848a"', svg)
    return [float(y) for y in crowns]


@pytest.mark.parametrize("side", [Trouble.LEFT, Trouble.RIGHT])
def test_trees_stand_on_the_side_of_the_trouble_alone(level: Level, side: Trouble) -> None:
    hole = Hole(trouble=side, trouble_from=26.0 * YARD)
    drives = [drive(level, "Own", 228.0, 0.0)]
    strip = finish_strip(Home(holes=(hole,)), drives, PATTERN)
    top, height = fairway(strip.svg)
    found = trees(strip.svg)
    assert len(found) > 10
    if side is Trouble.LEFT:
        assert max(found) < top
    else:
        assert min(found) > top + height


def test_a_hole_without_trouble_has_no_trees(level: Level) -> None:
    assert trees(finish_strip(Home(), [drive(level, "Own", 228.0, 0.0)], PATTERN).svg) == []


def test_sand_is_stippled_where_trees_are_hatched(level: Level) -> None:
    drawn = {}
    for lie in (Lie.SAND, Lie.RECOVERY):
        hole = Hole(trouble=Trouble.RIGHT, trouble_from=26.0 * YARD, trouble_lie=lie)
        home = Home(holes=(hole,))
        drawn[lie] = finish_strip(home, [drive(level, "Own", 228.0, 0.0)], PATTERN).svg
    assert "h0.01" in drawn[Lie.SAND]
    assert "h0.01" not in drawn[Lie.RECOVERY]
    assert len(trees(drawn[Lie.SAND])) < len(trees(drawn[Lie.RECOVERY]))


def test_the_hole_drawn_is_of_usual_width_with_trouble_where_there_is_any() -> None:
    holes = (
        Hole(fairway=24.0 * YARD),
        Hole(fairway=31.0 * YARD),
        Hole(fairway=30.0 * YARD, trouble=Trouble.LEFT),
        Hole(fairway=45.0 * YARD, trouble=Trouble.RIGHT),
    )
    assert typical_hole(Home(holes=holes)) == (3, holes[2])
    assert typical_hole(Home(holes=holes[:2])) == (1, holes[0])
    assert typical_hole(Home()) == (1, Hole())


@pytest.mark.parametrize("spread", [4.0, 8.5, 40.0, 90.0])
def test_numerals_of_the_rule_stand_apart(level: Level, spread: float) -> None:
    wide = Pattern(total=spread * YARD, offline=14.5 * YARD)
    svg = finish_strip(Home(), [drive(level, "Own", 228.0, 0.0)], wide).svg
    numerals = [text for text in tagged(svg, "text") if text["text-anchor"] == "middle"]
    places = sorted(float(text["x"]) for text in numerals)
    assert len(places) >= 4
    assert min(after - before for before, after in pairwise(places)) > 38.0


def test_names_from_a_file_are_text_and_never_markup(level: Level) -> None:
    odd = replace(drive(level, "Own", 228.0, 0.0), label="<b>&Co")
    svg = finish_strip(Home(), [odd], PATTERN).svg
    assert "&lt;b&gt;&amp;Co, 228" in svg
    assert "<b>" not in svg


def test_a_drawing_names_its_colours_and_its_family_outright(level: Level) -> None:
    svg = finish_strip(Home(), [drive(level, "Own", 228.0, 0.0)], PATTERN).svg
    assert "var(" not in svg
    assert "sans-serif" not in svg
    families = {text["font-family"] for text in tagged(svg, "text")}
    assert families == {"'Source Sans 3'"}


def test_the_same_drawing_is_the_same_to_the_letter(level: Level) -> None:
    drives = [drive(level, "Own", 228.0, 9.0), drive(level, "Birch", 233.0, 1.0)]
    home = Home(holes=(Hole(trouble=Trouble.BOTH),))
    assert finish_strip(home, drives, PATTERN) == finish_strip(home, drives, PATTERN)


@pytest.mark.parametrize("show", [Show(), Show(units="metric")])
@pytest.mark.parametrize(
    "offline", [-22.0, -17.0, -16.0, -14.0, 0.0, 13.0, 15.0, 16.0, 18.0, 24.0]
)
def test_no_club_s_name_stands_on_an_edge_of_the_fairway(
    level: Level, offline: float, show: Show
) -> None:
    svg = finish_strip(Home(), [drive(level, "Own", 228.0, offline)], PATTERN, show=show).svg
    top, height = fairway(svg)
    foot = next(float(one) for one in re.findall(r'<text [^>]* y="([\d.]+)"[^>]*>Own, 2', svg))
    for edge in (top, top + height):
        assert not foot - 12.0 < edge < foot + 4.0

import re
from collections.abc import Callable

import pytest

from loftwright.constants import MILLIMETRE
from loftwright.domain.golfer import Hand
from loftwright.report.face_picture import FaceMark
from loftwright.report.marks import deal_marks
from loftwright.report.pictures import TWO_OF_THREE
from loftwright.report.strike_pattern import WIDTH, strike_pattern, strike_pattern_words

CLUBS = deal_marks(["Own", "Ash", "Birch", "Cedar", "Elm", "Fir"], "Own")
PATTERN = (9.0 * MILLIMETRE, 7.0 * MILLIMETRE)


def mark(club: str, toe_mm: float, high_mm: float, *, waiting: bool = False) -> FaceMark:
    return FaceMark(
        club=club,
        shape=CLUBS[club],
        toe=toe_mm * MILLIMETRE,
        high=high_mm * MILLIMETRE,
        waiting=waiting,
    )


MARKS = [
    mark("Own", -2.0, 0.0),
    mark("Own", 6.0, 4.0),
    mark("Birch", 10.0, 2.0),
    mark("Birch", 12.0, 4.0),
    mark("Ash", 1.0, 1.0),
    mark("Cedar", 3.0, 3.0, waiting=True),
]


def ellipses(svg: str) -> list[dict[str, float]]:
    found = re.findall(r"<ellipse ([^>]*)>", svg)
    return [
        {name: float(text) for name, text in re.findall(r'\b([cr][xy])="([\d.]+)"', one)}
        for one in found
    ]


def test_every_club_has_a_face_and_its_count() -> None:
    svg = strike_pattern(CLUBS, MARKS, PATTERN)
    assert svg.count('class="face"') == len(CLUBS)
    counts = re.findall(r">(no mark|\d+ marks?)</text>", svg)
    assert counts == ["2 marks", "1 mark", "2 marks", "no mark", "no mark", "no mark"]


def test_one_outline_is_slid_to_every_club_of_two_marks_or_more() -> None:
    found = ellipses(strike_pattern(CLUBS, MARKS, PATTERN))
    assert len(found) == 2
    assert {(one["rx"], one["ry"]) for one in found} == {(found[0]["rx"], found[0]["ry"])}
    assert found[0]["rx"] == pytest.approx(TWO_OF_THREE * 9.0 / 0.5, abs=0.06)
    assert found[0]["ry"] == pytest.approx(TWO_OF_THREE * 7.0 / 0.5, abs=0.06)


def test_the_outline_stands_around_the_middle_of_the_clubs_marks() -> None:
    found = ellipses(strike_pattern(CLUBS, MARKS, PATTERN))
    own, birch = found
    assert (own["cx"], own["cy"]) == pytest.approx((110.0 - 4.0, 84.0 - 4.0))
    assert (birch["cx"], birch["cy"]) == pytest.approx((550.0 - 22.0, 84.0 - 6.0))


def test_a_left_handers_toe_is_on_the_right() -> None:
    svg = strike_pattern(CLUBS, MARKS, PATTERN, hand=Hand.LEFT)
    assert ellipses(svg)[0]["cx"] == pytest.approx(110.0 + 4.0)
    toe = re.search(r'x="([\d.]+)"[^>]*>toe</text>', svg)
    assert toe is not None
    assert float(toe.group(1)) > 110.0


def test_without_a_shared_scatter_no_outline_is_drawn() -> None:
    svg = strike_pattern(CLUBS, MARKS, None)
    assert ellipses(svg) == []
    assert "dashed" not in svg


@pytest.mark.parametrize("clubs", [1, 3, 6])
def test_words_stand_apart_and_inside(
    clubs: int, misplaced: Callable[[str], list[str]], on_screen: Callable[[str], str]
) -> None:
    some = dict(list(CLUBS.items())[:clubs])
    svg = strike_pattern(some, MARKS, PATTERN)
    assert misplaced(svg) == []
    assert f'width="{WIDTH:.0f}"' in on_screen(svg)


def test_a_long_name_is_cut(misplaced: Callable[[str], list[str]]) -> None:
    long = {"The one from the back of the cupboard": CLUBS["Ash"]}
    svg = strike_pattern(long, [], PATTERN)
    assert misplaced(svg) == []
    assert "…" in svg


def test_the_twin_says_counts_middles_and_the_shared_outline() -> None:
    told = strike_pattern_words(CLUBS, MARKS, PATTERN)
    assert "Own 2 marks, on average 2 mm toe, 2 mm high" in told
    assert "Fir no mark" in told
    assert "two of three strikes of any club lie in an outline 27 mm wide and 21 mm high" in told
    assert "outline" not in strike_pattern_words(CLUBS, MARKS, None)

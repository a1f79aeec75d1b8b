"""The sets of a plan along a rule of minutes."""

import re

from loftwright.report.marks import deal_marks
from loftwright.report.plan_strip import StripSet, plan_strip
from loftwright.report.theme_svg import for_screen

MARKS = deal_marks(["Own", "Ash", "Birch"], "Own")


def some_sets(names: list[str]) -> list[StripSet]:
    return [
        StripSet(
            club=name,
            mark=MARKS[name],
            balls=3,
            start=23.0 + 3.0 * place,
            end=26.0 + 3.0 * place,
        )
        for place, name in enumerate(names)
    ]


def test_every_set_stands_in_its_order() -> None:
    svg = plan_strip(some_sets(["Own", "Birch", "Ash"]), before=23.0, whole=42.0)
    assert re.findall(r"<title>(\w+), 3 balls</title>", svg) == ["Own", "Birch", "Ash"]
    assert "3 sets, 9 balls, 42 minutes, in shuffled order" in svg


def test_what_comes_before_the_first_ball_is_named() -> None:
    svg = plan_strip(some_sets(["Own", "Ash"]), before=23.0, whole=39.0)
    assert "talk, warm-up, own club" in svg
    assert "warm-up" not in plan_strip(some_sets(["Own", "Ash"]), before=0.0, whole=39.0)


def test_a_bare_plan_is_a_bare_rule() -> None:
    assert "0 sets, 0 balls" in for_screen(plan_strip([], before=0.0, whole=0.0))


def test_crowded_sets_leave_their_numbers_out() -> None:
    crowded = [
        StripSet(club="Ash", mark=MARKS["Ash"], balls=3, start=one / 2.0, end=(one + 1) / 2.0)
        for one in range(200)
    ]
    assert ">3</text>" not in plan_strip(crowded, before=0.0, whole=100.0)

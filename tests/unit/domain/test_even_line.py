"""The line of least squares and how far a point lies from that of the others."""

from math import inf

import pytest

from loftwright.domain.even_line import Point, farthest, line_through
from loftwright.errors import InputError


def points(*pairs: tuple[float, float], error: float = 1.0, along: float = 0.0) -> list[Point]:
    return [
        Point(name=f"{at}", along=x, along_error=along, value=y, error=error)
        for at, (x, y) in enumerate(pairs)
    ]


def test_a_line_goes_through_what_lies_on_one() -> None:
    line = line_through(points((0.0, 1.0), (1.0, 3.0), (3.0, 7.0)))
    assert line.slope == pytest.approx(2.0)
    assert line.at(2.0) == pytest.approx(5.0)
    assert farthest(points((0.0, 1.0), (1.0, 3.0), (3.0, 7.0)), line) == pytest.approx(0.0)


def test_the_farthest_is_counted_from_the_line_of_the_others() -> None:
    """Of 0, 0, 0 and 4 at 0 to 3 the last lies 4 from the level of the rest.

    The rest's line at 3 has a variance of 1/3 + 2^2/2, so that 4 is 4/sqrt(1 + 7/3) (by hand).
    """
    there = points((0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (3.0, 4.0))
    assert farthest(there, line_through(there)) == pytest.approx(4.0 / (1.0 + 7.0 / 3.0) ** 0.5)
    rest = line_through(there[:3])
    assert rest.error_beside(there[3]) == pytest.approx((1.0 + 7.0 / 3.0) ** 0.5)


def test_a_line_through_two_points_says_nothing_of_either() -> None:
    there = points((0.0, 0.0), (1.0, 9.0))
    assert farthest(there, line_through(there)) == 0.0


def test_points_in_one_place_have_a_level_line() -> None:
    there = points((1.0, 0.0), (1.01, 0.0), (1.02, 3.0), along=0.02)
    line = line_through(there)
    assert (line.freedoms, line.slope, line.spread) == (1, 0.0, inf)
    assert line.level == pytest.approx(1.0)
    # 3 from the mean of two: root of 1 + 1/2 (by hand).
    assert farthest(there, line) == pytest.approx(3.0 / 1.5**0.5)


def test_a_surer_point_pulls_more() -> None:
    sure = Point(name="a", along=0.0, along_error=0.1, value=0.0, error=0.1)
    unsure = Point(name="b", along=0.0, along_error=0.1, value=1.0, error=1.0)
    assert line_through([sure, unsure]).level == pytest.approx(1.0 / 101.0)


def test_an_error_along_a_steep_line_counts_across_it() -> None:
    steep = points((0.0, 0.0), (1.0, 10.0), (2.0, 20.0), along=0.2)
    line = line_through(steep)
    assert line.error_of(steep[0]) == pytest.approx((1.0 + (10.0 * 0.2) ** 2) ** 0.5)


def test_nothing_has_no_line() -> None:
    with pytest.raises(InputError):
        line_through([])

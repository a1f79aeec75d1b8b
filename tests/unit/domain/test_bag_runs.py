"""Which club stands out of an even run, and that nothing is said beyond the doubts."""

from dataclasses import replace

import pytest

from bags import a_bag, an_iron, irons
from loftwright.constants import DEGREE, INCH
from loftwright.domain.bag import BagClub, BagKind, Known, Timed
from loftwright.domain.bag_runs import Row, Run, row_of, runs
from loftwright.physics.build.swingweight import (
    D0_MOMENT,
    FULCRUM,
    USUAL_SCALE,
    SwingweightScale,
)

NUMBERS = range(4, 10)


def of(clubs: tuple[BagClub, ...] | list[BagClub], known: Known) -> Run:
    (found,) = [one for one in runs(clubs, USUAL_SCALE) if one.known is known]
    return found


def test_an_even_set_is_even_in_everything() -> None:
    found = runs(irons(), USUAL_SCALE)
    assert {run.known for run in found} == {
        Known.LENGTH,
        Known.SWINGWEIGHT,
        Known.INERTIA,
        Known.FREQUENCY,
    }
    assert all(run.even and not run.out and not run.either for run in found)


@pytest.mark.parametrize("number", NUMBERS)
def test_a_club_three_points_too_heavy_is_the_one_that_stands_out(number: int) -> None:
    clubs = [an_iron(one, points=3.0 if one == number else 0.0) for one in NUMBERS]
    run = of(clubs, Known.SWINGWEIGHT)
    (out,) = run.out
    assert out.name == f"{number} iron"
    assert out.apart == pytest.approx(3.0)
    assert 0.5 < out.half_width < 1.0
    assert not run.even
    assert of(clubs, Known.INERTIA).even


@pytest.mark.parametrize(
    ("changes", "known"),
    [
        ({"longer": -0.5}, Known.LENGTH),
        ({"inertia": 90.0}, Known.INERTIA),
        ({"cycles": -12.0}, Known.FREQUENCY),
    ],
)
def test_each_quantity_has_its_own_run(changes: dict[str, float], known: Known) -> None:
    clubs = [an_iron(one, **(changes if one == 6 else {})) for one in NUMBERS]
    assert [one.name for one in of(clubs, known).out] == ["6 iron"]


def test_what_is_smaller_than_its_doubt_is_not_said() -> None:
    clubs = [an_iron(one, points=0.4 if one == 7 else 0.0) for one in NUMBERS]
    assert of(clubs, Known.SWINGWEIGHT).even


def test_two_clubs_that_are_off_are_both_named_the_farther_first() -> None:
    points = {5: 3.0, 8: -4.0}
    clubs = [an_iron(one, points=points.get(one, 0.0)) for one in NUMBERS]
    run = of(clubs, Known.SWINGWEIGHT)
    assert [one.name for one in run.out] == ["8 iron", "5 iron"]


def test_where_one_of_two_would_mend_the_run_neither_is_blamed() -> None:
    """A step between two clubs and two: without the second or the third a line is left."""
    clubs = [an_iron(one, points=0.0 if one < 6 else 2.6) for one in range(4, 8)]
    run = of(clubs, Known.SWINGWEIGHT)
    assert not run.out
    assert not run.even
    assert {one.name for one in run.either} == {"5 iron", "6 iron"}


def test_a_set_that_jumps_up_and_down_makes_no_even_run() -> None:
    clubs = [an_iron(one, points=4.0 * (one % 2)) for one in NUMBERS]
    run = of(clubs, Known.SWINGWEIGHT)
    assert not run.even
    assert run.out == ()
    assert run.either == ()


def test_three_clubs_may_be_uneven_and_none_of_them_is_blamed() -> None:
    clubs = [an_iron(one, points=4.0 if one == 5 else 0.0) for one in (4, 5, 6)]
    run = of(clubs, Known.SWINGWEIGHT)
    assert not run.even
    assert (run.out, run.either) == ((), ())


def test_of_three_clubs_of_one_length_the_odd_one_is_named() -> None:
    length = 37.5 * INCH
    clubs = [
        replace(an_iron(one, points=4.0 if one == 5 else 0.0), length=length) for one in (4, 5, 6)
    ]
    assert [one.name for one in of(clubs, Known.SWINGWEIGHT).out] == ["5 iron"]


def test_two_clubs_are_no_run() -> None:
    assert runs(irons()[:2], USUAL_SCALE) == ()


def test_frequencies_are_compared_in_the_set_up_that_most_share() -> None:
    odd = Timed(frequency=5.5, clamp=0.15)
    clubs = [replace(one, timed=odd) if one.name == "7 iron" else one for one in irons()]
    assert "7 iron" not in of(clubs, Known.FREQUENCY).names
    assert of(clubs, Known.FREQUENCY).even


def worked_out(club: BagClub, index: float) -> BagClub:
    """Return a club whose swingweight nobody read, but whose weight and balance give it."""
    moment = USUAL_SCALE.moment(index)
    return replace(club, swingweight=None, mass=0.42, balance=moment / 0.42 + FULCRUM)


def test_what_was_worked_out_on_a_strange_scale_is_not_held_against_what_was_read() -> None:
    """A scale 3 points off the usual one would else make an even club stand out."""
    clubs = [worked_out(one, 35.0) if one.name == "7 iron" else one for one in irons()]
    run = of(clubs, Known.SWINGWEIGHT)
    assert run.even
    assert "7 iron" not in run.names


def test_on_the_shop_s_own_scale_both_are_compared() -> None:
    own = SwingweightScale(d0_moment=D0_MOMENT, calibrated=True)
    clubs = [worked_out(one, 35.0) if one.name == "7 iron" else one for one in irons()]
    (run,) = [one for one in runs(clubs, own) if one.known is Known.SWINGWEIGHT]
    assert [one.name for one in run.out] == ["7 iron"]


def test_a_driver_and_a_putter_belong_to_no_row() -> None:
    rows = {one.name: row_of(one) for one in a_bag().clubs}
    assert rows["Driver"] is None
    assert rows["Putter"] is None
    assert rows["4 wood"] is Row.FAIRWAY_WOODS
    assert rows["56 wedge"] is Row.WEDGES


@pytest.mark.parametrize(
    ("loft", "length", "driver"),
    [
        (10.5 * DEGREE, None, True),
        (13.0 * DEGREE, 43.0 * INCH, True),
        (13.5 * DEGREE, 45.0 * INCH, False),
        (15.0 * DEGREE, 43.25 * INCH, False),
        (None, 45.0 * INCH, True),
        (None, 44.0 * INCH, False),
        (None, None, False),
    ],
)
def test_a_driver_is_told_by_what_is_known(
    loft: float | None, length: float | None, driver: bool
) -> None:
    club = BagClub(name="Wood", kind=BagKind.WOOD, loft=loft, length=length)
    assert (row_of(club) is None) == driver


def test_a_club_without_a_length_is_in_no_run_of_swingweight() -> None:
    clubs = [replace(one, length=None) if one.name == "7 iron" else one for one in irons()]
    assert "7 iron" not in of(clubs, Known.SWINGWEIGHT).names

"""What holds of every bag: order, shifts, doubts, and how often an even bag is called uneven."""

from dataclasses import replace
from math import log
from typing import Final

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bags import IRON_LOFTS, an_iron, irons
from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.bag import Bag, BagClub, Known, Timed
from loftwright.domain.bag_figures import steps
from loftwright.domain.bag_runs import Run, runs
from loftwright.domain.bench_doubts import USUAL_DOUBTS
from loftwright.domain.even_line import Point, farthest, line_through
from loftwright.physics.build.swingweight import USUAL_SCALE

BAGS: Final = 400
offsets = st.lists(st.floats(-6.0, 6.0), min_size=6, max_size=6)


def a_set(points: list[float]) -> tuple[BagClub, ...]:
    return tuple(an_iron(4 + at, points=off) for at, off in enumerate(points))


def of_swingweight(clubs: tuple[BagClub, ...] | list[BagClub]) -> Run:
    (found,) = [one for one in runs(clubs, USUAL_SCALE) if one.known is Known.SWINGWEIGHT]
    return found


@given(st.permutations(list(irons())))
def test_the_order_in_which_clubs_were_typed_does_not_matter(clubs: list[BagClub]) -> None:
    assert Bag(clubs=tuple(clubs)).in_play == irons()


@settings(max_examples=60)
@given(offsets, st.floats(-8.0, 8.0))
def test_points_that_all_clubs_share_single_out_none(points: list[float], shift: float) -> None:
    one, other = (of_swingweight(a_set([off + by for off in points])) for by in (0.0, shift))
    assert one.even == other.even
    assert [out.name for out in one.out] == [out.name for out in other.out]
    for before, after in zip(one.out, other.out, strict=True):
        assert after.apart == pytest.approx(before.apart, abs=1e-9)


@settings(max_examples=60)
@given(offsets)
def test_only_what_lies_beyond_its_doubt_is_named(points: list[float]) -> None:
    run = of_swingweight(a_set(points))
    for one in run.out:
        assert abs(one.apart) > one.half_width
    assert sum((run.even, bool(run.out), bool(run.either))) <= 1


@settings(max_examples=60)
@given(offsets)
def test_what_stands_out_brought_to_its_line_leaves_an_even_run(points: list[float]) -> None:
    clubs = a_set(points)
    run = of_swingweight(clubs)
    assume(run.out)
    by = {one.name: one.apart for one in run.out}
    mended = [
        replace(one, swingweight=(one.swingweight or 0.0) - by.get(one.name, 0.0)) for one in clubs
    ]
    assert of_swingweight(mended).even


@settings(max_examples=60)
@given(offsets, st.floats(1.0, 6.0))
def test_a_wider_doubt_never_makes_an_even_run_uneven(points: list[float], times: float) -> None:
    clubs = a_set(points)
    doubt = {Known.SWINGWEIGHT: times * USUAL_DOUBTS.swingweight}
    if of_swingweight(clubs).even:
        assert of_swingweight([replace(one, doubts=doubt) for one in clubs]).even


@settings(max_examples=60)
@given(offsets)
def test_steps_add_up_from_the_first_club_to_the_last(points: list[float]) -> None:
    clubs = a_set(points)
    found = steps(clubs, USUAL_SCALE)
    for known in (Known.LENGTH, Known.SWINGWEIGHT, Known.INERTIA, Known.FREQUENCY):
        first, last = clubs[0].value(known), clubs[-1].value(known)
        assert first is not None
        assert last is not None
        total = sum(one.apart[known].value for one in found)
        assert total == pytest.approx(last - first, abs=1e-9)


@given(
    st.lists(
        st.tuples(st.floats(-5.0, 5.0), st.floats(-5.0, 5.0), st.floats(0.1, 2.0)),
        min_size=3,
        max_size=10,
    ),
    st.floats(-3.0, 3.0),
    st.floats(-3.0, 3.0),
)
def test_a_tilt_that_all_points_share_moves_the_line_and_no_point_from_it(
    told: list[tuple[float, float, float]], level: float, tilt: float
) -> None:
    assume(max(x for x, *_ in told) - min(x for x, *_ in told) > 0.5)

    def points(by: float) -> list[Point]:
        return [
            Point(
                name="",
                along=x,
                along_error=0.0,
                value=y + by * (level + tilt * x),
                error=error,
            )
            for x, y, error in told
        ]

    plain, tilted = points(0.0), points(1.0)
    one, other = line_through(plain), line_through(tilted)
    assert other.slope == pytest.approx(one.slope + tilt, abs=1e-6)
    assert farthest(tilted, other) == pytest.approx(farthest(plain, one), abs=1e-6)


def an_even_bag(rng: np.random.Generator) -> list[BagClub]:
    """Return six irons on the program's own lines, read with a usual bench's errors."""

    def off(doubt: float) -> float:
        return 0.5 * doubt * float(rng.standard_normal())

    clubs = []
    for number, loft in enumerate(IRON_LOFTS):
        length = (38.5 - 4.0 * log(loft / IRON_LOFTS[0])) * INCH
        inertia = (2700.0 - 10.0 * number) * KILOGRAM_SQUARE_CENTIMETRE
        frequency = (290.0 + 8.0 * (38.5 - length / INCH)) * CYCLE_PER_MINUTE
        swing = frequency + off(USUAL_DOUBTS.frequency)
        clubs.append(
            replace(
                an_iron(4 + number),
                loft=loft * DEGREE + off(USUAL_DOUBTS.loft),
                length=length + off(USUAL_DOUBTS.length),
                swingweight=32.0 + off(USUAL_DOUBTS.swingweight),
                inertia=inertia + off(USUAL_DOUBTS.inertia),
                timed=Timed(frequency=swing, clamp=5.0 * INCH),
            )
        )
    return clubs


def test_an_even_bag_is_called_uneven_no_more_than_one_time_in_twenty() -> None:
    """Four hundred bags of four quantities (self-consistent); three standard errors of 5 %."""
    uneven = sum(
        not all(run.even for run in runs(an_even_bag(np.random.default_rng(seed)), USUAL_SCALE))
        for seed in range(1, BAGS + 1)
    )
    assert uneven / BAGS <= 0.05 + 3.0 * (0.05 * 0.95 / BAGS) ** 0.5


def test_an_iron_two_points_off_is_the_one_named_nine_times_in_ten() -> None:
    """Two hundred bags with the 7 iron 2 points heavy (self-consistent)."""
    found = 0
    for seed in range(1, 201):
        clubs = an_even_bag(np.random.default_rng(seed))
        heavy = [
            replace(one, swingweight=(one.swingweight or 0.0) + 2.0)
            if one.name == "7 iron"
            else one
            for one in clubs
        ]
        found += [one.name for one in of_swingweight(heavy).out] == ["7 iron"]
    assert found / 200 >= 0.9

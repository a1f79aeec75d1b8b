"""Strike marks and sets of unknown order."""

from dataclasses import replace
from math import comb, factorial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fittings import made_balls
from loftwright.domain.fitting import MARK_ERROR
from loftwright.evidence.balls import Balls, SpareMark
from loftwright.evidence.marks import candidates, strike_model

SPREAD = np.array([0.011, 0.0075])


def set_of(marks: list[list[float]], spare: int = 0) -> Balls:
    count = len(marks)
    balls = made_balls(1, clubs=1, balls=count)
    return replace(
        balls,
        marks=np.array(marks),
        mark_set=np.zeros(count, dtype=np.int64),
        spare_marks=tuple(
            SpareMark(mark_set=0, toe=0.001 * i, high=0.002 * i) for i in range(1, spare + 1)
        ),
    )


def test_the_true_strike_is_held_between_its_mark_and_the_golfers_mean() -> None:
    marks = np.random.default_rng(1).normal(size=(60, 2)) * SPREAD + [0.004, -0.002]
    model = strike_model(marks, SPREAD)
    expected = model.expected(np.array([[0.02, 0.01], [np.nan, np.nan]]))
    assert model.mean[0] < expected[0, 0] < 0.02
    assert (expected[1] == model.mean).all()


def test_the_spread_of_strikes_is_recovered_less_the_mark_error() -> None:
    rng = np.random.default_rng(2)
    marks = rng.normal(size=(2000, 2)) * np.sqrt(SPREAD**2 + MARK_ERROR**2)
    assert np.sqrt(strike_model(marks, SPREAD).variance) == pytest.approx(SPREAD, rel=0.06)


def test_without_marks_the_strike_is_what_is_believed() -> None:
    model = strike_model(np.full((4, 2), np.nan), SPREAD)
    assert (model.mean == 0.0).all()
    assert np.sqrt(model.variance) == pytest.approx(SPREAD)


def test_a_mark_leaves_at_most_its_error_unknown() -> None:
    model = strike_model(np.zeros((3, 2)), SPREAD)
    assert (model.marked_variance < MARK_ERROR**2).all()


@pytest.mark.parametrize(
    ("marks", "spare", "orders"),
    [
        ([[0.0, 0.0], [0.01, 0.0], [0.0, 0.01]], 0, factorial(3)),
        ([[0.0, 0.0], [0.01, 0.0], [np.nan, np.nan]], 0, factorial(3)),
        ([[0.0, 0.0], [np.nan, np.nan], [np.nan, np.nan]], 0, 3),
        ([[0.0, 0.0], [0.01, 0.0]], 1, comb(3, 2) * 2),
        ([[0.0, 0.0], [np.nan, np.nan]], 1, 2),
    ],
)
def test_every_distinct_order_of_a_set_is_listed_once(
    marks: list[list[float]], spare: int, orders: int
) -> None:
    listed = candidates(set_of(marks, spare))
    assert len(listed.orders) == 1
    assert len(listed.orders[0]) == orders
    balls = listed.ball[listed.orders[0]]
    assert (balls == np.arange(len(marks))).all()


@given(st.permutations(range(3)))
def test_the_order_in_which_a_sets_marks_are_written_does_not_matter(order: list[int]) -> None:
    marks = np.array([[0.0, 0.001], [0.01, 0.002], [-0.004, 0.003]])
    first = candidates(set_of(marks.tolist()))
    second = candidates(set_of(marks[order].tolist()))
    assert (first.marks == second.marks).all()


def test_a_set_of_six_counts_as_unmarked_and_is_named() -> None:
    listed = candidates(set_of([[0.001 * i, 0.0] for i in range(6)]))
    assert listed.too_large == (0,)
    assert np.isnan(listed.marks).all()


def test_a_set_without_marks_is_unmarked() -> None:
    listed = candidates(set_of([[np.nan, np.nan]] * 3))
    assert listed.orders == ()
    assert listed.too_large == ()


def test_marks_beyond_the_face_are_moved_to_its_edge() -> None:
    balls = replace(made_balls(1, clubs=1, balls=1), marks=np.array([[0.09, -0.05]]))
    assert candidates(balls).marks.tolist() == [[0.035, -0.024]]

"""Averages, trimmed averages and least squares, as a fitter without the model would have them."""

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls
from loftwright.training.plain_methods import (
    adjusted_averages,
    averages,
    plain_means,
    trimmed_averages,
)


def balls_with(club: list[int], delivery: FloatArray | None = None) -> Balls:
    count = len(club)
    return Balls(
        clubs=("Own", "Ash"),
        own=0,
        club=np.array(club),
        row=np.arange(count),
        order=np.arange(count, dtype=np.float64),
        launch=np.ones((count, 5)),
        delivery=np.full((count, 4), np.nan) if delivery is None else delivery,
        marks=np.full((count, 2), np.nan),
        mark_set=np.full(count, -1),
        carry=np.full(count, np.nan),
    )


def picks(balls: Balls, totals: FloatArray) -> list[int]:
    return [int(np.argmax(means)) for means in plain_means(balls, totals)]


def test_an_average_leaves_out_balls_without_a_total() -> None:
    found = averages(balls_with([0, 0, 1]), np.array([200.0, np.nan, 210.0]))
    assert found.tolist() == [200.0, 210.0]


def test_a_club_without_a_ball_is_never_picked() -> None:
    balls, totals = balls_with([0, 0, 0]), np.array([200.0, 201.0, 202.0])
    assert picks(balls, totals) == [0, 0, 0]


def test_a_ball_far_from_its_club_s_median_is_trimmed() -> None:
    totals = np.array([200.0, 201.0, 199.0, 140.0, 198.0, 198.0])
    balls = balls_with([0, 0, 0, 0, 1, 1])
    assert averages(balls, totals)[0] == pytest.approx(185.0)
    assert trimmed_averages(balls, totals)[0] == pytest.approx(200.0)
    assert picks(balls, totals)[:2] == [1, 0]


def test_least_squares_sees_through_a_faster_swing() -> None:
    speed = np.array([44.0, 45.0, 46.0, 47.0, 41.0, 42.0, 43.0, 44.0])
    club = [0, 0, 0, 0, 1, 1, 1, 1]
    delivery = np.full((8, 4), np.nan)
    delivery[:, 0] = speed
    totals = 5.0 * speed + np.where(np.array(club) == 1, 3.0, 0.0)
    balls = balls_with(club, delivery=delivery)
    assert averages(balls, totals).argmax() == 0
    found = adjusted_averages(balls, totals)
    assert found[1] - found[0] == pytest.approx(3.0)


def test_least_squares_without_columns_is_the_average() -> None:
    totals = np.array([200.0, 204.0, 210.0])
    balls = balls_with([0, 0, 1])
    assert adjusted_averages(balls, totals) == pytest.approx(averages(balls, totals))

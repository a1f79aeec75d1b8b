"""Fittings whose head, swing and device are drawn anew, and columns that read off."""

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.training.column_study import (
    RIGHT,
    Offset,
    doubted,
    off,
    right_fitting,
    scores_of,
)
from loftwright.training.device import DEVICES

FULL = DEVICES["full"]


def test_the_same_seed_is_the_same_fitting_and_another_is_another() -> None:
    one, same, other = (right_fitting(FULL, seed, 24) for seed in (3, 3, 8))
    assert np.array_equal(one.launch, same.launch)
    assert not np.allclose(one.launch, other.launch)


def test_an_offset_moves_its_own_column_alone() -> None:
    balls = right_fitting(FULL, 3, 24)
    moved = off(balls, Offset(column="head_speed", by=3.0 * MILE_PER_HOUR))
    away = moved.delivery - balls.delivery
    assert np.allclose(away[:, 0], 3.0 * MILE_PER_HOUR)
    assert not away[:, 1:].any()
    assert np.array_equal(moved.launch, balls.launch)


def test_columns_are_scored_only_where_balls_tell_them() -> None:
    assert not scores_of(right_fitting(FULL, 3, 12)).any()
    assert scores_of(right_fitting(FULL, 3, 40)).all()


@pytest.mark.parametrize(("by", "share"), [(0.0, 0.0), (8.0 * DEGREE, 1.0)])
def test_shares_count_fittings(by: float, share: float) -> None:
    found = doubted(FULL, Offset(column="face", by=by), range(2, 8), looks=(30, 40))
    assert (found.fittings, found.any_column) == (6, share)
    assert found.this_column == (share, share)


def test_no_threshold_doubts_everything_and_a_high_one_nothing() -> None:
    assert doubted(FULL, RIGHT, range(2, 5), looks=(40,), threshold=0.0).any_column == 1.0
    assert doubted(FULL, RIGHT, range(2, 5), looks=(40,), threshold=99.0).any_column == 0.0

"""Orders in which clubs are hit."""

import numpy as np
import pytest

from loftwright.errors import InputError
from loftwright.training.sequence import shuffled_blocks, shuffled_sets


@pytest.mark.parametrize("seed", range(5))
def test_sets_hold_two_or_three_balls_and_come_back_to_the_own_club(seed: int) -> None:
    order = shuffled_sets(6, 48, np.random.default_rng(seed))
    assert np.bincount(order).tolist() == [8] * 6
    runs = np.diff(np.append(np.flatnonzero(np.diff(order, prepend=-1)), len(order)))
    assert runs.min() >= 2
    assert runs.max() <= 3
    assert order[0] == 0
    assert order[-1] == 0
    assert 0 in order[12:36]


@pytest.mark.parametrize("seed", range(5))
def test_blocks_hold_every_club_once(seed: int) -> None:
    order = shuffled_blocks(6, 20, np.random.default_rng(seed))
    for block in order[:18].reshape(3, 6):
        assert sorted(block.tolist()) == list(range(6))
    assert len(set(order[18:].tolist())) == 2


def test_a_longer_visit_begins_like_a_shorter_one() -> None:
    short = shuffled_blocks(5, 20, np.random.default_rng(3))
    long = shuffled_blocks(5, 60, np.random.default_rng(3))
    assert np.array_equal(long[:20], short)


def test_too_few_balls_for_sets_are_refused() -> None:
    with pytest.raises(InputError, match="balls"):
        shuffled_sets(6, 7, np.random.default_rng(1))

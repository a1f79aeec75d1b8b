"""Standing, stopping and the next club."""

import numpy as np
import pytest

from loftwright.constants import YARD
from loftwright.evidence.decide import (
    expected_gain,
    next_club,
    standing,
    state_of,
)
from loftwright.evidence.result import State

ALL = np.ones(3, dtype=np.bool_)


def test_two_equal_clubs_have_even_chances_and_the_textbook_regret() -> None:
    """E max(X, Y) of two standard normals is 1/sqrt(pi): closed form."""
    found = standing(np.zeros(2), np.eye(2), np.ones(2, dtype=np.bool_))
    assert found is not None
    assert found.p_best == pytest.approx([0.5, 0.5], abs=0.01)
    assert found.regret == pytest.approx(1.0 / np.sqrt(np.pi), abs=0.01)


def test_512_draws_agree_with_the_normal_law() -> None:
    """P(X > Y) for a gap of one sd of the difference is 0.8413 (normal table)."""
    found = standing(np.array([1.0, 0.0]), 0.5 * np.eye(2), np.ones(2, dtype=np.bool_))
    assert found is not None
    assert found.p_best[0] == pytest.approx(0.8413, abs=0.006)


def test_one_club_has_no_standing() -> None:
    assert standing(np.zeros(2), np.eye(2), np.array([True, False])) is None
    assert state_of(None) is State.TOO_FEW


def test_a_club_with_too_few_balls_cannot_lead() -> None:
    found = standing(np.array([0.0, 1.0, 90.0]), np.eye(3), np.array([True, True, False]))
    assert found is not None
    assert found.leader == 1
    assert np.isnan(found.p_best[2])
    assert state_of(found) is State.TOO_CLOSE


def test_a_clear_leader_is_strong_evidence() -> None:
    found = standing(np.array([9.0, 0.0, 0.0]) * YARD, 0.1 * np.eye(3), ALL)
    assert state_of(found) is State.STRONG


def test_little_to_lose_is_good_enough() -> None:
    value, spread = np.array([0.9, 0.0, 0.0]) * YARD, 0.9 * YARD
    found = standing(value, spread**2 * np.eye(3), ALL)
    assert found is not None
    assert found.p_near_best < 0.9
    assert state_of(found) is State.GOOD_ENOUGH


def test_wide_doubt_is_too_close() -> None:
    found = standing(np.zeros(3), (5.0 * YARD) ** 2 * np.eye(3), ALL)
    assert state_of(found) is State.TOO_CLOSE


def test_every_club_first_gets_two_balls() -> None:
    rankable = np.array([True, False, False])
    assert next_club(np.zeros(3), np.array([5, 1, 0]), rankable, last=None) == 2


def test_shares_follow_the_inverse_square_of_the_gap() -> None:
    """Chen et al. 2000: N_i/N_j = (d_j/d_i)^2, N_leader^2 = the sum of the others' squares."""
    value = np.array([2.0, 1.0, 0.0]) * YARD
    counts = np.zeros(3, dtype=np.int64)
    for _ in range(3000):
        counts[next_club(value, counts, ALL, last=None)] += 1
    assert counts[1] / counts[2] == pytest.approx(4.0, rel=0.01)
    assert counts[0] ** 2 == pytest.approx(counts[1] ** 2 + counts[2] ** 2, rel=0.01)


def test_of_clubs_wanted_alike_the_one_not_in_hand_is_next() -> None:
    both = np.ones(2, dtype=np.bool_)
    for last in (0, 1):
        assert next_club(np.ones(2), np.array([4, 4]), both, last=last) == 1 - last


def test_more_balls_with_a_hopeless_club_gain_nothing() -> None:
    value = np.array([0.0, -200.0])
    assert expected_gain(1, value, np.eye(2), 4.0) == pytest.approx(0.0, abs=1e-9)


def test_more_balls_with_a_close_rival_gain_something() -> None:
    gain = expected_gain(1, np.array([0.0, -0.1]), np.eye(2), 4.0)
    assert 0.1 < gain < 1.0 / np.sqrt(np.pi)

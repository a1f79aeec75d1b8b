"""Ranges of a share against printed figures.

Newcombe 1998, Two-sided confidence intervals for the single proportion: comparison of seven
methods, Statistics in Medicine 17:857-872, table I, method 3 (score without correction): its four
examples. The examples are published; their limits are quoted from memory.

Brown, Cai and DasGupta 2001, Interval estimation for a binomial proportion, Statistical Science
16:101-133: eq. (4), here by another way, as the roots of the score test itself (self-consistent).
"""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from loftwright.workshop.played import wilson_interval


@pytest.mark.parametrize(
    ("hits", "drives", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0000, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ],
)
def test_the_four_examples_of_newcombe(hits: int, drives: int, low: float, high: float) -> None:
    assert wilson_interval(hits, drives, 0.95) == pytest.approx((low, high), abs=5.1e-5)


@given(st.integers(1, 300), st.data())
def test_the_ends_are_where_the_score_test_just_fails(drives: int, data: st.DataObject) -> None:
    hits = data.draw(st.integers(0, drives))
    share, z = hits / drives, 1.6448536269514722
    for end in wilson_interval(hits, drives, 0.90):
        if 1e-9 < end < 1.0 - 1e-9:
            error = sqrt(end * (1.0 - end) / drives)
            assert abs(share - end) == pytest.approx(z * error, abs=1e-9)


@given(st.integers(1, 300), st.data())
def test_another_program_has_the_same_ends(drives: int, data: st.DataObject) -> None:
    hits = data.draw(st.integers(0, drives))
    other = binomtest(hits, drives).proportion_ci(0.90, method="wilson")
    assert wilson_interval(hits, drives, 0.90) == pytest.approx((other.low, other.high), abs=1e-9)

"""Rounds against what was said: words, ranges, and what single rounds cannot tell."""

from dataclasses import replace
from datetime import date, timedelta
from math import sqrt

import numpy as np
import pytest

from loftwright.constants import YARD
from loftwright.domain.after_acts import Round
from loftwright.workshop.played import (
    CourseWord,
    clustered_interval,
    course_result,
    design_effect,
    mean_interval,
    wilson_interval,
)
from taken_clubs import PROMISE

DAY = date(2026, 6, 1)


def rounds(*fairways: int, drives: int = 14, total: float | None = None) -> tuple[Round, ...]:
    return tuple(
        Round(
            day=DAY + timedelta(days=place),
            course="Mossy Bottom",
            drives=drives,
            fairways=one,
            total=None if total is None else (total + (-1) ** place * 2.0) * YARD,
            measured=0 if total is None else 8,
        )
        for place, one in enumerate(fairways)
    )


def words(told: tuple[Round, ...]) -> tuple[CourseWord | None, CourseWord | None]:
    result = course_result(told, PROMISE)
    return (
        result.fairways.word if result.fairways else None,
        result.total.word if result.total else None,
    )


def test_many_rounds_like_what_was_said_are_as_said() -> None:
    assert words(rounds(*(8, 7, 9, 8) * 3, total=240.0)) == (CourseWord.AS_SAID,) * 2


def test_less_and_more_are_told_when_the_whole_range_lies_beyond() -> None:
    assert words(rounds(*(4, 5, 3, 4) * 3, total=228.0)) == (CourseWord.LESS,) * 2
    assert words(rounds(*(12, 11, 12, 13) * 3, total=252.0)) == (CourseWord.MORE,) * 2


def test_two_rounds_are_too_few_whatever_they_say() -> None:
    assert words(rounds(0, 0, total=150.0)) == (CourseWord.TOO_FEW,) * 2


def test_one_round_has_no_range() -> None:
    told = course_result(rounds(8, total=240.0), PROMISE)
    assert told.fairways is not None
    assert told.total is not None
    assert (told.fairways.low, told.fairways.high, told.total.low) == (None, None, None)
    assert told.fairways.seen == pytest.approx(8.0)


def test_no_round_says_nothing() -> None:
    told = course_result((), PROMISE)
    assert (told.fairways, told.total) == (None, None)


def test_nothing_said_beforehand_is_compared_with_nothing() -> None:
    told = course_result(rounds(8, 7, 9, total=240.0), None)
    assert told.fairways is not None
    assert told.total is not None
    assert (told.fairways.word, told.total.word) == (None, None)
    silent = course_result(rounds(8, 7, 9), replace(PROMISE, fairways_in_14=None))
    assert silent.fairways is not None
    assert silent.fairways.word is None


def test_rounds_that_differ_more_than_chance_widen_the_range() -> None:
    even, uneven = (7, 7, 7, 7, 7, 7), (1, 13, 2, 12, 1, 13)
    drives = [14] * 6
    assert design_effect(even, drives) == 1.0
    assert design_effect(uneven, drives) > 5.0
    narrow, wide = clustered_interval(even, drives), clustered_interval(uneven, drives)
    assert narrow is not None
    assert wide is not None
    assert wide[1] - wide[0] > 2.0 * (narrow[1] - narrow[0])


def test_the_design_effect_is_as_worked_by_hand() -> None:
    """Two rounds of 10 drives with 2 and 8: share 1/2, X² = 2 · 9 / 2.5 (self-consistent)."""
    assert design_effect([2, 8], [10, 10]) == pytest.approx(7.2)


def test_all_or_none_of_the_fairways_do_not_cluster() -> None:
    assert design_effect([14, 14], [14, 14]) == 1.0
    assert design_effect([0, 0], [14, 14]) == 1.0


def test_few_rounds_make_a_wider_range_than_as_many_drives_in_many_rounds() -> None:
    few = clustered_interval([21, 21, 21], [42, 42, 42])
    many = clustered_interval([7] * 9, [14] * 9)
    plain = wilson_interval(63, 126)
    assert few is not None
    assert many is not None
    assert few[1] - few[0] > many[1] - many[0] > plain[1] - plain[0]


def test_the_total_s_range_is_the_t_range_when_rounds_weigh_alike() -> None:
    means = [238.0, 244.0, 241.0, 236.0, 243.0]
    low, high = mean_interval(means, [7] * 5)
    assert low is not None
    assert high is not None
    error = float(np.std(means, ddof=1)) / sqrt(5)
    assert (low + high) / 2.0 == pytest.approx(np.mean(means))
    assert (high - low) / 2.0 == pytest.approx(2.131846786 * error, rel=1e-6)


def test_equal_averages_still_have_a_doubt() -> None:
    low, high = mean_interval([240.0] * 4, [6] * 4)
    assert low is not None
    assert high is not None
    assert high - low > 1.0 * YARD


def test_an_average_of_many_balls_weighs_more() -> None:
    told = rounds(8, 8, total=240.0)
    heavy = (replace(told[0], total=250.0 * YARD, measured=12), replace(told[1], measured=4))
    seen = course_result(heavy, PROMISE).total
    assert seen is not None
    assert seen.balls == 16
    assert seen.seen == pytest.approx((250.0 * 12 + 238.0 * 4) / 16 * YARD)
    assert seen.rounds == 2


def test_the_range_holds_the_truth_nine_times_in_ten_where_rounds_cluster() -> None:
    """Beta-binomial rounds of 14 drives, intraclass correlation 0.05; bounds set before."""
    rng = np.random.default_rng(8)
    share, correlation, inside = 0.55, 0.05, 0
    strength = 1.0 / correlation - 1.0
    for _ in range(1500):
        each = rng.beta(share * strength, (1.0 - share) * strength, 8)
        hits = [int(one) for one in rng.binomial(14, each)]
        ends = clustered_interval(hits, [14] * 8)
        assert ends is not None
        inside += ends[0] <= share <= ends[1]
    assert 0.87 <= inside / 1500 <= 0.95


def simulated(truth: float, number: int, seed: int, correlation: float = 0.05) -> list[CourseWord]:
    """Return what is told of fairways of 14 over 400 golfers whose rounds cluster."""
    rng = np.random.default_rng(seed)
    strength, share = 1.0 / correlation - 1.0, truth / 14.0
    told = []
    for _ in range(400):
        each = rng.beta(share * strength, (1.0 - share) * strength, number)
        result = course_result(rounds(*(int(one) for one in rng.binomial(14, each))), PROMISE)
        assert result.fairways is not None
        assert result.fairways.word is not None
        told.append(result.fairways.word)
    return told


@pytest.mark.parametrize("number", [3, 6, 12])
def test_a_club_that_does_as_said_is_seldom_called_otherwise(number: int) -> None:
    """At most 5 in 100, set before."""
    told = simulated(8.0, number, seed=number)
    wrong = sum(one in {CourseWord.LESS, CourseWord.MORE} for one in told)
    assert wrong <= 0.05 * len(told)


def test_three_fairways_fewer_are_mostly_seen_in_twelve_rounds() -> None:
    """At least 60 in 100, set before; and hardly ever called as said."""
    told = simulated(5.0, 12, seed=2)
    assert told.count(CourseWord.LESS) >= 0.6 * len(told)
    assert told.count(CourseWord.AS_SAID) <= 0.05 * len(told)
    assert CourseWord.MORE not in told

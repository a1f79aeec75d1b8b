"""Whether one club plays as another: three answers, and what each of them needs."""

from dataclasses import replace
from functools import cache
from math import sqrt
from statistics import NormalDist

import numpy as np
import pytest

from bay_fittings import first, two_visits
from loftwright.constants import DEGREE
from loftwright.domain.check_acts import Against
from loftwright.domain.home import Home
from loftwright.domain.tolerances import Tolerances
from loftwright.evidence.balls import Balls
from loftwright.evidence.build_limits import NUMBERS, BuildLimits, build_limits
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.same_club import (
    EARLY_NOT,
    FALSE_NOT,
    FEWEST_BUILT,
    FEWEST_TESTED,
    MOST_BELIEF,
    MOST_MORE,
    PLANNED_BUILT,
    RANGE,
    SameClub,
    same_club,
)
from loftwright.evidence.visit import Beliefs
from loftwright.physics.impact import REFERENCE_HEAD, strike_many
from loftwright.training.golfer import LOFT
from loftwright.training.pick_up_study import DAYS, answer, pick_up

TESTED, BUILT = "Ash", "Birch"
NORMAL = NormalDist()


def compared(balls: Balls) -> Comparison:
    traits = tuple(ClubTraits(head=f"head {one}", shaft=f"shaft {one}") for one in balls.clubs)
    return compare(balls, Home(), Beliefs(traits=traits))


@cache
def a_day(ability: str = "low", seed: int = 3) -> Comparison:
    """Return two visits of a golfer, clubs Own, Ash and Birch on both."""
    _, _, balls = two_visits(seed, ability, clubs=((0, 1, 2), (0, 1, 2)))
    return compared(balls)


def said(comparison: Comparison, limits: BuildLimits | None = None) -> SameClub:
    found = limits or build_limits(comparison, Tolerances())
    return same_club(comparison, found, BUILT, TESTED)


def wide(times: float) -> BuildLimits:
    """Return limits of a usual golfer, so many times as wide."""
    usual = build_limits(a_day(), Tolerances())
    return BuildLimits(explained=times * usual.explained, margin=times * usual.margin)


def test_every_number_is_compared_as_the_golfer_swings_it() -> None:
    comparison = a_day()
    found = said(comparison)
    assert tuple(one.name for one in found.numbers) == NUMBERS
    launches = comparison.swung.figure.launches
    for one, built, tested in zip(found.numbers[:5], launches[2], launches[1], strict=True):
        assert one.apart.mean == pytest.approx(built - tested)
    totals = comparison.swung.outcomes[:, 1]
    assert found.numbers[5].apart.mean == pytest.approx(totals[2] - totals[1])


def test_swapping_the_clubs_turns_the_differences_round() -> None:
    comparison = a_day()
    limits = build_limits(comparison, Tolerances())
    there, back = (
        same_club(comparison, limits, *pair) for pair in ((BUILT, TESTED), (TESTED, BUILT))
    )
    assert there.against is back.against
    for one, other in zip(there.numbers, back.numbers, strict=True):
        assert one.apart.mean == pytest.approx(-other.apart.mean)
        assert one.apart.sd == pytest.approx(other.apart.sd)


def test_wide_margins_are_met_and_narrow_ones_are_not() -> None:
    assert said(a_day(), wide(4.0)).against is Against.CONSISTENT
    assert said(a_day(), wide(0.2)).against is not Against.CONSISTENT


def test_consistent_asks_every_number_for_its_whole_range() -> None:
    limits = wide(4.0)
    for place in range(len(NUMBERS)):
        margin = np.array(limits.margin)
        margin[place] = 1e-9
        narrow = BuildLimits(explained=limits.explained, margin=margin)
        found = said(a_day(), narrow)
        assert found.against is Against.CANNOT_TELL
        assert [one.name for one in found.numbers if not one.within] == [NUMBERS[place]]


def test_a_range_ends_where_nine_in_ten_do() -> None:
    """Two tests at 5 % each, one a side (Schuirmann 1987, from memory)."""
    one = said(a_day()).numbers[0]
    low, high = one.apart.interval(RANGE)
    edge = replace(one.apart, sd=one.apart.sd, df=1e9).interval(RANGE)
    assert edge[1] - edge[0] == pytest.approx(2.0 * NORMAL.inv_cdf(0.95) * one.apart.sd, rel=1e-3)
    assert low < edge[0] < edge[1] < high


def test_a_difference_that_the_build_explains_is_never_called_not() -> None:
    """Three degrees strong with a low handicap: launch and spin differ beyond doubt."""
    comparison = _strong(3.0)
    plain = said(comparison)
    assert plain.against is Against.NOT
    assert {"launch", "spin"} & {one.name for one in plain.differing}
    limits = build_limits(comparison, Tolerances())
    explained = BuildLimits(explained=50.0 * limits.explained, margin=limits.margin)
    assert said(comparison, explained).against is Against.CANNOT_TELL


def test_not_goes_before_consistent() -> None:
    comparison = _strong(3.0)
    limits = build_limits(comparison, Tolerances())
    found = said(comparison, BuildLimits(explained=limits.explained, margin=9.0 * limits.margin))
    assert all(one.within for one in found.numbers)
    assert found.against is Against.NOT


def test_not_is_tested_at_a_sixth_of_the_chance_on_the_balls_alone() -> None:
    """With belief taken out, mean and variance both grow by 1 / (1 - belief)."""
    found = said(_strong(3.0))
    for one in found.numbers:
        if one.belief >= 0.95:
            continue
        mean, variance = (part / (1.0 - one.belief) for part in (one.apart.mean, one.apart.sd**2))
        alone = replace(one.apart, mean=mean, sd=sqrt(variance))
        low, high = alone.interval(1.0 - FALSE_NOT / len(found.numbers))
        beyond = low > 0.0 or high < 0.0
        assert one.differs is (beyond and abs(one.apart.mean) > one.explained)


def test_before_the_planned_balls_not_needs_much_more() -> None:
    """The same doubt and difference: a tenth of the chance asks for a larger one."""
    found = pick_up("3 degrees strong", "6 tested, 8 built", "tour", 5)
    asked = {one.built: one for one in found if one.numbers}
    for count, level in ((4, EARLY_NOT), (7, EARLY_NOT), (PLANNED_BUILT, FALSE_NOT)):
        for one in asked[count].numbers:
            alone = replace(one.apart, sd=one.apart.sd * sqrt(1.0 - one.belief))
            low, high = alone.interval(1.0 - level / len(NUMBERS))
            beyond = (low > 0.0 or high < 0.0) and abs(one.apart.mean) > one.explained
            assert one.differs is (beyond and one.belief < 0.95)


def _strong(degrees: float) -> Comparison:
    """Return visits in which Birch, hit with Ash in turn, stands stronger than it."""
    rng = np.random.default_rng(11)
    clubs = np.tile(np.repeat([0, 1, 2], [2, 3, 4]), 4)
    swings = np.array([46.0, 0.0, 0.0, 0.0, 13.2 * DEGREE, 0.0, 0.0]) + rng.normal(
        size=(len(clubs), 7)
    ) * np.array([0.5, 0.014, 0.02, 0.02, 0.016, 0.006, 0.004])
    swings[clubs == 2, LOFT] -= degrees * DEGREE
    launch = strike_many(REFERENCE_HEAD, swings)
    count = len(clubs)
    return compared(
        Balls(
            clubs=("Own", TESTED, BUILT),
            own=0,
            club=clubs,
            row=np.arange(count),
            order=np.arange(count, dtype=np.float64),
            launch=launch,
            delivery=swings[:, :4],
            marks=swings[:, 5:],
            mark_set=np.full(count, -1),
            carry=np.full(count, np.nan),
        )
    )


def test_nothing_is_said_before_the_first_set_of_each_club() -> None:
    found = pick_up("the same club", "6 tested, 8 built", "low", 1)
    needed = FEWEST_BUILT + FEWEST_TESTED
    assert [one.had for one in found[:4]] == [4, 5, 6, 7]
    for one in found:
        assert one.needed == needed
        assert (one.against is None) is (one.had < needed)
        assert bool(one.numbers) is (one.had >= needed)


def test_without_the_tested_club_four_built_balls_are_enough() -> None:
    day = "tested on the first day, 6 own, 8 built"
    assert not DAYS[day].of_the_tested
    found = pick_up("the same club", day, "low", 1)
    assert found[-1].needed == FEWEST_BUILT
    assert found[-1].against is not None
    assert found[-1].tested == 8


def test_clubs_of_two_days_that_nothing_joins_are_not_compared() -> None:
    _, _, balls = two_visits(3, "low", clubs=((0, 1), (2, 3)))
    comparison = compared(balls)
    limits = build_limits(comparison, Tolerances())
    found = same_club(comparison, limits, BUILT, TESTED, rotation=False)
    assert not found.joined
    assert found.against is None
    assert found.numbers == ()


def test_belief_alone_never_says_consistent() -> None:
    """A golfer with wide balls, few of them: what stands within is what balls have told."""
    _, _, balls = two_visits(5, "high", clubs=((0, 1), (1, 2)), balls=(6, 8))
    found = said(compared(balls), wide(50.0))
    believed = [one for one in found.numbers if one.belief > MOST_BELIEF]
    assert believed
    assert not any(one.within for one in believed)
    assert found.against is Against.CANNOT_TELL


def test_more_balls_are_asked_for_only_where_they_would_tell() -> None:
    near = [said(a_day(), wide(times)) for times in np.linspace(0.5, 2.0, 16).tolist()]
    asked = [one.more for one in near if one.against is Against.CANNOT_TELL]
    counted = [one for one in asked if one is not None]
    assert counted
    assert all(1 <= one <= MOST_MORE for one in counted)
    assert None in asked
    assert all(one.more is None for one in near if one.against is Against.CONSISTENT)


def test_wider_margins_never_ask_for_more_balls() -> None:
    found = [said(a_day(), wide(times)) for times in np.linspace(0.5, 2.0, 16).tolist()]
    asked = [
        0 if one.against is Against.CONSISTENT else MOST_MORE + 1 if one.more is None else one.more
        for one in found
    ]
    assert asked == sorted(asked, reverse=True)


def test_a_device_without_axis_compares_what_it_gives() -> None:
    _, _, balls = two_visits(3, "low", clubs=((0, 1, 2), (0, 1, 2)))
    launch = np.array(balls.launch)
    launch[:, 3:] = np.nan
    found = said(compared(replace(balls, launch=launch)))
    assert tuple(one.name for one in found.numbers) == ("ball_speed", "launch", "spin", "total")
    assert found.against is not None


def test_balls_set_aside_do_not_count() -> None:
    _, _, balls = two_visits(3, "low", clubs=((0, 1, 2), (0, 1, 2)))
    aside = np.zeros(len(balls), dtype=np.bool_)
    aside[np.flatnonzero(balls.club == 2)[:3]] = True
    found = said(compared(replace(balls, set_aside=aside)))
    assert found.built == int((balls.club == 2).sum()) - 3


def test_the_same_balls_say_the_same() -> None:
    one, other = (answer("a strange shaft", "6 tested, 8 built", "mid", 7) for _ in range(2))
    assert one == other


def test_fewer_balls_never_say_more_surely() -> None:
    _, _, balls = two_visits(3, "low", clubs=((0, 1, 2), (0, 1, 2)))
    doubts = [said(compared(first(balls, count))).numbers for count in (36, 48)]
    for few, many in zip(*doubts, strict=True):
        assert few.apart.sd > 0.8 * many.apart.sd

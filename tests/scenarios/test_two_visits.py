"""A fitting of two days with two devices, and what its ranges are worth.

Golfers of four abilities by turns, seeds 1 to n and no others. On the first day three clubs are
hit, on the second four, two of them again; the second device shows 2 mph, 1 degree of launch,
300 rpm, 2 degrees of axis and 1 degree of direction more. Widths are those of the product's own
rule, undoubled. The bounds of coverage are those of one visit's study of golfers; that of how far
a difference moves was set after a first look at sixty seeds, where it moved by 0.03.
"""

from functools import cache

import numpy as np
import pytest

from bay_fittings import OTHER_DEVICE, two_visits
from dealt_fittings import ability_of
from loftwright.arrays import FloatArray
from loftwright.domain.home import Home
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.scales import LAUNCH_NAMES, LAUNCH_SCALE
from loftwright.evidence.visit import Beliefs
from loftwright.training.judging import covered, launch_coverage, pair_variance, pairs_of
from loftwright.training.summary import mean_of
from loftwright.training.truth import TrueFigures, true_figures, true_values
from study_tables import Say

GOLFERS = 120
FLOWN = 400

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("two visits")]


@cache
def fitted(*, offset: bool) -> list[tuple[Comparison, TrueFigures]]:
    found = []
    for seed in range(1, GOLFERS + 1):
        more = OTHER_DEVICE if offset else np.zeros(5)
        golfer, shifts, balls = two_visits(seed, ability_of(seed), offset=more)
        comparison = compare(balls, Home(), Beliefs(doubt=1.0))
        found.append((comparison, true_figures(golfer, shifts, comparison.home, FLOWN)))
    return found


@pytest.mark.parametrize("place", range(5), ids=LAUNCH_NAMES)
def test_launch_as_swung_lies_in_its_range_as_often_as_it_says(place: int, say: Say) -> None:
    shares = [
        100.0 * float(launch_coverage(comparison, true, same=False)[0][place])
        for comparison, true in fitted(offset=True)
    ]
    found = mean_of(shares)
    say(f"two visits, {LAUNCH_NAMES[place]} as swung, 80 %: {found}")
    assert 73.0 <= found.mean <= 90.0


def test_value_lies_in_its_range_as_often_as_it_says(say: Say) -> None:
    shares = []
    for comparison, true in fitted(offset=True):
        worth = true_values(true, comparison.home)
        first, second = pairs_of(len(worth))
        variance = pair_variance(comparison.value_covariance, first, second)
        difference = comparison.value[first] - comparison.value[second]
        hits = covered(difference, variance, worth[first] - worth[second], comparison.df, 0.80)
        shares.append(100.0 * float(hits.mean()))
    found = mean_of(shares)
    say(f"two visits, value, 80 %: {found}")
    assert 75.0 <= found.mean <= 92.0


def difference(comparison: Comparison, a: int, b: int) -> FloatArray:
    launches = comparison.visit.swung.launches
    return np.asarray((launches[a] - launches[b]) / LAUNCH_SCALE)


@pytest.mark.parametrize(("a", "b"), [(2, 0), (3, 1)], ids=["shared clubs", "one day each"])
def test_what_the_second_device_shows_more_moves_no_difference(a: int, b: int, say: Say) -> None:
    moved = [
        np.abs(difference(other, a, b) - difference(plain, a, b)).max()
        for (other, _), (plain, _) in zip(fitted(offset=True), fitted(offset=False), strict=True)
    ]
    say(
        f"two visits, {'shared clubs' if b == 0 else 'clubs of one day each'}: moved by "
        f"{np.mean(moved):.3f} working units on average, {np.max(moved):.3f} at most"
    )
    assert np.max(moved) < 0.2

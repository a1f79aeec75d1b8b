"""Fittings that are taken out leave what would have been learned had they never been there."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from level_samples import BELIEF, R, shop_of, usual_shop
from loftwright.arrays import FloatArray
from loftwright.shop.told import Told, together, told_by
from loftwright.shop.without import without


def solved(told: list[Told], members: int) -> tuple[FloatArray, FloatArray]:
    """Return means and covariance of every member under variances of a quarter."""
    size = members * R
    information, pull = 4.0 * np.eye(size), np.zeros(size)
    for one in told:
        rows = one.among(R)
        information[np.ix_(rows, rows)] += one.information
        pull[rows] += one.pull
    covariance = np.linalg.inv(information)
    return covariance @ pull, np.asarray(covariance)


def fittings(seed: int) -> tuple[dict[str, Told], int]:
    """Return what every fitting of an invented shop tells, and of how many members."""
    visits, truth = usual_shop(seed, 12)
    grams, belongs = shop_of(seed, visits, truth)
    members = sorted({one for told in belongs.values() for one in told.members})
    place = {member: number for number, member in enumerate(members)}
    told = told_by(
        grams, BELIEF, {key: [place[one] for one in own.members] for key, own in belongs.items()}
    )
    return told, len(members)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 6))
def test_leaving_fittings_out_is_learning_without_them(seed: int, gone: int) -> None:
    told, members = fittings(seed)
    names = sorted(told)
    means, covariance = solved(list(told.values()), members)
    taken = together([told[one] for one in names[:gone]], [1.0] * gone, R)
    rows = taken.among(R)
    left = without(means[rows], covariance[np.ix_(rows, rows)], taken, taken)
    fresh, doubt = solved([told[one] for one in names[gone:]], members)
    assert left.means == pytest.approx(fresh[rows], abs=1e-8)
    assert left.covariance == pytest.approx(doubt[np.ix_(rows, rows)], abs=1e-8)
    change, back = left.at(1.0)
    assert left.means + change == pytest.approx(means[rows], abs=1e-8)
    assert back == pytest.approx(covariance[np.ix_(rows, rows)], abs=1e-8)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.floats(0.01, 1.0))
def test_less_weight_is_learning_from_less(seed: int, weight: float) -> None:
    told, members = fittings(seed)
    name = min(told)
    light = replace(
        told[name], information=weight * told[name].information, pull=weight * told[name].pull
    )
    means, covariance = solved(list(told.values()), members)
    rows = told[name].among(R)
    left = without(means[rows], covariance[np.ix_(rows, rows)], told[name], told[name])
    fresh, doubt = solved([light, *(told[one] for one in told if one != name)], members)
    change, back = left.at(weight)
    assert left.means + change == pytest.approx(fresh[rows], abs=1e-8)
    assert back == pytest.approx(doubt[np.ix_(rows, rows)], abs=1e-8)


def test_what_fittings_tell_together_is_the_sum_of_what_each_tells() -> None:
    told, members = fittings(3)
    whole = together(list(told.values()), [1.0] * len(told), R)
    means, covariance = solved([whole], members)
    one_by_one, doubt = solved(list(told.values()), members)
    assert means == pytest.approx(one_by_one)
    assert covariance == pytest.approx(doubt)


def test_a_fitting_with_one_club_tells_nothing_of_it_but_by_the_usual_level() -> None:
    visits, truth = usual_shop(5, 1)
    grams, belongs = shop_of(5, [visits[0][:1]], truth)
    told = told_by(grams, BELIEF, {key: [0] for key in belongs})
    information = told["f000"].information
    assert np.linalg.eigvalsh(information).max() < 1.0 / 24.0

"""What was learned reaches a comparison in its own signs, order and units."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from learned_samples import CLUBS, STRANGER, learned
from loftwright.evidence.shop_beliefs import SLOPE_COLUMNS, SWING_EFFECTS, ShopBeliefs
from loftwright.shop.beliefs import beliefs_of, mirrored
from loftwright.shop.columns import FEATURES, RESPONSES

ALL = (*CLUBS, STRANGER)
LAUNCH = [one.column for one in RESPONSES]


def same(one: ShopBeliefs, other: ShopBeliefs) -> None:
    """Assert that two beliefs are the same."""
    for name in (
        *("launch", "launch_covariance", "swing", "swing_covariance"),
        *("own", "swing_own"),
    ):
        assert getattr(one.clubs, name) == pytest.approx(getattr(other.clubs, name))
    assert one.slopes == pytest.approx(other.slopes)
    assert one.slope_sd == pytest.approx(other.slope_sd)


def test_a_club_is_expected_to_do_what_its_parts_do() -> None:
    taught = learned(1)
    told = beliefs_of(taught, ALL, "H", left_handed=False)
    mean, doubt = taught.effects.of(ALL[2])
    assert told.clubs.launch[:, 2] == pytest.approx(mean)
    own = told.clubs.launch_covariance.reshape(5, 5, 5, 5)[:, 2, :, 2]
    assert own == pytest.approx(doubt + taught.launch.clubs)
    mean, doubt = taught.swing_effects.of(STRANGER)
    assert told.clubs.swing[:, 4] == pytest.approx(mean)
    own = told.clubs.swing_covariance.reshape(6, 5, 6, 5)[:, 4, :, 4]
    assert own == pytest.approx(doubt + taught.swing.clubs)


def test_only_the_shared_part_of_a_doubt_is_shared() -> None:
    taught = learned(2)
    told = beliefs_of(taught, [CLUBS[0], CLUBS[0]], "H", left_handed=False)
    cube = told.clubs.launch_covariance.reshape(5, 2, 5, 2)
    apart = cube[:, 0, :, 0] + cube[:, 1, :, 1] - cube[:, 0, :, 1] - cube[:, 1, :, 0]
    assert apart == pytest.approx(2.0 * taught.launch.clubs)


def test_slopes_are_those_with_the_head_that_is_hit() -> None:
    taught = learned(3)
    told = beliefs_of(taught, ALL, "H", left_handed=False)
    place = FEATURES.index("high")
    assert not told.borrowed
    assert told.slopes.shape == (5, len(SLOPE_COLUMNS))
    assert told.slopes[2, SLOPE_COLUMNS.index("high")] == pytest.approx(
        taught.launch.slopes[place, 2] + taught.heads[0].slopes[place, 2]
    )
    assert told.slope_sd[2, SLOPE_COLUMNS.index("high")] == pytest.approx(
        np.hypot(np.sqrt(taught.launch.spread[2, place, place]), taught.heads[0].sd[place, 2])
    )


def test_slopes_with_a_head_that_was_never_hit_are_borrowed() -> None:
    taught = learned(3)
    told = beliefs_of(taught, ALL, "G", left_handed=False)
    assert told.borrowed
    for column, name in enumerate(SLOPE_COLUMNS):
        place = FEATURES.index(name)
        assert told.slopes[:, column] == pytest.approx(taught.launch.slopes[place])


def test_a_club_says_in_how_many_fittings_the_nearest_thing_was_hit() -> None:
    taught = learned(4)
    sister = replace(CLUBS[1], piece="another")
    told = beliefs_of(taught, [CLUBS[1], sister, STRANGER], "H", left_handed=False)
    hit = taught.effects.fittings
    assert told.clubs.fittings == (hit["piece", "P1"], hit["model", "M1"], 0)


def test_a_left_hander_curves_the_other_way() -> None:
    taught = learned(5)
    right = beliefs_of(taught, ALL, "H", left_handed=False)
    left = beliefs_of(taught, ALL, "H", left_handed=True)
    axis, spin = LAUNCH.index("axis"), LAUNCH.index("spin")
    assert left.clubs.launch[axis] == pytest.approx(-right.clubs.launch[axis])
    assert left.clubs.launch[spin] == pytest.approx(right.clubs.launch[spin])
    toe, high = SWING_EFFECTS.index("toe"), SWING_EFFECTS.index("high")
    assert left.clubs.swing[toe] == pytest.approx(-right.clubs.swing[toe])
    assert left.clubs.swing[high] == pytest.approx(right.clubs.swing[high])
    column = SLOPE_COLUMNS.index("toe")
    assert left.slopes[axis, column] == pytest.approx(right.slopes[axis, column])
    assert left.slopes[spin, column] == pytest.approx(-right.slopes[spin, column])
    assert left.clubs.own is not None
    assert right.clubs.own is not None
    assert left.clubs.own[axis, spin] == pytest.approx(-right.clubs.own[axis, spin])
    square = SLOPE_COLUMNS.index("toe_squared")
    assert left.slopes[axis, square] == pytest.approx(-right.slopes[axis, square])


@given(st.integers(0, 10**6))
def test_mirroring_twice_changes_nothing(seed: int) -> None:
    told = beliefs_of(learned(seed), ALL, "H", left_handed=False)
    same(mirrored(mirrored(told)), told)


@given(st.integers(0, 10**6), st.booleans())
def test_every_doubt_can_be_inverted(seed: int, left: bool) -> None:
    told = beliefs_of(learned(seed), (*ALL, *ALL), "", left_handed=left)
    for covariance in (told.clubs.launch_covariance, told.clubs.swing_covariance):
        assert covariance == pytest.approx(covariance.T)
        assert np.linalg.eigvalsh(covariance).min() > 0.0
    assert (told.slope_sd > 0.0).all()


@given(st.integers(0, 10**6), st.permutations(range(len(ALL))))
def test_the_order_of_clubs_is_theirs_alone(seed: int, order: list[int]) -> None:
    taught = learned(seed)
    told = beliefs_of(taught, ALL, "H", left_handed=False)
    turned = beliefs_of(taught, [ALL[one] for one in order], "H", left_handed=False)
    assert turned.clubs.launch == pytest.approx(told.clubs.launch[:, order])
    cube = told.clubs.swing_covariance.reshape(6, 5, 6, 5)
    expected = cube[:, order][:, :, :, order].reshape(30, 30)
    assert turned.clubs.swing_covariance == pytest.approx(expected)
    assert turned.clubs.fittings == tuple(told.clubs.fittings[one] for one in order)

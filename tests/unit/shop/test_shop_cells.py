"""The sums of a fitting by club and visit are those of its balls."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.arrays import frozen_array, frozen_index
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.shop.cells import LAUNCH_FACTORS, SWING_FACTORS, fittings_of
from loftwright.shop.record import Recorded
from shop_samples import a_fitting, shaft_effects, sums

pytest.importorskip("ibis")

EFFECTS = shaft_effects(3)
PLAIN = a_fitting(1, EFFECTS)


def weighed(weights: np.ndarray) -> Recorded:
    return replace(PLAIN, weights=weights)


def test_a_fitting_is_its_golfers_mean_swing() -> None:
    (one,) = fittings_of(sums([PLAIN]))
    balls = PLAIN.balls
    assert one.clubs == tuple(sorted(balls.clubs))
    assert one.balls == len(balls)
    assert one.golfer == PLAIN.golfer
    wanted = [*balls.delivery.mean(axis=0), balls.launch[:, 1].mean()]
    assert one.delivery == pytest.approx(wanted, abs=1e-9)


def test_launch_scatters_about_the_mean_of_each_club() -> None:
    (one,) = fittings_of(sums([PLAIN]))
    launch, club = PLAIN.balls.launch[:, 1], PLAIN.balls.club
    square = sum(((launch[club == c] - launch[club == c].mean()) ** 2).sum() for c in range(4))
    variance, freedom = one.launch_scatter
    assert freedom == 36
    assert variance == pytest.approx(square / 36, rel=1e-9)


@given(scale=st.floats(0.01, 50.0))
def test_only_how_weights_compare_counts_and_their_mean_is_one(scale: float) -> None:
    weights = np.linspace(0.2, 1.0, 40)
    rows: list[dict[str, Any]] = ROWS
    (one,) = fittings_of(rows)
    (other,) = fittings_of(
        [
            {
                name: value * scale if isinstance(value, float) else value
                for name, value in row.items()
            }
            for row in rows
        ]
    )
    total = sum(cell.launch[0, 0] for cell in one.cells)
    assert total == pytest.approx(len(weights))
    for left, right in zip(one.cells, other.cells, strict=True):
        assert left.launch == pytest.approx(right.launch, rel=1e-9, abs=1e-9)
        assert left.swing == pytest.approx(right.swing, rel=1e-9, abs=1e-9)


ROWS = sums([weighed(np.linspace(0.2, 1.0, 40))])


def test_visits_and_devices_have_cells_of_their_own() -> None:
    visit = np.repeat([0, 1], 20)
    twice = replace(
        PLAIN,
        bays=("Bay 1", "Bay 2"),
        devices=("Slate", "Quill"),
        balls=replace(PLAIN.balls, visit=frozen_index(visit)),
    )
    (one,) = fittings_of(sums([twice]))
    assert one.visits == (0, 1)
    assert [(cell.visit, cell.device, cell.bay) for cell in one.cells] == [
        *4 * [(0, "Slate", "Bay 1")],
        *4 * [(1, "Quill", "Bay 2")],
    ]


def test_what_physics_expects_of_a_club_is_in_its_cell() -> None:
    shift = (0.5 * MILE_PER_HOUR, 0.0, 0.1 * DEGREE, -0.2 * DEGREE, 0.7 * DEGREE)
    (one,) = fittings_of(sums([replace(PLAIN, shifts={"Ash": shift})]))
    shifts = {cell.club: cell.shift for cell in one.cells}
    assert shifts["Ash"] == pytest.approx([0.5, 0.0, 0.1, -0.2, 0.7])
    assert not shifts["Birch"].any()


def test_unmarked_balls_are_left_out_and_a_fitting_without_marks_is_none() -> None:
    marks = PLAIN.balls.marks.copy()
    marks[:10] = np.nan
    some = replace(PLAIN, balls=replace(PLAIN.balls, marks=frozen_array(marks)))
    (one,) = fittings_of(sums([some]))
    assert one.balls == 30
    nowhere = replace(PLAIN.balls, marks=frozen_array(np.full((40, 2), np.nan)))
    assert fittings_of(sums([replace(PLAIN, balls=nowhere)])) == ()


def test_moments_are_symmetric_and_never_negative() -> None:
    (one,) = fittings_of(ROWS)
    for cell in one.cells:
        assert cell.launch.shape == 2 * (len(LAUNCH_FACTORS),)
        assert cell.swing.shape == 2 * (len(SWING_FACTORS),)
        for moments in (cell.launch, cell.swing):
            assert np.array_equal(moments, moments.T)
            assert np.linalg.eigvalsh(moments).min() > -1e-8

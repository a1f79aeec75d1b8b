"""Run of the average drive, from soft to firm ground."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home, Turf
from loftwright.evidence.flight_map import CARRY, TOTAL, conditions_at, outcomes
from loftwright.evidence.run_band import run_bands

DRIVE = np.array(
    [
        [150.0 * MILE_PER_HOUR, 12.0 * DEGREE, 2600.0 * REVOLUTION_PER_MINUTE, 0.0, 0.0],
        [150.0 * MILE_PER_HOUR, 16.0 * DEGREE, 3600.0 * REVOLUTION_PER_MINUTE, 0.0, 0.0],
    ]
)


@pytest.mark.parametrize("turf", Turf)
def test_the_run_here_is_total_less_carry_and_lies_within_its_band(turf: Turf) -> None:
    home = replace(Home(), turf=turf)
    flown = outcomes(DRIVE, conditions_at(home))
    for band, (carry, total) in zip(
        run_bands(DRIVE, home), flown[:, [CARRY, TOTAL]].tolist(), strict=True
    ):
        assert band is not None
        assert band.here == pytest.approx(total - carry)
        assert band.least <= band.here <= band.most


def test_firm_ground_ends_the_band_and_soft_ground_begins_it() -> None:
    (firm, _), (soft, _) = (
        run_bands(DRIVE, replace(Home(), turf=turf)) for turf in (Turf.FIRM, Turf.SOFT)
    )
    assert firm is not None
    assert soft is not None
    assert firm.here == firm.most
    assert soft.here == soft.least
    assert (firm.least, firm.most) == (soft.least, soft.most)


def test_a_ball_that_comes_in_steeper_runs_less() -> None:
    flat, steep = run_bands(DRIVE, Home())
    assert flat is not None
    assert steep is not None
    assert steep.most < flat.most


def test_a_launch_without_a_total_has_no_run() -> None:
    assert run_bands(DRIVE * np.array([1.0, 1.0, np.nan, 1.0, 1.0]), Home()) == (None, None)

"""A table of spreads follows from what was learned; from physics alone it is the judged one."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.arrays import frozen_array
from loftwright.constants import DEGREE
from loftwright.evidence.spreads import JUDGED, LAUNCH_SCATTER_OF_MID
from loftwright.shop.physics import physics_at
from loftwright.shop.physics_start import USUAL_DELIVERY, nothing_beyond, swing_population
from loftwright.shop.table import squared_factor, table_of

NOTHING = nothing_beyond(USUAL_DELIVERY)
SWING = swing_population()
SLOPES = physics_at(USUAL_DELIVERY).at


def test_physics_alone_gives_the_judged_table_with_clubs_doubted() -> None:
    table = table_of(NOTHING, SWING, SLOPES, (1.0, 1.0))
    assert table.parts == pytest.approx(JUDGED.parts, rel=1e-6)
    assert table.strike == pytest.approx(JUDGED.strike, rel=1e-6)
    doubted = np.sqrt(2.0)
    assert table.club_parts[:4] == pytest.approx(doubted * JUDGED.club_parts[:4], rel=1e-6)
    assert table.club_strike == pytest.approx(doubted * JUDGED.club_strike, rel=1e-6)
    assert table.club_parts[4] == pytest.approx(doubted * JUDGED.club_parts[4], rel=0.02)
    assert table.club_floor == pytest.approx(doubted * JUDGED.club_floor, rel=0.05)


@given(loft=st.floats(0.2, 1.5), floor=st.floats(0.05, 0.4))
def test_what_clubs_do_is_shared_out_between_loft_and_a_floor(loft: float, floor: float) -> None:
    way = SLOPES.parts[:, 4]
    clubs = loft**2 * np.outer(way, way) + floor**2 * np.eye(5)
    table = table_of(replace(NOTHING, clubs=frozen_array(clubs)), SWING, SLOPES, (1.0, 1.0))
    whole = table.club_parts[4] ** 2 * np.outer(way, way) + np.diag(table.club_floor**2)
    assert np.diag(whole) == pytest.approx(np.diag(clubs), rel=0.03)
    assert table.club_parts[4] == pytest.approx(loft, rel=0.1, abs=0.03)


def test_a_wider_residual_along_loft_is_a_wider_spread_of_loft() -> None:
    way = SLOPES.parts[:, 4]
    wide = replace(NOTHING, left=frozen_array(NOTHING.left + np.outer(way, way)))
    table = table_of(wide, SWING, SLOPES, (1.0, 1.0))
    assert table.parts[4] > 1.1 * JUDGED.parts[4]
    assert table.parts[:4] == pytest.approx(JUDGED.parts[:4], rel=1e-6)


def test_nothing_learned_is_narrower_than_a_tenth_of_what_was_judged() -> None:
    tiny = replace(
        SWING, clubs=frozen_array(1e-9 * np.eye(6)), left=frozen_array(1e-9 * np.eye(6))
    )
    none = replace(NOTHING, clubs=frozen_array(1e-9 * np.eye(5)))
    table = table_of(none, tiny, SLOPES, (1.0, 1.0))
    assert table.club_parts == pytest.approx(0.1 * JUDGED.club_parts)
    assert table.club_floor == pytest.approx(0.1 * JUDGED.club_floor)
    assert table.strike == pytest.approx(0.1 * JUDGED.strike)


def test_ten_balls_of_a_mid_golfer_join_a_golfers_own() -> None:
    mid = LAUNCH_SCATTER_OF_MID**2
    assert squared_factor(0.0, 0) == pytest.approx(1.0)
    assert squared_factor(mid, 500) == pytest.approx(1.0)
    assert squared_factor(0.25 * mid, 10) == pytest.approx(0.625)
    assert squared_factor((9.0 * DEGREE) ** 2, 1000) == pytest.approx(1.6**2)
    assert squared_factor(0.0, 1000) == pytest.approx(0.45**2)

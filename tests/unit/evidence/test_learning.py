"""What clubs do and how swings spread is learned back from simulated fittings."""

import numpy as np
import pytest

from loftwright.domain.names import OWN, TREES
from loftwright.errors import EvidenceError
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.learning import Expected, expected, learn, learned
from loftwright.evidence.spreads import JUDGED, SpreadTable
from loftwright.evidence.visit import Beliefs, set_up
from loftwright.training.balls import balls_of
from loftwright.training.clubs import CLUB_SPREAD, make_clubs
from loftwright.training.device import DEVICES
from loftwright.training.golfer import SWING_UNITS, make_golfer
from loftwright.training.sequence import ORDERS
from loftwright.training.visit import Disturbances, simulate_visit

NAMES = (OWN, *TREES)[:6]
TRAITS = tuple(ClubTraits(head="one", shaft=name) for name in NAMES)
TRUE_PARTS = (CLUB_SPREAD / SWING_UNITS)[:5]


def told(table: SpreadTable, *, device: str, golfers: int, strength: float) -> list[Expected]:
    """Return what simulated golfers' fittings expect under a table."""
    found = []
    for seed in range(golfers):
        for_golfer, for_clubs, for_order, for_balls = np.random.default_rng(seed).spawn(4)
        golfer = make_golfer("low", for_golfer)
        clubs = make_clubs(6, for_clubs, strength=strength)
        order = ORDERS["blocks"](6, 60, for_order)
        visit = simulate_visit(golfer, clubs, order, for_balls, DEVICES[device], Disturbances())
        beliefs = Beliefs(doubt=1.0, traits=TRAITS, table=table)
        found.append(expected(set_up(balls_of(visit, NAMES), beliefs)))
    return found


def test_what_clubs_do_is_learned_from_a_table_that_was_wrong_by_half() -> None:
    start = SpreadTable(club_parts=0.5 * JUDGED.club_parts, club_strike=0.5 * JUDGED.club_strike)
    table = learn(
        lambda known: told(known, device="full", golfers=60, strength=2.0), start, rounds=5
    )
    # Clubs do twice what the judged table says; 60 golfers know a spread to about a tenth, and
    # head speed takes some of what the warm-up leaves.
    ratio = table.club_parts / (2.0 * TRUE_PARTS)
    assert np.all((ratio > 0.8) & (ratio < 1.3)), ratio
    strike = table.club_strike / (2.0 * JUDGED.club_strike)
    assert np.all((strike > 0.5) & (strike < 1.5)), strike


def test_a_golfers_scatter_is_learned_back() -> None:
    wrong = SpreadTable(parts=0.7 * JUDGED.parts, strike=1.4 * JUDGED.strike)
    table = learn(lambda known: told(known, device="full", golfers=40, strength=1.0), wrong, 3)
    assert table.parts == pytest.approx(JUDGED.parts, rel=0.25)
    assert table.strike == pytest.approx(JUDGED.strike, rel=0.25)


def test_with_ball_data_alone_only_what_clubs_do_to_launch_is_learned() -> None:
    one = told(JUDGED, device="ball-only", golfers=1, strength=1.0)[0]
    assert np.isfinite(one.clubs).all()
    assert np.isnan(one.parts[:4]).all()
    assert np.isnan(one.strike).all()
    table = learned([one] * 20, JUDGED)
    assert np.array_equal(table.parts[:4], JUDGED.parts[:4])
    assert np.array_equal(table.strike, JUDGED.strike)


def test_a_fitting_that_says_nothing_leaves_the_table_as_it_was() -> None:
    silent = Expected(
        clubs=np.full(7, np.nan),
        floor=np.full(5, np.nan),
        parts=np.full(5, np.nan),
        strike=np.full(2, np.nan),
    )
    table = learned([silent] * 20, JUDGED)
    assert np.allclose(table.club_parts, JUDGED.club_parts, rtol=1e-12)
    assert np.allclose(table.club_floor, JUDGED.club_floor, rtol=1e-12)


def test_too_few_fittings_teach_nothing() -> None:
    with pytest.raises(EvidenceError, match="19 fittings") as refused:
        learned(told(JUDGED, device="ball-only", golfers=1, strength=1.0) * 19, JUDGED)
    assert refused.value.mend

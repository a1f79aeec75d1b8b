"""Balls that the fitter calls odd count for nothing, are listed, and come back as they were."""

from dataclasses import replace

import numpy as np
import pytest

from fittings import made_balls, with_launch
from loftwright.domain.home import Home
from loftwright.errors import EvidenceError
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, can_be_valued, compare, decide
from loftwright.evidence.device_carry import decide_on_carry
from loftwright.evidence.marks import candidates
from loftwright.evidence.odd import SET_ASIDE
from loftwright.evidence.result import Decision
from loftwright.evidence.visit import Beliefs


def compared(balls: Balls) -> Comparison:
    return compare(balls, Home(), Beliefs())


def decided(balls: Balls) -> Decision:
    return decide(compared(balls), Budget())


def without(balls: Balls, *which: int) -> Balls:
    return replace(balls, set_aside=np.isin(np.arange(len(balls)), which))


def test_a_ball_set_aside_counts_as_if_it_had_not_been_read() -> None:
    balls = made_balls(1)
    aside = compared(without(balls, 5))
    gone = compared(balls.take(np.delete(np.arange(len(balls)), 5)))
    assert aside.value.tolist() == gone.value.tolist()
    assert aside.value_covariance.tolist() == gone.value_covariance.tolist()
    assert aside.standing is not None
    assert gone.standing is not None
    assert aside.standing.p_best.tolist() == gone.standing.p_best.tolist()


def test_it_is_listed_without_weight_among_the_odd_balls() -> None:
    balls = made_balls(1)
    launch = np.array(balls.launch)
    launch[9, 2] *= 3.0
    odd = decided(without(with_launch(balls, launch), 5, 20)).odd_balls
    by_row = {one.row: one for one in odd}
    assert [one.row for one in odd] == sorted(by_row)
    assert by_row[7].weight == by_row[22].weight == 0.0
    assert by_row[7].why == SET_ASIDE == "set aside by the fitter"
    assert 0.0 < by_row[11].weight < 0.5


def test_its_part_of_the_plain_difference_is_among_the_odd_balls() -> None:
    balls = made_balls(1)
    launch = np.array(balls.launch)
    launch[5, 0] -= 20.0
    wild = with_launch(balls, launch)
    club = balls.clubs[balls.club[5]]
    before = decided(balls.take(np.delete(np.arange(len(balls)), 5)))
    decision = decided(without(wild, 5))
    for pair in decision.pairs:
        assert pair.parts is not None
        assert pair.raw_total is not None
        assert pair.parts.sum() == pytest.approx(pair.raw_total, abs=1e-9)
        same = next(one for one in before.pairs if {one.a, one.b} == {pair.a, pair.b})
        assert same.parts is not None
        assert pair.parts.club == same.parts.club
        moved = pair.parts.odd_balls - same.parts.odd_balls
        if club in {pair.a, pair.b}:
            assert moved * (-1.0 if pair.a == club else 1.0) > 1.0
        else:
            assert moved == pytest.approx(0.0, abs=1e-9)


def test_taken_back_it_leaves_no_trace() -> None:
    balls = made_balls(1)
    undone = replace(without(balls, 5), set_aside=np.zeros(len(balls), dtype=np.bool_))
    assert decided(undone) == decided(balls)


def test_a_ball_set_aside_is_not_counted_with_its_club() -> None:
    balls = made_balls(1)
    before = {one.club: one.balls for one in decided(balls).clubs}
    after = {one.club: one.balls for one in decided(without(balls, 5)).clubs}
    assert sum(before.values()) - sum(after.values()) == 1


def test_a_missing_axis_of_a_ball_set_aside_stands_at_its_clubs_mean() -> None:
    balls = made_balls(1)
    launch = np.array(balls.launch)
    launch[5, 3:] = np.nan
    decision = decided(without(with_launch(balls, launch), 5))
    for pair in decision.pairs:
        assert pair.parts is not None
        assert pair.raw_total is not None
        assert pair.parts.sum() == pytest.approx(pair.raw_total, abs=1e-9)


def test_its_mark_stays_a_mark_of_its_set_without_a_ball() -> None:
    balls = made_balls(1, set_of=3, missing_marks=0.0)
    kept = without(balls, 4).that_count()
    (spare,) = kept.spare_marks
    assert (spare.toe, spare.high) == tuple(balls.marks[4].tolist())
    assert len(candidates(kept).orders[1]) == 6
    assert candidates(kept).orders[1].shape[1] == 2


def test_with_every_ball_of_value_set_aside_nothing_can_be_valued() -> None:
    balls = made_balls(1, balls=8)
    everything = replace(balls, set_aside=np.ones(8, dtype=np.bool_))
    assert can_be_valued(balls)
    assert not can_be_valued(everything)
    with pytest.raises(EvidenceError):
        decide_on_carry(replace(everything, carry=np.full(8, 200.0)), Beliefs(), Budget())


def test_a_devices_carry_leaves_it_out_too() -> None:
    balls = replace(made_balls(1), carry=200.0 + np.arange(24.0) % 5.0)
    aside = decide_on_carry(without(balls, 5), Beliefs(), Budget())
    gone = decide_on_carry(balls.take(np.delete(np.arange(len(balls)), 5)), Beliefs(), Budget())
    assert aside.clubs == gone.clubs
    assert aside.pairs == gone.pairs
    assert next(one for one in aside.odd_balls if one.weight == 0.0).row == 7


def test_a_club_whose_balls_are_all_set_aside_is_not_ranked() -> None:
    balls = made_balls(1)
    decision = decided(without(balls, *np.flatnonzero(balls.club == 2)))
    last = decision.clubs[-1]
    assert last.club == "Birch"
    assert last.balls == 0
    assert last.plain_total is None
    assert last.p_best is None

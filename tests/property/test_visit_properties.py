"""What must hold of fittings with several visits, marks of several errors and balls set aside."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bay_fittings import joined_visits
from fittings import made_balls
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, compare, decide
from loftwright.evidence.visit import Beliefs

seeds = st.integers(min_value=0, max_value=10_000)


def compared(balls: Balls) -> Comparison:
    return compare(balls, Home(), Beliefs())


def visits_of(seed: int, count: int) -> Balls:
    return joined_visits(tuple(made_balls(seed + place, balls=12) for place in range(count)))


@settings(max_examples=10, deadline=None)
@given(seed=seeds, order=st.permutations(range(3)))
def test_relabelling_the_visits_changes_nothing(seed: int, order: list[int]) -> None:
    balls = visits_of(seed, 3)
    other = replace(balls, visit=np.array(order)[balls.visit])
    first, second = compared(balls), compared(other)
    assert second.value == pytest.approx(first.value, abs=1e-7)
    assert second.value_covariance == pytest.approx(first.value_covariance, abs=1e-7)


@settings(max_examples=10, deadline=None)
@given(seed=seeds, gap=st.integers(1, 5))
def test_numbers_that_visits_leave_out_change_nothing(seed: int, gap: int) -> None:
    balls = visits_of(seed, 2)
    other = replace(balls, visit=balls.visit * gap)
    assert compared(other).value.tolist() == compared(balls).value.tolist()


@settings(max_examples=30, deadline=None)
@given(
    seed=seeds,
    visits=st.integers(1, 3),
    aside=st.sampled_from([0.0, 0.1, 0.4]),
    coarse=st.sampled_from([0.0, 0.5]),
    missing_cells=st.sampled_from([0.0, 0.1]),
    set_of=st.sampled_from([0, 3]),
)
def test_parts_sum_whatever_was_set_aside_and_however_marks_were_read(
    seed: int, visits: int, aside: float, coarse: float, missing_cells: float, set_of: int
) -> None:
    made = [
        made_balls(seed + place, balls=12, missing_cells=missing_cells, set_of=set_of)
        for place in range(visits)
    ]
    sets = [
        replace(one, mark_set=np.where(one.mark_set < 0, -1, one.mark_set + 100 * place))
        for place, one in enumerate(made)
    ]
    balls = joined_visits(tuple(sets))
    rng = np.random.default_rng(seed)
    error = np.where(rng.random(len(balls)) < coarse, 0.006, balls.mark_error)
    balls = replace(balls, mark_error=error, set_aside=rng.random(len(balls)) < aside)
    decision = decide(compared(balls), Budget())
    plain = {club.club: club.plain_total for club in decision.clubs}
    for pair in decision.pairs:
        if pair.parts is not None and pair.raw_total is not None:
            assert pair.parts.sum() == pytest.approx(pair.raw_total, abs=1e-9)
            first, second = plain[pair.a], plain[pair.b]
            assert first is not None
            assert second is not None
            assert first - second == pytest.approx(pair.raw_total, abs=1e-9)
    gone = {one.row for one in decision.odd_balls if one.weight == 0.0}
    assert gone == set(balls.row[balls.set_aside].tolist())

"""How the study of shop records weighs, sums and compares fittings."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.shop.learning import learn_from
from loftwright.training.shop_fittings import recorded_fittings
from loftwright.training.shop_kinds import SHOP_KINDS
from loftwright.training.shop_study import KEPT, Taught, fresh_records, rows_of, weighed
from loftwright.training.shop_world import ROWS, draw_shop

SHOP = draw_shop(SHOP_KINDS["golfers made by impact"], 5)


def test_an_odd_ball_counts_little_in_the_record() -> None:
    fitting = recorded_fittings(SHOP, 1)[0]
    launch = fitting.recorded.balls.launch.copy()
    launch[7, 0] += 25.0 * MILE_PER_HOUR
    balls = replace(fitting.recorded.balls, launch=launch)
    odd = replace(fitting, recorded=replace(fitting.recorded, balls=balls))
    weights = weighed(odd).weights
    assert weights is not None
    assert 0.0 < weights.min() == weights[7] < 0.2
    assert weights.max() <= 1.0


def test_the_sums_hold_every_ball_of_which_all_was_measured() -> None:
    record = [weighed(one) for one in recorded_fittings(SHOP, 5)]
    rows = rows_of(record)
    assert sum(row["n"] for row in rows) == sum(len(one.balls) for one in record)
    marked = sum(row["n"] for row in rows if row["marked"])
    assert marked == sum(int(np.isfinite(one.balls.marks).all(axis=1).sum()) for one in record)


def test_both_beliefs_are_asked_of_the_same_balls_and_clubs() -> None:
    """A shop that learned from nothing believes physics, if in another form."""
    told = Taught(shop=SHOP, learned=learn_from((), {}, made=date.min), belongs={})
    records = fresh_records(told, 2, ROWS[:1])
    assert [one["number"] for one in records] == [0, 1]
    for one in records:
        assert set(one["physics"]) == set(one["learned"]) == set(KEPT)
        assert one["learned"]["width"] == pytest.approx(one["physics"]["width"], rel=0.5)
        assert 0.0 <= one["learned"]["regret"] < 100.0 * YARD

"""A plan keeps the seed that shuffled it."""

import pytest

from loftwright.constants import YARD
from loftwright.errors import UsageError
from loftwright.services.plan import SCATTER, PlanRequest, plan_fitting

REQUEST = PlanRequest(clubs=5, balls=40, difference=3.0 * YARD, scatter=SCATTER["mid"])


def test_a_seed_gives_the_same_plan_again() -> None:
    first = plan_fitting(REQUEST)
    again = plan_fitting(REQUEST, first.seed)
    assert again == first


def test_without_a_seed_no_order_becomes_a_habit() -> None:
    assert len({plan_fitting(REQUEST).seed for _ in range(8)}) == 8


def test_a_seed_below_nothing_is_wrong_use() -> None:
    with pytest.raises(UsageError, match="cannot be a seed"):
        plan_fitting(REQUEST, -1)

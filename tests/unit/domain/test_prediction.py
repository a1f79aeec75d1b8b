"""A prediction names each quantity once, and its wider ranges hold its narrower ones."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from loftwright.domain.home import Home
from loftwright.domain.prediction import Forecast, Prediction, Rests
from loftwright.errors import InputError

TOTAL = Forecast(quantity="total", mean=230.0, ranges=((225.0, 235.0), (220.0, 240.0), (214, 246)))
WHOLE = Prediction(
    after=3,
    set_up="Ash",
    bay="Bay 1",
    device="meter",
    at=datetime(2026, 5, 14, tzinfo=UTC),
    rests=Rests.BALLS,
    home=Home(),
    forecasts=(TOTAL,),
    program="0",
)


@pytest.mark.parametrize(
    ("value", "held"),
    [
        (230.0, (True, True, True)),
        (225.0, (True, True, True)),
        (224.9, (False, True, True)),
        (240.1, (False, False, True)),
        (246.1, (False, False, False)),
    ],
)
def test_a_range_holds_what_lies_between_its_ends(
    value: float, held: tuple[bool, bool, bool]
) -> None:
    assert TOTAL.holds(value) == held


def test_ranges_that_cross_and_unknown_quantities_are_refused() -> None:
    with pytest.raises(InputError, match="wider"):
        replace(TOTAL, ranges=((225.0, 235.0), (226.0, 240.0), (214.0, 246.0)))
    with pytest.raises(InputError, match="smash"):
        replace(TOTAL, quantity="smash")


def test_a_prediction_says_something_and_nothing_twice() -> None:
    with pytest.raises(InputError, match="once"):
        replace(WHOLE, forecasts=())
    with pytest.raises(InputError, match="once"):
        replace(WHOLE, forecasts=(TOTAL, TOTAL))
    with pytest.raises(InputError, match="begun"):
        replace(WHOLE, after=0)


def test_a_quantity_is_found_by_its_name() -> None:
    assert WHOLE.forecast("total") == TOTAL
    assert WHOLE.forecast("carry") is None

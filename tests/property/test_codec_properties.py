"""Whatever an act tells comes back from its JSON to the last digit."""

from datetime import UTC, datetime, timedelta, timezone
from math import inf, nan
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from act_strategies import TOLD, texts
from loftwright.domain import acts
from loftwright.domain.acts import Act
from loftwright.domain.fitting import PlanCard
from loftwright.domain.home import Home
from loftwright.errors import InputError, SchemaError
from loftwright.store.codec import (
    ACTS,
    act_of,
    act_text,
    finite,
    home_of,
    home_text,
    instant_of,
    instant_text,
    kind_of,
)


def test_every_act_has_a_strategy_and_a_kind_of_its_own() -> None:
    assert set(TOLD) == set(get_args(Act)) == set(ACTS.values())
    assert kind_of(acts.HandedOver) == "handed_over"
    assert len(ACTS) == len(TOLD)


@pytest.mark.parametrize("act", TOLD, ids=kind_of)
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_an_act_comes_back_from_its_text(act: type, data: st.DataObject) -> None:
    told = data.draw(TOLD[act])
    found = act_of(kind_of(act), act_text(told))
    assert found == told
    assert repr(found) == repr(told)


@settings(max_examples=100, deadline=None)
@given(
    name=texts,
    temperature=st.floats(263.15, 318.15),
    along=st.floats(-9.0, 9.0),
    across=st.floats(-9.0, 9.0),
)
def test_a_home_comes_back_from_its_text(
    name: str, temperature: float, along: float, across: float
) -> None:
    home = Home(name=name, temperature=temperature, wind_along=along, wind_across=across)
    assert home_of(home_text(home)) == home


@settings(max_examples=100, deadline=None)
@given(
    at=st.datetimes(min_value=datetime(1000, 1, 2), max_value=datetime(9998, 12, 30)),  # noqa: DTZ001 - zones follow
    hours=st.integers(-12, 14),
    other=st.datetimes(min_value=datetime(1000, 1, 2), max_value=datetime(9998, 12, 30)),  # noqa: DTZ001 - zones follow
)
def test_an_instant_comes_back_in_utc_and_its_text_sorts_by_time(
    at: datetime, hours: int, other: datetime
) -> None:
    first = at.replace(tzinfo=timezone(timedelta(hours=hours)))
    second = other.replace(tzinfo=UTC)
    assert instant_of(instant_text(first)) == first
    assert instant_of(instant_text(first)).tzinfo is UTC
    assert (instant_text(first) < instant_text(second)) == (first < second)


def test_an_instant_without_a_zone_is_refused() -> None:
    with pytest.raises(InputError, match="has no zone"):
        instant_text(datetime(2026, 5, 14))  # noqa: DTZ001 - that is what is refused


@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_a_number_that_json_would_lose_is_refused(value: float) -> None:
    with pytest.raises(InputError, match="would not come back"):
        act_text(acts.Planned(plan=PlanCard(sets=(), seconds=value)))
    with pytest.raises(InputError, match="cannot be kept"):
        finite("carry", value)


def test_a_text_that_is_no_text_is_refused() -> None:
    with pytest.raises(InputError, match="as UTF-8"):
        act_text(acts.HandedOver(club="Own\ud800"))


def test_an_act_that_this_version_does_not_know_is_named() -> None:
    with pytest.raises(SchemaError, match="'danced'"):
        act_of("danced", "{}")

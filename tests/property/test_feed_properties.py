"""What must hold of any ball of a feed: each key comes back, and nothing hostile breaks it."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from loftwright.errors import LoftwrightError
from loftwright.intake.feed import FeedShot, shot_from_record
from loftwright.intake.feed_keys import KEYS, NUMBER_KEYS, NumberKey
from loftwright.intake.feed_model import FEED_MODEL
from loftwright.intake.quantities import QUANTITIES
from loftwright.units import to_unit

DIRECT = [key for key in NUMBER_KEYS.values() if QUANTITIES[key.means].field]
VALUES = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(),
        st.sampled_from([10**400, -(10**4000), 1e308, -0.0]),
        st.floats(),
        st.text(st.characters(), max_size=12),
        st.binary(max_size=4),
    ),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner),
    max_leaves=5,
)
NAMES = st.one_of(st.sampled_from(KEYS), st.text(st.characters(), max_size=20), st.integers())
KEYED = st.builds(
    lambda record, key: {**record, "key": key},
    st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=6),
    st.text(st.characters(), max_size=12),
)


def taken_or_refused(record: object) -> FeedShot | LoftwrightError:
    try:
        return shot_from_record(record)
    except LoftwrightError as error:
        return error


@st.composite
def good_numbers(draw: st.DrawFn, key: NumberKey) -> float:
    return draw(st.floats(key.low, key.high))


@pytest.mark.parametrize("key", DIRECT, ids=lambda key: key.name)
@given(st.data())
def test_every_key_comes_back_in_its_own_unit(key: NumberKey, data: st.DataObject) -> None:
    value = data.draw(good_numbers(key))
    numbers = shot_from_record({"key": "1", key.name: value}).numbers
    kept = getattr(numbers, QUANTITIES[key.means].field)
    assert to_unit(kept, key.unit) == pytest.approx(value, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("key", NUMBER_KEYS.values(), ids=lambda key: key.name)
@given(st.data())
def test_a_number_outside_its_limits_is_refused_by_its_name(
    key: NumberKey, data: st.DataObject
) -> None:
    outside = st.floats(min_value=key.high, exclude_min=True) | st.floats(
        max_value=key.low, exclude_max=True
    )
    with pytest.raises(LoftwrightError) as caught:
        shot_from_record({"key": "1", key.name: data.draw(outside)})
    assert caught.value.place == key.name
    assert caught.value.mend


@given(st.one_of(VALUES, KEYED, st.dictionaries(NAMES, VALUES, max_size=6)))
def test_a_hostile_record_meets_only_our_own_errors(record: object) -> None:
    outcome = taken_or_refused(record)
    if isinstance(outcome, FeedShot):
        outcome.line.encode("utf-8")
        outcome.key.encode("utf-8")
    else:
        assert outcome.mend
        assert len(str(outcome)) < 600


@given(KEYED)
def test_what_the_parser_takes_the_schema_takes(record: dict[str, object]) -> None:
    try:
        shot_from_record(record)
    except LoftwrightError:
        return
    FEED_MODEL.model_validate(record)


@given(st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=6))
def test_what_the_schema_refuses_the_parser_refuses(record: dict[str, object]) -> None:
    try:
        FEED_MODEL.model_validate(record)
    except ValidationError:
        with pytest.raises(LoftwrightError):
            shot_from_record(record)


@given(st.data())
def test_the_same_ball_sent_again_is_the_same_value(data: st.DataObject) -> None:
    record: dict[str, object] = {"key": data.draw(st.text("ab1-", min_size=1))}
    chosen = data.draw(st.lists(st.sampled_from(DIRECT), min_size=1, max_size=6))
    taken = {key.means: key for key in chosen}
    record |= {key.name: data.draw(good_numbers(key)) for key in taken.values()}
    sent = json.loads(json.dumps(record))
    assert shot_from_record(sent) == shot_from_record(record)

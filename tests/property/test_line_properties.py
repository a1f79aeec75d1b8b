"""What must hold of any typed line: what is typed comes back, and nothing breaks the reader."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.errors import LoftwrightError
from loftwright.intake.feed_keys import NUMBER_KEYS, NumberKey
from loftwright.intake.line import ball_from_line
from loftwright.intake.line_order import WORDS, LineOrder
from loftwright.intake.quantities import QUANTITIES
from loftwright.units import to_unit

DIRECT = [key for key in NUMBER_KEYS.values() if QUANTITIES[key.means].field]
PIECES = st.one_of(
    st.sampled_from([*WORDS, "mark", "club", "unread", "5t", "3h", "toe-high", "-", "2L", "148"]),
    st.sampled_from(["12.1", "m/s", "66m/s", "=", ",", "1e5", "--", "\u22122", "Elm", "far"]),
    st.floats().map(str),
    st.text(st.characters(), max_size=6),
)


@pytest.mark.parametrize("key", DIRECT, ids=lambda key: key.name)
@given(st.data())
@settings(max_examples=40)
def test_every_quantity_comes_back_in_its_unit(key: NumberKey, data: st.DataObject) -> None:
    tenths = data.draw(st.integers(int(10 * key.low) + 1, int(10 * key.high)))
    word = key.means.replace(" ", "")
    text = f"{word} {tenths / 10:.1f} {key.unit}"
    numbers = ball_from_line(text, LineOrder(), key="1").shot.numbers
    kept = getattr(numbers, QUANTITIES[key.means].field)
    assert to_unit(kept, key.unit) == pytest.approx(tenths / 10, rel=1e-9, abs=1e-9)


@given(st.lists(PIECES, max_size=10).map(" ".join))
@settings(max_examples=400)
def test_any_line_is_a_ball_or_refused_by_name(text: str) -> None:
    try:
        ball = ball_from_line(text, LineOrder(), key="1", clubs=["Elm"])
    except LoftwrightError as error:
        told = error
    else:
        assert ball.shot.line == text
        return
    assert told.place
    assert told.mend

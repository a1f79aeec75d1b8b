"""A day on paper is the visit's."""

from datetime import date

import pytest

from loftwright.errors import InputError
from loftwright.services.paper import day_of


def test_a_day_is_read_and_none_stays_none() -> None:
    assert day_of("2026-05-14") == date(2026, 5, 14)
    assert day_of(None) is None


@pytest.mark.parametrize("text", ["14.5.2026", "2026-02-30", "today", ""])
def test_a_text_that_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="is no day"):
        day_of(text)

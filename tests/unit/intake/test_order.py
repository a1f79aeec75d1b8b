"""Ball numbers and times as tables write them."""

import pytest

from loftwright.intake.body import day_of
from loftwright.intake.order import ball_number, clock


@pytest.mark.parametrize(
    ("text", "number"),
    [("7", 7.0), ("Ball 12", 12.0), ("#3", 3.0), ("4.", 4.0), ("5,0", 5.0), ("range", None)],
)
def test_ball_numbers_may_have_words_about_them(text: str, number: float | None) -> None:
    assert ball_number(text) == number


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("10:02:03", 36123.0),
        ("2026-05-01T10:02:03Z", 36123.0),
        ("01.05.2026 10:02", 36120.0),
        ("5/1/2026 1:02:03.5 PM", 46923.5),
        ("12:30 am", 1800.0),
        ("12:30 p.m.", 45000.0),
        ("10h02", 36120.0),
        ("25:00", None),
        ("2026-05-01", None),
        ("soon", None),
    ],
)
def test_times_are_read_in_many_forms(text: str, seconds: float | None) -> None:
    assert clock(text) == seconds


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-05-01 10:02", "2026-05-01"),
        ("1.5.2026 10:02", "1.5.2026"),
        ("05/01/26", "05/01/26"),
        ("1. Mai 2026, 10:02", "1. Mai 2026"),
        ("May 1, 2026", "May 1, 2026"),
        ("2026年5月1日 10:02", "2026年5月1日"),
        ("10:02", ""),
        ("", ""),
    ],
)
def test_days_are_known_by_their_form(text: str, day: str) -> None:
    assert day_of(text) == day

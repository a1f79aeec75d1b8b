"""The overall distance standard, old and revised.

Sources: notices of the governing bodies 2003 and 2004 (120 mph head speed, 10 degrees,
42 rev/s = 2520 rpm, limit 317 yd with 3 yd of tolerance), read; their announcement of December
2023 as the press reported it (125 mph head speed, 183 mph ball speed, 11 degrees, 37 rev/s =
2220 rpm, the same limit; a ball of today loses 13 to 15 yd to it for the fastest swings). The rule
may have changed since; these checks use it as a measurement, not as a rule. The old ball speed was
not printed: 120 times 183/125 (self-consistent). Air of 75 degrees Fahrenheit at sea level and
50 % humidity is from memory. A ball of today is taken to lie at the old limit (judgement).
"""

from drives import carry_and_total, conditions, drive

LIMIT = 317.0
TOLERANCE = 3.0
OLD = drive(120.0 * 183.0 / 125.0, 10.0, 2520.0)
REVISED = drive(183.0, 11.0, 2220.0)


def test_a_ball_of_today_lies_at_the_old_limit() -> None:
    _, total = carry_and_total(OLD, conditions())
    assert LIMIT - TOLERANCE <= total <= LIMIT + TOLERANCE


def test_the_revised_test_costs_a_ball_of_today_what_was_announced() -> None:
    _, old = carry_and_total(OLD, conditions())
    _, revised = carry_and_total(REVISED, conditions())
    assert 13.0 <= revised - old <= 15.0


def test_the_published_example_ball_keeps_the_old_limit() -> None:
    _, total = carry_and_total(OLD, conditions(lift_scale=1.0))
    assert total <= LIMIT + TOLERANCE

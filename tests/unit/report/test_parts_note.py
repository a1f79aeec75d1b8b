"""What stands under the parts of a difference."""

from loftwright.evidence.result import Parts
from loftwright.report.differences import parts_note

MEASURED = Parts(odd_balls=0.1, strike=1.0, swing=2.0, warm_up=0.5, club=3.0, left_over=0.2)
BARE = Parts(odd_balls=0.1, strike=0.0, swing=0.0, warm_up=0.5, club=3.0, left_over=0.2)


def test_one_day_with_every_column_needs_no_note() -> None:
    assert parts_note(MEASURED, 1) == ""


def test_days_are_named_only_where_there_are_several() -> None:
    assert parts_note(MEASURED, 2) == "Warm-up holds what differs between the days, too."
    assert "days" not in parts_note(BARE, 1)


def test_what_was_not_measured_comes_first() -> None:
    told = parts_note(BARE, 2)
    assert told.startswith("Strike and swing were not measured")
    assert told.endswith("between the days, too.")

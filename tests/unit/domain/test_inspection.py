"""Balls since the last look, and when the next is due."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from loftwright.domain.inspection import USUAL_BALLS, Finding, Inspection, wear_of
from loftwright.domain.rack import Piece
from loftwright.errors import InputError

LOOK = Inspection(
    piece="p1", at=datetime(2026, 11, 25, 9, tzinfo=UTC), balls=300, finding=Finding.SOUND
)


def test_balls_are_counted_from_the_newest_look() -> None:
    wear = wear_of(799, (replace(LOOK, balls=10), LOOK), None)
    assert (wear.balls, wear.since, wear.every, wear.due) == (799, 499, USUAL_BALLS, False)
    assert wear_of(800, (LOOK,), None).due


def test_a_piece_that_nobody_looked_at_counts_every_ball() -> None:
    assert wear_of(120, (), 120).due
    assert not wear_of(119, (), 120).due


def test_balls_taken_back_by_a_correction_leave_none_since() -> None:
    assert wear_of(290, (LOOK,), None).since == 0


@pytest.mark.parametrize("finding", [Finding.WORN, Finding.CRACKED])
def test_a_fault_needs_a_word_on_what_was_seen(finding: Finding) -> None:
    with pytest.raises(InputError) as refused:
        replace(LOOK, finding=finding, words="  ")
    assert refused.value.place == "words"


@pytest.mark.parametrize("every", [0, 100_001])
def test_inspections_come_after_a_number_of_balls_that_can_be(every: int) -> None:
    with pytest.raises(InputError) as refused:
        Piece(id="p1", model="s1", check_after=every)
    assert refused.value.place == "check_after"

"""A complaint: its looks, its ending, and what the findings suggest, over all of them."""

from dataclasses import replace
from datetime import UTC, date, datetime
from itertools import product

import pytest

from loftwright.domain.after_acts import (
    Complained,
    ComplaintEnded,
    Ending,
    Found,
    Look,
    LookedAt,
)
from loftwright.domain.check_acts import Against, PickedUp, PickUpBegun
from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.workshop.complaint import (
    ComplaintNow,
    Suggested,
    Why,
    complaint_now,
    suggested,
)

AT = datetime(2026, 8, 1, 9, tzinfo=UTC)
SAID = Complained(day=date(2026, 8, 1), words="it was longer in your bay")
SAME, DIFFERENT, NOT_KNOWN = Found.SAME, Found.DIFFERENT, Found.NOT_KNOWN
EVERY = [
    {look: found for look, found in zip(Look, told, strict=True) if found is not None}
    for told in product((None, *Found), repeat=len(Look))
]
"""Every way in which six looks can end or not have been taken."""

MEASURED, BALL, PLACE = Look.MEASURED, Look.BALL, Look.PLACE
WARM_UP, SETTINGS, HIT = Look.WARM_UP, Look.SETTINGS, Look.HIT_AGAIN


def now(*acts: JobAct) -> ComplaintNow:
    return complaint_now(
        tuple(
            JobEntry(sequence=place, at=AT, by="", act=act, group=place)
            for place, act in enumerate(acts, start=1)
        )
    )


def club_differs(found: dict[Look, Found]) -> bool:
    return DIFFERENT in {found.get(MEASURED), found.get(SETTINGS)}


def cleared(found: dict[Look, Found]) -> bool:
    by_bench = found.get(MEASURED) is SAME and found.get(SETTINGS) is SAME
    return not club_differs(found) and (found.get(HIT) is SAME or by_bench)


def test_every_combination_of_findings_is_tried() -> None:
    assert len(EVERY) == 4**6
    assert {suggested(found).ending for found in EVERY} == {None, *Ending}
    assert {suggested(found).why for found in EVERY} == set(Why)


def test_the_club_is_blamed_only_by_what_was_found_of_it() -> None:
    for found in EVERY:
        blamed = suggested(found).ending is Ending.CLUB
        of_club = club_differs(found) and found.get(HIT) is not SAME
        of_balls = not club_differs(found) and found.get(HIT) is DIFFERENT
        assert blamed == (of_club or of_balls), found


def test_swing_and_conditions_are_named_only_for_a_club_that_was_cleared() -> None:
    for found in EVERY:
        told = suggested(found)
        if told.ending in {Ending.CONDITIONS, Ending.SWING}:
            assert cleared(found), found
            assert found.get(HIT) is not DIFFERENT, found
        if told.ending is Ending.CONDITIONS:
            assert DIFFERENT in {found.get(BALL), found.get(PLACE)}, found
        if told.ending is Ending.SWING:
            assert DIFFERENT not in {found.get(BALL), found.get(PLACE)}, found


def test_nothing_is_given_up_before_every_look_unless_findings_contradict() -> None:
    for found in EVERY:
        told = suggested(found)
        if told.ending is Ending.CANNOT_TELL and told.why is not Why.CONTRADICTS:
            assert set(found) == set(Look), found
        if told.ending is None:
            assert set(found) != set(Look), found
            assert told.why is Why.LOOK_ON


def test_a_club_that_plays_alike_but_measures_otherwise_is_left_open() -> None:
    for found in EVERY:
        contradicts = club_differs(found) and found.get(HIT) is SAME
        assert (suggested(found).why is Why.CONTRADICTS) == contradicts, found


def test_looking_on_never_turns_the_club_s_fault_into_the_golfer_s() -> None:
    """One more finding about ball, place or warm-up does not change what the club's looks say."""
    for found in EVERY:
        if suggested(found).ending is Ending.CLUB:
            for look, more in product((BALL, PLACE, WARM_UP), Found):
                assert suggested({**found, look: more}).ending is Ending.CLUB


@pytest.mark.parametrize(
    ("found", "ending", "why"),
    [
        ({}, None, Why.LOOK_ON),
        ({MEASURED: DIFFERENT}, Ending.CLUB, Why.MEASURES_OTHERWISE),
        ({SETTINGS: DIFFERENT}, Ending.CLUB, Why.SET_OTHERWISE),
        ({HIT: DIFFERENT}, Ending.CLUB, Why.PLAYS_OTHERWISE),
        ({MEASURED: SAME, HIT: DIFFERENT}, Ending.CLUB, Why.HIDDEN),
        ({MEASURED: SAME, PLACE: DIFFERENT}, None, Why.LOOK_ON),
        (
            {MEASURED: SAME, SETTINGS: SAME, PLACE: DIFFERENT},
            Ending.CONDITIONS,
            Why.OTHER_PLACE,
        ),
        ({HIT: SAME, BALL: DIFFERENT}, Ending.CONDITIONS, Why.OTHER_BALL),
        (
            {HIT: SAME, BALL: DIFFERENT, PLACE: DIFFERENT},
            Ending.CONDITIONS,
            Why.OTHER_BALL_AND_PLACE,
        ),
        ({HIT: SAME, WARM_UP: DIFFERENT}, Ending.SWING, Why.COLD),
        (
            {HIT: SAME, BALL: SAME, PLACE: SAME, WARM_UP: SAME},
            Ending.SWING,
            Why.ONLY_SWING_LEFT,
        ),
        (dict.fromkeys(Look, NOT_KNOWN), Ending.CANNOT_TELL, Why.NOTHING_FOUND),
        (
            {**dict.fromkeys(Look, NOT_KNOWN), PLACE: DIFFERENT},
            Ending.CANNOT_TELL,
            Why.NOT_CLEARED,
        ),
        ({**dict.fromkeys(Look, SAME), HIT: NOT_KNOWN}, Ending.CANNOT_TELL, Why.NOTHING_FOUND),
    ],
)
def test_what_is_suggested(found: dict[Look, Found], ending: Ending | None, why: Why) -> None:
    assert suggested(found) == Suggested(ending=ending, why=why)


def test_a_complaint_gathers_its_looks_in_order_and_the_newest_of_each() -> None:
    ball = LookedAt(look=BALL, found=NOT_KNOWN)
    again = LookedAt(look=BALL, found=DIFFERENT, words="range balls")
    measured = LookedAt(look=MEASURED, found=SAME)
    told = now(SAID, ball, again, measured).open
    assert told is not None
    assert list(told.looks.values()) == [measured, again]
    assert told.next_look is PLACE


def test_an_ended_complaint_stays_on_record_and_the_next_begins_bare() -> None:
    look = LookedAt(look=MEASURED, found=DIFFERENT)
    ended = ComplaintEnded(ending=Ending.CLUB, words="loft was turned back")
    other = Complained(day=date(2026, 9, 1), words="it goes left now")
    told = now(SAID, look, ended, other)
    assert told.earlier[0].said == SAID
    assert told.earlier[0].looks == {MEASURED: look}
    assert told.earlier[0].ended == ended
    assert told.open is not None
    assert (told.open.said, dict(told.open.looks)) == (other, {})
    assert told.suggested.ending is None


def test_of_several_that_ended_the_newest_comes_first() -> None:
    ended = ComplaintEnded(ending=Ending.CANNOT_TELL)
    other = Complained(day=date(2026, 9, 1), words="again")
    told = now(SAID, ended, other, ended)
    assert [one.said for one in told.earlier] == [other, SAID]
    assert told.open is None


def test_looks_and_endings_without_a_complaint_tell_nothing() -> None:
    told = now(LookedAt(look=BALL, found=SAME), ComplaintEnded(ending=Ending.SWING))
    assert told.open is None
    assert told.earlier == ()


def test_balls_that_were_hit_again_are_heard_and_those_of_before_are_not() -> None:
    begun = PickUpBegun(built="Fir", tested="Ash", visit=1, complaint=True)
    first = PickedUp(against=Against.CONSISTENT, taken=True)
    again = PickedUp(against=Against.NOT, taken=False)
    before, after = now(first, SAID).open, now(first, SAID, begun, again).open
    assert before is not None
    assert before.balls is None
    assert after is not None
    assert after.balls is Against.NOT
    plain = replace(begun, complaint=False)
    other = now(SAID, plain, first).open
    assert other is not None
    assert other.balls is None


def test_an_ending_that_is_undone_opens_the_complaint_again() -> None:
    look = LookedAt(look=MEASURED, found=SAME)
    told = now(SAID, look, ComplaintEnded(ending=Ending.SWING), JobUndone(act=3))
    assert told.open is not None
    assert told.open.looks == {MEASURED: look}
    assert told.earlier == ()

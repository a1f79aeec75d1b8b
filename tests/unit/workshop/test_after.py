"""What stands after a club was taken, read from the job's record."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from loftwright.constants import YARD
from loftwright.domain.after_acts import FollowedUp, Played, Round, StillPlayed
from loftwright.domain.check_acts import Against, Outcome, PickedUp, PickUpBegun, Received
from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.domain.order_acts import Withdrawn
from loftwright.workshop.after import AfterNow, after_now
from taken_clubs import quoted, spec

AT = datetime(2026, 5, 14, 9, tzinfo=UTC)
TAKEN = PickedUp(against=None, taken=True)
RECEIVED = Received(measured="", looked={}, outcome=Outcome.ACCEPT, second="Q.")
KEPT = FollowedUp(day=date(2026, 7, 1), answer=StillPlayed.KEPT)


def after(*acts: JobAct, zone: str = "UTC", at: datetime = AT) -> AfterNow | None:
    record = tuple(
        JobEntry(sequence=place, at=at, by="", act=act, group=place)
        for place, act in enumerate(acts, start=1)
    )
    return after_now(record, 45, ZoneInfo(zone))


def played(day: int, fairways: int, course: str = "Mossy Bottom") -> Round:
    return Round(
        day=date(2026, 6, day),
        course=course,
        drives=13,
        fairways=fairways,
        total=231.0 * YARD,
        measured=6,
    )


def test_a_taken_club_is_asked_after_when_its_days_have_passed() -> None:
    now = after(quoted(), TAKEN)
    assert now is not None
    assert (now.taken, now.due) == (AT.date(), AT.date() + timedelta(days=45))
    assert now.spec == spec()


def test_the_day_is_the_shop_s_own() -> None:
    late = datetime(2026, 5, 14, 23, 30, tzinfo=UTC)
    now = after(TAKEN, zone="Asia/Tokyo", at=late)
    assert now is not None
    assert now.taken == date(2026, 5, 15)
    assert now.spec is None


def test_nothing_stands_before_the_golfer_has_the_club() -> None:
    assert after() is None
    assert after(quoted(), PickedUp(against=None, taken=False)) is None
    assert after(TAKEN, PickedUp(against=None, taken=False)) is None
    assert after(TAKEN, Withdrawn(reason="sent back")) is None
    assert after(TAKEN, JobUndone(act=1)) is None


def test_who_was_asked_is_asked_again_only_on_the_day_that_was_set() -> None:
    again = FollowedUp(day=KEPT.day, answer=StillPlayed.NO_ANSWER, again=date(2026, 7, 15))
    asked, heard = after(TAKEN, again), after(TAKEN, again, KEPT)
    assert asked is not None
    assert asked.due == date(2026, 7, 15)
    assert heard is not None
    assert heard.due is None
    assert heard.asked == (again, KEPT)


def test_a_club_that_is_taken_anew_is_asked_after_anew() -> None:
    now = after(TAKEN, KEPT, TAKEN)
    assert now is not None
    assert now.due == AT.date() + timedelta(days=45)
    assert now.asked == ()


def test_a_club_that_was_only_hit_again_for_a_complaint_is_not_taken_anew() -> None:
    begun = PickUpBegun(built="Fir", tested="Ash", visit=1, complaint=True)
    again = PickedUp(against=Against.CONSISTENT, taken=True)
    asked = after(TAKEN, KEPT, Played(rounds=(played(3, 6),)), begun, again)
    assert asked is not None
    assert (asked.asked, asked.due, len(asked.rounds)) == ((KEPT,), None, 1)
    stays = after(TAKEN, KEPT, begun, PickedUp(against=Against.NOT, taken=False))
    assert stays is None
    mended = after(TAKEN, KEPT, begun, RECEIVED, again)
    assert mended is not None
    assert mended.asked == ()
    assert mended.due == AT.date() + timedelta(days=45)


def test_a_quote_after_the_pick_up_is_of_another_club() -> None:
    now = after(quoted(), TAKEN, quoted(None))
    assert now is not None
    assert now.spec == spec()


def test_a_round_of_the_same_day_and_course_takes_the_place_of_the_one_before() -> None:
    first = Played(rounds=(played(3, 6), played(9, 7)))
    second = Played(rounds=(played(3, 8, "mossy  bottom"), played(3, 5, "Other")))
    now = after(TAKEN, first, second)
    assert now is not None
    assert now.rounds == (played(3, 8, "mossy  bottom"), played(3, 5, "Other"), played(9, 7))


def test_rounds_before_the_club_was_taken_do_not_count() -> None:
    early = Round(day=AT.date() - timedelta(days=1), course="", drives=13, fairways=6)
    now = after(Played(rounds=(early, played(3, 6))), TAKEN)
    assert now is not None
    assert now.rounds == (played(3, 6),)

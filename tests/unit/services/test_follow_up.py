"""Who is due to be asked, who must not be, and which days an answer or a round can have."""

from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from loftwright.domain.after_acts import Complained, FollowedUp, Round, StillPlayed
from loftwright.domain.check_acts import PickedUp
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.terms import Terms
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.follow_up import (
    add_rounds,
    ask,
    complain,
    follow_ups,
    how_many_due,
    taken_club,
)
from loftwright.services.job import undo_job
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from loftwright.store.sqlite import open_store
from taken_clubs import Shop


@pytest.fixture
def shop() -> Shop:
    return Shop()


def names(shop: Shop, which: str) -> list[str]:
    return [one.golfer.identity.name for one in getattr(follow_ups(shop.studio), which)]


def a_round(day: date) -> Round:
    return Round(day=day, course="Mossy Bottom", drives=13, fairways=7)


def test_who_has_waited_longest_comes_first(shop: Shop) -> None:
    for name in ("Ottoline", "Peregrine", "Quentin"):
        shop.taken(shop.fitting(name))
        shop.later(10)
    shop.later(30)
    assert names(shop, "due") == ["Ottoline", "Peregrine"]
    assert names(shop, "later") == ["Quentin"]
    first = follow_ups(shop.studio).due[0]
    assert first.after.due == date(2026, 11, 25) + timedelta(days=45)


def test_nobody_is_asked_a_day_too_early(shop: Shop) -> None:
    shop.taken(shop.fitting())
    shop.later(44)
    assert names(shop, "due") == []
    shop.later(1)
    assert names(shop, "due") == ["Ottoline Brambleby"]


def test_the_shop_settles_after_how_many_days(shop: Shop) -> None:
    shop.taken(shop.fitting())
    change_terms(shop.studio, Terms(follow_up_days=7), version=read_terms(shop.studio).version)
    shop.later(7)
    assert names(shop, "due") == ["Ottoline Brambleby"]


def test_an_order_without_a_taken_club_is_not_due(shop: Shop) -> None:
    shop.ordered(shop.fitting("Ordered"))
    off, left = shop.fitting("Off"), shop.fitting("Left")
    shop.taken(off)
    shop.do(off, Withdrawn(reason="sent back"))
    shop.taken(left)
    shop.do(left, PickedUp(against=None, taken=False))
    shop.later(400)
    told = follow_ups(shop.studio)
    assert (told.due, told.not_contacted, told.later) == ((), (), ())


def test_who_did_not_agree_is_never_among_those_to_be_asked(shop: Shop) -> None:
    shop.taken(shop.fitting("Silent", contact=False))
    assert names(shop, "later") == []
    shop.later(60)
    assert names(shop, "due") == []
    assert names(shop, "not_contacted") == ["Silent"]


def test_an_answer_takes_a_golfer_off_the_list_and_a_later_day_puts_back(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    shop.later(50)
    today = shop.studio.today()
    again = today + timedelta(days=14)
    ask(shop.studio, fitting, FollowedUp(day=today, answer=StillPlayed.NO_ANSWER, again=again))
    assert names(shop, "due") == []
    assert names(shop, "later") == ["Ottoline Brambleby"]
    shop.later(14)
    assert names(shop, "due") == ["Ottoline Brambleby"]
    ask(shop.studio, fitting, FollowedUp(day=again, answer=StillPlayed.KEPT))
    shop.later(400)
    told = follow_ups(shop.studio)
    assert (told.due, told.later) == ((), ())


@pytest.mark.parametrize(
    ("days", "message"), [(1, "still to come"), (-51, "did not have the club")]
)
def test_a_day_lies_between_pick_up_and_today(shop: Shop, days: int, message: str) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    shop.later(50)
    day = shop.studio.today() + timedelta(days=days)
    with pytest.raises(InputError, match=message):
        ask(shop.studio, fitting, FollowedUp(day=day, answer=StillPlayed.KEPT))
    with pytest.raises(InputError, match=message):
        add_rounds(shop.studio, fitting, [a_round(shop.studio.today()), a_round(day)])
    with pytest.raises(InputError, match=message):
        complain(shop.studio, fitting, Complained(day=day, words="short"))
    now = taken_club(shop.studio, fitting)
    assert now is not None
    assert (now.asked, now.rounds) == ((), ())


def test_the_first_and_the_last_day_count(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    first = shop.studio.today()
    shop.later(3)
    add_rounds(shop.studio, fitting, [a_round(first), a_round(shop.studio.today())])
    now = taken_club(shop.studio, fitting)
    assert now is not None
    assert len(now.rounds) == 2


def test_again_is_a_later_day(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    today = shop.studio.today()
    with pytest.raises(InputError, match="no later day"):
        ask(shop.studio, fitting, FollowedUp(day=today, answer=StillPlayed.KEPT, again=today))


def test_nothing_is_written_of_a_club_that_nobody_has(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.ordered(fitting)
    before = shop.studio.store.job_record(fitting)
    today = shop.studio.today()
    with pytest.raises(InputError, match="does not have the club"):
        ask(shop.studio, fitting, FollowedUp(day=today, answer=StillPlayed.KEPT))
    with pytest.raises(InputError, match="does not have the club"):
        add_rounds(shop.studio, fitting, [a_round(today)])
    with pytest.raises(InputError, match="does not have the club"):
        complain(shop.studio, fitting, Complained(day=today, words="short"))
    assert shop.studio.store.job_record(fitting) == before


def test_one_complaint_at_a_time(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    said = Complained(day=shop.studio.today(), words="short")
    complain(shop.studio, fitting, said)
    with pytest.raises(InputError, match="open already"):
        complain(shop.studio, fitting, said)
    shop.later(50)
    assert follow_ups(shop.studio).due[0].complaint


def test_a_stale_page_writes_nothing(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    asked = FollowedUp(day=shop.studio.today(), answer=StillPlayed.KEPT)
    with pytest.raises(ConflictError):
        ask(shop.studio, fitting, asked, seen=1)


def test_how_many_are_due_is_as_many_as_the_list_has(shop: Shop) -> None:
    for name, contact in (("Ottoline", True), ("Silent", False), ("Peregrine", True)):
        shop.taken(shop.fitting(name, contact=contact))
    assert how_many_due(shop.studio) == 0
    shop.later(45)
    assert how_many_due(shop.studio) == len(follow_ups(shop.studio).due) == 2


def test_an_undone_pick_up_is_seen_at_once(shop: Shop) -> None:
    fitting = shop.fitting()
    shop.taken(fitting)
    shop.later(45)
    assert how_many_due(shop.studio) == 1
    undo_job(shop.studio, fitting, len(shop.studio.store.job_record(fitting)))
    assert how_many_due(shop.studio) == 0


def test_of_an_erased_golfer_nobody_is_asked(shop: Shop, tmp_path: Path) -> None:
    with closing(open_store(tmp_path)) as store:
        shop.studio = Studio(store=store, folder=tmp_path, clock=shop.clock)
        gone, here = shop.fitting("Zwetschge"), shop.fitting("Ottoline")
        shop.taken(gone)
        shop.taken(here)
        shop.later(45)
        assert how_many_due(shop.studio) == 2
        store.keys.forget(store.fitting(gone).value.golfer)
        assert names(shop, "due") == ["Ottoline"]
        assert how_many_due(shop.studio) == 1
        again = Studio(store=store, folder=tmp_path, clock=shop.clock)
        assert [one.fitting for one in follow_ups(again).due] == [here]
        assert how_many_due(again) == 1


def test_an_unknown_fitting_is_said(shop: Shop) -> None:
    with pytest.raises(NotFoundError):
        taken_club(shop.studio, "f9")

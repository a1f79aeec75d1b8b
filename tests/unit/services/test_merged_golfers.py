"""Two records of one golfer: one page, one bag, one code; and two again when it was a mistake."""

from dataclasses import replace
from datetime import date

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import Closed
from loftwright.domain.bag import Bag
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.bags import keep_bag, read_bag
from loftwright.services.day import fittings_today
from loftwright.services.evidence import Desk
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer, change_golfer, golfers_called, known_golfer
from loftwright.services.merging import merge, merged_into, take_apart
from loftwright.services.one_golfer import records_of, who_is
from loftwright.services.shop_record import recorded_of
from loftwright.services.studio import Studio
from studios import studio_in_memory

ALL = Consents(keep=True, contact=True, publish=True, shop_record=True, given_on=date(2026, 3, 1))
SOME = Consents(keep=True, shop_record=True, given_on=date(2026, 5, 1))


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def a_golfer(
    studio: Studio, name: str, consents: Consents = ALL, *, hand: Hand = Hand.RIGHT
) -> Golfer:
    return add_golfer(studio, Golfer(id="", consents=consents, hand=hand), Identity(name=name))


def test_the_first_record_stands_for_both_wherever_the_golfer_is_asked_for(
    studio: Studio,
) -> None:
    first, second = a_golfer(studio, "Ottoline Brambleby"), a_golfer(studio, "O. Brambleby")
    older = open_fitting(studio, second.id, bay="Bay 1")
    told = merge(studio, second.id, first.id, by="Ann")
    assert (told.first, told.second, told.by) == (first.id, second.id, "Ann")
    assert known_golfer(studio, second.id).golfer.id == first.id
    assert list(golfers_called(studio, "")) == [first.id]
    assert records_of(studio, second.id) == (first.id, second.id)
    assert who_is(studio, second.id).name == "Ottoline Brambleby"
    assert open_fitting(studio, second.id, bay="Bay 1").golfer == first.id
    assert studio.store.fitting(older.id).value.golfer == second.id
    named = {one.fitting.id: one.name for one in fittings_today(studio, Desk())}
    assert named[older.id] == "Ottoline Brambleby"


def test_the_stricter_consents_hold_for_both_until_the_golfer_is_asked_again(
    studio: Studio,
) -> None:
    first, second = a_golfer(studio, "A", ALL), a_golfer(studio, "B", SOME)
    merge(studio, second.id, first.id)
    for one in (first.id, second.id):
        assert studio.store.golfer(one).value.consents == Consents(
            keep=True, shop_record=True, given_on=date(2026, 3, 1)
        )


def test_taken_apart_each_is_as_it_was(studio: Studio) -> None:
    first, second = a_golfer(studio, "A", ALL), a_golfer(studio, "B", SOME)
    merge(studio, second.id, first.id)
    take_apart(studio, second.id)
    assert studio.store.golfer(first.id).value == first
    assert studio.store.golfer(second.id).value == second
    assert merged_into(studio, first.id) == ()
    with pytest.raises(NotFoundError):
        take_apart(studio, second.id)


def test_an_answer_given_since_stands_for_both_after_they_are_taken_apart(
    studio: Studio,
) -> None:
    first, second = a_golfer(studio, "A", ALL), a_golfer(studio, "B", ALL)
    merge(studio, second.id, first.id)
    kept = studio.store.golfer(first.id)
    asked = Consents(keep=True, given_on=date(2026, 11, 25))
    studio.store.change_golfer(replace(kept.value, consents=asked), version=kept.version)
    take_apart(studio, second.id)
    assert studio.store.golfer(first.id).value.consents == asked
    assert studio.store.golfer(second.id).value.consents == asked


def test_a_third_record_joins_the_two_and_each_leaves_alone(studio: Studio) -> None:
    first, second, third = (a_golfer(studio, name) for name in "ABC")
    merge(studio, third.id, second.id)
    merge(studio, second.id, first.id)
    assert records_of(studio, third.id) == (first.id, *sorted((second.id, third.id)))
    take_apart(studio, second.id)
    assert records_of(studio, first.id) == (first.id,)
    assert records_of(studio, second.id) == (second.id, third.id)


def test_what_is_no_second_record_is_refused_with_the_reason(studio: Studio) -> None:
    first, second = a_golfer(studio, "A"), a_golfer(studio, "B")
    left = a_golfer(studio, "C", hand=Hand.LEFT)
    with pytest.raises(InputError, match="left-handed"):
        merge(studio, left.id, first.id)
    with pytest.raises(InputError, match="already"):
        merge(studio, first.id, first.id)
    with pytest.raises(NotFoundError):
        merge(studio, "nobody", first.id)
    merge(studio, second.id, first.id)
    with pytest.raises(InputError, match="already"):
        merge(studio, second.id, first.id)
    other = a_golfer(studio, "D")
    with pytest.raises(ConflictError, match="second record"):
        merge(studio, other.id, second.id)


def test_nobody_is_merged_or_taken_apart_while_hitting() -> None:
    bay = a_bay()
    bay.ball()
    second = a_golfer(bay.studio, "B")
    for pair in ((second.id, bay.golfer.id), (bay.golfer.id, second.id)):
        with pytest.raises(ConflictError, match="runs in Bay 1"):
            merge(bay.studio, *pair)
    bay.do(Closed())
    merge(bay.studio, second.id, bay.golfer.id)
    again = a_bay(studio=bay.studio, clock=bay.clock)
    kept = bay.studio.store.fitting(again.fitting)
    bay.studio.store.change_fitting(
        replace(kept.value, golfer=bay.golfer.id), version=kept.version
    )
    again.ball()
    with pytest.raises(ConflictError, match="runs in Bay 1"):
        take_apart(bay.studio, second.id)


def test_one_bag_stands_for_both_records(studio: Studio) -> None:
    first, second = a_golfer(studio, "A"), a_golfer(studio, "B")
    keep_bag(studio, second.id, Bag(), version=0)
    merge(studio, second.id, first.id)
    found = read_bag(studio, second.id)
    assert found == read_bag(studio, first.id)
    keep_bag(studio, second.id, found.bag, version=found.version)
    assert read_bag(studio, first.id).version == found.version + 1


def test_the_shop_record_knows_both_by_one_code() -> None:
    bay = a_bay()
    for club in ("Own", "Ash", "Own", "Ash"):
        bay.hand(club)
        bay.balls(4)
    code = _code(bay)
    bay.do(Closed())
    first = a_golfer(bay.studio, "A")
    merge(bay.studio, bay.golfer.id, first.id)
    assert _code(bay) != code
    take_apart(bay.studio, bay.golfer.id)
    assert _code(bay) == code


def _code(bay: Bay) -> str:
    found = recorded_of(bay.studio, Desk(), bay.fitting)
    assert found is not None
    return found.golfer


def test_an_answer_given_to_the_first_record_holds_for_the_second(studio: Studio) -> None:
    first, second = a_golfer(studio, "A", ALL), a_golfer(studio, "B", SOME)
    merge(studio, second.id, first.id)
    known = known_golfer(studio, second.id)
    asked = Consents(keep=True, contact=True, given_on=date(2026, 11, 25))
    change_golfer(
        studio, replace(known.golfer, consents=asked), known.identity, version=known.version
    )
    assert studio.store.golfer(second.id).value.consents == asked

"""Where parts are: moved from where they are or not at all, with who did it and when."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.domain import acts
from loftwright.domain.fitting import Fitting
from loftwright.domain.place import AWAY, PlaceMove
from loftwright.domain.rack import Piece
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.golfers import ERASED
from loftwright.store.interface import Store
from store_samples import AT, GOLFER, RACK, WHO, with_fitting, with_rack


def test_a_part_is_where_it_was_moved_last_and_says_by_whom(store: Store) -> None:
    with_rack(store)
    piece = first_piece()
    before = store.item(piece.id).version
    move = PlaceMove(piece=piece.id, was=piece.place, place="Bay 2", at=AT, by="Quill")
    number = store.check_out([move])
    found = store.item(piece.id)
    assert isinstance(found.value, Piece)
    assert found.value.place == "Bay 2"
    assert found.version == before + 1
    assert (store.places()[piece.id].by, store.places()[piece.id].number) == ("Quill", number)
    assert store.places()[piece.id].at == AT


def test_a_part_that_is_elsewhere_stays_there_with_all_that_should_move_with_it(
    store: Store,
) -> None:
    with_rack(store)
    one, other = pieces()[:2]
    good = PlaceMove(piece=one.id, was=one.place, place="Bay 2", at=AT)
    stale = PlaceMove(piece=other.id, was="nowhere near", place="Bay 2", at=AT)
    with pytest.raises(ConflictError) as refused:
        store.check_out([good, stale])
    assert refused.value.place == "place"
    assert store.rack().pieces[one.id].place == one.place
    assert store.places() == {}


def test_the_newest_moves_are_remembered_and_the_older_ones_are_not(store: Store) -> None:
    with_rack(store)
    piece = first_piece()
    was = piece.place
    for number in range(12):
        at = AT + timedelta(minutes=number)
        move = PlaceMove(piece=piece.id, was=was, place=f"Bay {number}", at=at)
        store.check_out([move])
        was = move.place
    kept = store.place_history(piece.id)
    assert [one.place for one in kept] == [f"Bay {number}" for number in range(11, 3, -1)]
    assert store.places()[piece.id].place == "Bay 11"


def test_numbers_of_moves_grow_over_all_parts(store: Store) -> None:
    with_rack(store)
    one, other = pieces()[:2]
    first = store.check_out([PlaceMove(piece=one.id, was=one.place, place="Bay 1", at=AT)])
    second = store.check_out([PlaceMove(piece=other.id, was=other.place, place="Bay 1", at=AT)])
    again = store.check_out([PlaceMove(piece=one.id, was="Bay 1", place="Bay 1", at=AT)])
    assert first < second < again


def test_a_golfer_who_has_it_away_is_named_by_id_and_must_be_known(store: Store) -> None:
    with_rack(store)
    piece = first_piece()
    move = PlaceMove(piece=piece.id, was=piece.place, place=AWAY, at=AT, golfer=GOLFER.id)
    with pytest.raises(NotFoundError):
        store.check_out([move])
    store.add_golfer(GOLFER, WHO)
    store.check_out([move])
    assert store.places()[piece.id].golfer == GOLFER.id


def test_what_is_no_part_and_a_time_without_a_zone_are_refused(store: Store) -> None:
    with_rack(store)
    piece = first_piece()
    with pytest.raises(NotFoundError):
        store.check_out([PlaceMove(piece="s1", was="", place="Bay 1", at=AT)])
    with pytest.raises(NotFoundError):
        store.place_history("s1")
    naive = PlaceMove(piece=piece.id, was=piece.place, place="Bay 1", at=AT.replace(tzinfo=None))
    with pytest.raises(InputError):
        store.check_out([naive])


def test_an_open_fitting_is_at_work_until_it_is_quiet_or_closed(store: Store) -> None:
    fitting = with_fitting(store)
    assert store.busy(AT) == ()
    store.append(fitting, [acts.HandedOver(club="Own")], at=AT, by="tablet")
    busy = store.busy(AT - timedelta(minutes=1))
    assert [(one.fitting, one.bay, one.by, one.at) for one in busy] == [
        (fitting, "Bay 1", "tablet", AT)
    ]
    assert store.busy(AT + timedelta(seconds=1)) == ()
    store.append(fitting, [acts.Closed()], at=AT + timedelta(minutes=2), by="")
    assert store.busy(AT) == ()


def pieces() -> list[Piece]:
    """Return the sample rack's parts."""
    return [item for item in RACK if isinstance(item, Piece)]


def first_piece() -> Piece:
    """Return the first of them."""
    return pieces()[0]


def test_a_second_record_and_a_check_are_marked_and_kept(store: Store) -> None:
    with_fitting(store)
    other = replace(GOLFER, id="g2", own=None, merged_into="g1")
    store.add_golfer(other, WHO)
    assert store.golfer("g2").value == other
    store.change_golfer(replace(other, merged_into=None), version=1)
    assert store.golfer("g2").value.merged_into is None
    check = Fitting(id="f2", golfer="g2", opened=AT.date(), bay="Bay 2", bay_check=True)
    store.open_fitting(check)
    assert [kept.value.bay_check for kept in store.fittings()] == [True, False]
    with pytest.raises(InputError):
        replace(GOLFER, merged_into=GOLFER.id)


def test_a_golfer_who_is_forgotten_is_nobody_and_keeps_no_limits(store: Store) -> None:
    with_fitting(store)
    store.set_limits(GOLFER.id, AT.date(), "half swings")
    store.forget_golfer(GOLFER.id)
    assert store.identity(GOLFER.id) == ERASED
    assert store.limits(GOLFER.id, AT.date()) == ""
    store.forget_golfer(GOLFER.id)
    with pytest.raises(NotFoundError):
        store.forget_golfer("nobody")

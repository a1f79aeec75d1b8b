"""Who opened a golfer's record is kept a line a while, and goes with the golfer; locks stay."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.domain.opening import Opening
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.door_interface import PairedDevice
from loftwright.store.interface import Store
from store_samples import AT, GOLFER, WHO, with_fitting

WHILE = timedelta(minutes=10)
ONE = Opening(golfer="g1", fitting="f1", device="d1", by="Quill", page="/fittings/f1/bay", at=AT)


def test_a_device_that_looks_again_within_the_while_is_kept_once(store: Store) -> None:
    with_fitting(store)
    assert store.keep_opening(ONE, within=WHILE)
    assert not store.keep_opening(replace(ONE, at=AT + timedelta(minutes=9)), within=WHILE)
    other = replace(ONE, device="", by="", fitting=None, at=AT + timedelta(minutes=9))
    later = replace(ONE, at=AT + timedelta(minutes=10), page="/golfers/g1")
    assert store.keep_opening(other, within=WHILE)
    assert store.keep_opening(later, within=WHILE)
    assert store.openings("g1", most=9) == (later, other, ONE)
    assert store.openings("g1", most=1) == (later,)


def test_another_golfers_record_is_another_line(store: Store) -> None:
    with_fitting(store)
    store.add_golfer(replace(GOLFER, id="g2", own=None), WHO)
    assert store.keep_opening(ONE, within=WHILE)
    second = replace(ONE, golfer="g2", fitting=None)
    assert store.keep_opening(second, within=WHILE)
    assert store.openings("g2", most=9) == (second,)


def test_a_record_shows_what_was_opened_of_those_merged_into_it(store: Store) -> None:
    with_fitting(store)
    store.add_golfer(replace(GOLFER, id="g2", own=None, merged_into="g1"), WHO)
    second = replace(ONE, golfer="g2", fitting=None, at=AT + timedelta(minutes=1))
    for one in (ONE, second):
        store.keep_opening(one, within=WHILE)
    assert store.openings("g1", most=9) == (second, ONE)
    assert store.openings("g2", most=9) == (second,)


def test_what_is_old_goes_and_nothing_else(store: Store) -> None:
    with_fitting(store)
    later = replace(ONE, at=AT + timedelta(days=1))
    for one in (ONE, later):
        store.keep_opening(one, within=WHILE)
    assert store.forget_openings(AT) == 0
    assert store.forget_openings(AT + timedelta(seconds=1)) == 1
    assert store.openings("g1", most=9) == (later,)


def test_who_opened_a_record_goes_with_the_golfer(store: Store) -> None:
    with_fitting(store)
    store.add_golfer(replace(GOLFER, id="g2", own=None), WHO)
    store.keep_opening(ONE, within=WHILE)
    store.keep_opening(replace(ONE, golfer="g2", fitting=None), within=WHILE)
    store.forget_golfer("g1")
    assert store.openings("g1", most=9) == ()
    assert len(store.openings("g2", most=9)) == 1


def test_an_opening_of_nobody_and_a_time_without_a_zone_are_refused(store: Store) -> None:
    with_fitting(store)
    for wrong in (replace(ONE, golfer="g9"), replace(ONE, fitting="f9")):
        with pytest.raises(NotFoundError):
            store.keep_opening(wrong, within=WHILE)
    with pytest.raises(NotFoundError):
        store.openings("g9", most=1)
    with pytest.raises(InputError):
        store.keep_opening(replace(ONE, at=AT.replace(tzinfo=None)), within=WHILE)
    assert store.openings("g1", most=9) == ()


def test_a_lock_is_changed_only_from_what_it_was(store: Store) -> None:
    store.pair(PairedDevice(id="d1", name="t", role="fitter", key_hash="aa", paired_at=AT))
    assert store.paired()[0].pin is None
    store.change_pin("d1", "one", was=None)
    with pytest.raises(ConflictError):
        store.change_pin("d1", "other", was=None)
    assert store.paired()[0].pin == "one"
    store.change_pin("d1", None, was="one")
    assert store.paired()[0].pin is None
    with pytest.raises(NotFoundError):
        store.change_pin("d9", "one", was=None)

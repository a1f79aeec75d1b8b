"""What every store does with the record of a fitting."""

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

import pytest

from loftwright.domain import acts
from loftwright.domain.acts import ClubJoined, Felt, HandedOver, ShotArrived, Undone
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import InputError
from loftwright.store.interface import Store
from records import card, numbers
from store_samples import AT, DAY, EVERY_ACT, with_fitting


def test_every_kind_of_act_is_in_the_suite() -> None:
    assert {type(act) for act in EVERY_ACT} == set(acts.Act.__args__)


def test_every_act_comes_back_to_the_last_digit(store: Store) -> None:
    fitting = with_fitting(store)
    written = [
        store.append(fitting, [act], at=AT + timedelta(seconds=place), by="tablet").entries[0]
        for place, act in enumerate(EVERY_ACT)
    ]
    assert store.record(fitting) == tuple(written)
    assert [entry.act for entry in store.record(fitting)] == list(EVERY_ACT)
    assert [entry.sequence for entry in written] == list(range(1, len(EVERY_ACT) + 1))


def test_acts_written_together_share_a_group(store: Store) -> None:
    fitting = with_fitting(store)
    store.append(fitting, [HandedOver(club="Own")], at=AT, by="a")
    both = store.append(
        fitting, [acts.NotRead(), ShotArrived(numbers=numbers()), acts.Rested()], at=AT, by="b"
    )
    assert [(one.sequence, one.group) for one in both.entries] == [(2, 2), (3, 2), (4, 2)]
    assert store.record(fitting, after=2) == both.entries[1:]


def test_a_key_writes_once_and_answers_the_same(store: Store) -> None:
    fitting = with_fitting(store)
    shot = ShotArrived(numbers=numbers(), line="the device's own line")
    first = store.append(fitting, [shot, acts.NotRead()], at=AT, by="feed", key="k1")
    again = store.append(
        fitting, [ShotArrived(numbers=numbers(99))], at=AT + timedelta(1), by="x", key="k1"
    )
    assert (first.repeated, again.repeated) == (False, True)
    assert again.entries == first.entries
    assert len(store.record(fitting)) == 2


def test_keys_are_a_fittings_own_and_no_key_repeats_nothing(store: Store) -> None:
    fitting = with_fitting(store)
    store.open_fitting(Fitting(id="f2", golfer="g1", opened=DAY))
    for where in (fitting, "f2"):
        assert not store.append(where, [acts.NotRead()], at=AT, by="", key="k").repeated
    for _ in range(2):
        assert not store.append(fitting, [acts.NotRead()], at=AT, by="").repeated
    assert len(store.record(fitting)) == 3


def test_one_key_from_many_threads_writes_once(store: Store) -> None:
    fitting = with_fitting(store)

    def send(_: int) -> tuple[int, bool]:
        shot = ShotArrived(numbers=numbers())
        found = store.append(fitting, [shot], at=AT, by="feed", key="same")
        return found.entries[0].sequence, found.repeated

    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(send, range(8)))
    assert {sequence for sequence, _ in answers} == {1}
    assert sorted(repeated for _, repeated in answers) == [False] + 7 * [True]


def test_many_threads_leave_no_gap_in_the_sequence(store: Store) -> None:
    fitting = with_fitting(store)
    with ThreadPoolExecutor(8) as pool:
        list(
            pool.map(
                lambda place: store.append(
                    fitting, [ShotArrived(numbers=numbers())], at=AT, by="", key=str(place)
                ),
                range(60),
            )
        )
    assert [one.sequence for one in store.record(fitting)] == list(range(1, 61))


def test_two_thousand_balls_come_back_in_order_and_from_anywhere(store: Store) -> None:
    fitting = with_fitting(store)
    written = tuple(
        store.append(
            fitting,
            [ShotArrived(numbers=numbers(100.0 + place / 37.0), line=f"{place};Größe")],
            at=AT + timedelta(seconds=place),
            by="feed",
            key=str(place),
        ).entries[0]
        for place in range(2000)
    )
    assert store.record(fitting) == written
    assert store.record(fitting, after=1990) == written[1990:]
    assert store.record(fitting, after=2000) == ()


def test_any_script_and_control_character_comes_back(store: Store) -> None:
    text = "Åsa “Østby” 高尔夫 🏌️ \x00\x1f\t\r\n\u2028 '; DROP TABLE shots; --"
    store.add_golfer(Golfer(id="g1", goal=text), Identity(name=text, contact=text))
    store.set_limits("g1", DAY, text)
    store.open_fitting(Fitting(id="f1", golfer="g1", opened=DAY, bay=text))
    shot = ShotArrived(numbers=numbers(), club=text, line=text, time=text, device=text)
    store.append("f1", [shot, Felt(club=text, place=0.5, word=text)], at=AT, by=text, key=text)
    store.set_setting(text, text, version=0)
    first, second = store.record("f1")
    assert first.act == shot
    assert second.act == Felt(club=text, place=0.5, word=text)
    assert (first.by, second.key) == (text, text)
    assert store.golfer("g1").value.goal == store.identity("g1").contact == text
    assert store.limits("g1", DAY) == store.settings()[text] == text
    assert store.append("f1", [shot], at=AT, by="", key=text).entries == (first, second)


def test_a_time_without_a_zone_is_refused_and_writes_nothing(store: Store) -> None:
    fitting = with_fitting(store)
    with pytest.raises(InputError, match="no zone"):
        store.append(fitting, [acts.Rested()], at=AT.replace(tzinfo=None), by="")
    assert store.record(fitting) == ()


def test_an_empty_act_list_writes_nothing(store: Store) -> None:
    fitting = with_fitting(store)
    assert store.append(fitting, [], at=AT, by="", key="k").entries == ()
    assert store.record(fitting) == ()


def test_fittings_are_found_by_a_piece_that_ever_joined(store: Store) -> None:
    with_fitting(store)
    store.open_fitting(Fitting(id="f2", golfer="g1", opened=DAY))
    for fitting, club in (("f1", "Ash"), ("f2", "Birch")):
        store.append(fitting, [ClubJoined(club=club, card=card(club))], at=AT, by="Ann")
    store.append("f2", [Undone(act=1)], at=AT, by="Ann")
    ash = card("Ash")
    assert store.fittings_with([ash.shaft_piece]) == {"f1"}
    assert store.fittings_with([card("Birch").shaft_piece]) == {"f2"}
    assert store.fittings_with([ash.shaft_piece, "x", card("Birch").shaft_piece]) == {"f1", "f2"}
    assert store.fittings_with([ash.head_piece]) == {"f1", "f2"}
    assert store.fittings_with([]) == store.fittings_with(["' or 1=1 --"]) == frozenset()

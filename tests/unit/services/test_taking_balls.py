"""Balls are taken once, in the record of the golfer who hits."""

from concurrent.futures import ThreadPoolExecutor
from threading import Event

import pytest

from bays import Bay, a_bay, drive
from loftwright.bay.replay import replay
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.acts import Closed, Felt
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError, NotFoundError
from loftwright.services.acting import act
from loftwright.services.bay_acts import switch_to
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer
from loftwright.services.shots import Incoming, hitting, switch_golfer, take, take_all


@pytest.fixture
def bay() -> Bay:
    return a_bay()


@pytest.fixture
def partner(bay: Bay) -> str:
    golfer = add_golfer(bay.studio, Golfer(id=""), Identity(name="Hob Noughtley"))
    return open_fitting(bay.studio, golfer.id, bay="Bay 1", partner=bay.fitting).id


def incoming(key: str, speed_mph: float = 148.0, **more: object) -> Incoming:
    numbers = ShotNumbers(ball_speed=speed_mph * MILE_PER_HOUR)
    return Incoming(**{"numbers": numbers, "key": key, "device": "meter", **more})  # type: ignore[arg-type]


def balls_of(bay: Bay, fitting: str) -> int:
    return len(replay(bay.studio.record(fitting)).swings)


def test_a_ball_is_numbered_as_pages_show_it(bay: Bay) -> None:
    taken = take(bay.studio, bay.fitting, incoming("k1"), source="feed")
    assert (taken.fitting, taken.number, taken.club) == (bay.fitting, 1, "Own")
    assert not taken.repeated
    assert bay.now.swings[-1].sequence == taken.sequence


def test_a_warm_up_ball_has_no_number() -> None:
    cold = a_bay(warm=False)
    assert take(cold.studio, cold.fitting, incoming("k1"), source="feed").number == 0


def test_the_same_key_is_one_ball_and_the_first_one_stands(bay: Bay) -> None:
    first = take(bay.studio, bay.fitting, incoming("k1", 148.0), source="feed")
    again = take(bay.studio, bay.fitting, incoming("k1", 99.0), source="table")
    assert again.repeated
    assert (again.sequence, again.number) == (first.sequence, first.number)
    (swing,) = bay.now.swings
    assert swing.numbers is not None
    assert swing.numbers.ball_speed == 148.0 * MILE_PER_HOUR


def test_a_closed_fitting_takes_no_ball_but_answers_for_those_it_has(bay: Bay) -> None:
    first = take(bay.studio, bay.fitting, incoming("k1"), source="feed")
    bay.do(Closed())
    assert take(bay.studio, bay.fitting, incoming("k1"), source="feed").sequence == first.sequence
    with pytest.raises(ConflictError, match="closed"):
        take(bay.studio, bay.fitting, incoming("k2"), source="feed")
    assert balls_of(bay, bay.fitting) == 1


def test_the_key_of_something_else_takes_no_ball_and_says_so(bay: Bay) -> None:
    act(bay.studio, bay.fitting, [Felt(club="Ash", place=0.5)], key="tap")
    with pytest.raises(ConflictError, match="'tap' belongs to something else") as told:
        take(bay.studio, bay.fitting, incoming("tap"), source="feed")
    assert told.value.mend
    assert balls_of(bay, bay.fitting) == 0


def test_a_fitting_nobody_knows_takes_no_ball(bay: Bay) -> None:
    with pytest.raises(NotFoundError):
        take(bay.studio, "nothing", incoming("k1"), source="feed")


def test_a_club_that_the_sender_names_counts_where_the_fitting_has_it(bay: Bay) -> None:
    told = [
        take(bay.studio, bay.fitting, incoming(f"k{club}", club=club), source="feed").club
        for club in ("Birch", "Oak", "")
    ]
    assert told == ["Birch", "Own", "Own"]


def test_a_ball_that_was_not_read_is_a_ball_without_numbers(bay: Bay) -> None:
    taken = take(bay.studio, bay.fitting, incoming("k1", read=False), source="feed")
    swing = bay.now.swing(taken.sequence)
    assert swing is not None
    assert (swing.numbers, swing.number) == (None, 1)
    assert take(bay.studio, bay.fitting, incoming("k1", read=False), source="feed").repeated


def test_a_ball_typed_in_later_stands_where_it_was_hit(bay: Bay) -> None:
    first = take(bay.studio, bay.fitting, incoming("k1"), source="feed")
    last = take(bay.studio, bay.fitting, incoming("k2"), source="feed")
    typed = incoming("k3", after=first.sequence)
    between = take(bay.studio, bay.fitting, typed, source="keyboard")
    assert between.number == 2
    told = [one.sequence for one in bay.now.swings]
    assert told == [first.sequence, between.sequence, last.sequence]


def test_balls_of_a_file_keep_their_order_and_are_not_taken_twice(bay: Bay) -> None:
    first = [incoming("a"), incoming("b")]
    assert [one.number for one in take_all(bay.studio, bay.fitting, first, source="table")] == [
        1,
        2,
    ]
    more = [incoming("a"), incoming("b"), incoming("c")]
    taken = take_all(bay.studio, bay.fitting, more, source="table")
    assert [(one.number, one.repeated) for one in taken] == [(1, True), (2, True), (3, False)]


def test_the_ball_goes_to_the_golfer_who_hits_whichever_address_it_was_sent_to(
    bay: Bay, partner: str
) -> None:
    for turn, other in ((partner, bay.fitting), (bay.fitting, partner)):
        switch_to(bay.studio, other, turn)
        assert hitting(bay.studio, bay.fitting) == hitting(bay.studio, partner) == turn
        for address in (bay.fitting, partner):
            ball = incoming(f"{turn}-{address}")
            assert take(bay.studio, address, ball, source="feed").fitting == turn
    assert (balls_of(bay, bay.fitting), balls_of(bay, partner)) == (2, 2)


def test_without_a_turn_a_ball_goes_where_it_was_sent(bay: Bay, partner: str) -> None:
    taken = take(bay.studio, partner, incoming("k1"), source="feed")
    assert taken.fitting == partner


def test_the_turn_of_strangers_in_the_bay_does_not_count(bay: Bay, partner: str) -> None:
    stranger = add_golfer(bay.studio, Golfer(id=""), Identity(name="Ida Quern"))
    other = open_fitting(bay.studio, stranger.id, bay="Bay 1").id
    switch_golfer(bay.studio, partner, version=bay.studio.store.hitting("Bay 1").version)
    assert hitting(bay.studio, other) == other


def test_a_key_of_one_golfer_is_known_in_the_turn_of_the_other(bay: Bay, partner: str) -> None:
    switch_to(bay.studio, bay.fitting, partner)
    first = take(bay.studio, bay.fitting, incoming("k1"), source="feed")
    switch_to(bay.studio, bay.fitting, bay.fitting)
    again = take(bay.studio, bay.fitting, incoming("k1"), source="feed")
    assert again.repeated
    assert (again.fitting, again.sequence) == (first.fitting, first.sequence)
    assert balls_of(bay, bay.fitting) == 0


def test_a_turn_that_another_screen_gave_meanwhile_is_not_taken_unseen(
    bay: Bay, partner: str
) -> None:
    version = bay.studio.store.hitting("Bay 1").version
    switch_golfer(bay.studio, partner, version=version)
    with pytest.raises(ConflictError):
        switch_golfer(bay.studio, bay.fitting, version=version)
    assert hitting(bay.studio, bay.fitting) == partner


def test_one_ball_sent_from_many_sides_while_the_turn_changes_is_one_ball(
    bay: Bay, partner: str
) -> None:
    rounds = 40
    done = Event()

    def change_turns() -> None:
        turns = [bay.fitting, partner]
        while not done.is_set():
            switch_to(bay.studio, bay.fitting, turns[0])
            turns.reverse()

    with ThreadPoolExecutor(5) as sides:
        changing = sides.submit(change_turns)
        try:
            for number in range(rounds):
                ball = incoming(f"k{number}")
                sent = [
                    sides.submit(take, bay.studio, address, ball, source="feed")
                    for address in (bay.fitting, partner) * 2
                ]
                places = {(one.result().fitting, one.result().sequence) for one in sent}
                assert len(places) == 1
        finally:
            done.set()
        changing.result()
    assert balls_of(bay, bay.fitting) + balls_of(bay, partner) == rounds


def test_taking_a_ball_tells_who_sent_it(bay: Bay) -> None:
    take(bay.studio, bay.fitting, incoming("k1"), source="feed")
    take(bay.studio, bay.fitting, incoming("k2"), source="feed", by="tablet 2")
    act(bay.studio, bay.fitting, [], by="nobody", key="nothing")
    assert [entry.by for entry in bay.studio.record(bay.fitting)[-2:]] == ["meter", "tablet 2"]


def test_a_drive_keeps_every_digit(bay: Bay) -> None:
    told = drive(bay.rng, "Own", carry=231.7)
    take(bay.studio, bay.fitting, Incoming(numbers=told, key="k"), source="virtual")
    (swing,) = bay.now.swings
    assert swing.numbers == told

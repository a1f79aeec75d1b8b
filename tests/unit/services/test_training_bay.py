"""The training bay: kept apart, hit once a key, called once, and silent until then."""

from dataclasses import replace
from pathlib import Path

import pytest

from fakes import MemoryStore
from loftwright.domain.acts import ClubDropped, HandedOver, NotRead, Undone, VisitOpened
from loftwright.errors import ConflictError, InputError, NotFoundError, StoreError
from loftwright.services.acting import act
from loftwright.services.day import fittings_done, fittings_today
from loftwright.services.evidence import Desk
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.services.training_bay import (
    WARM_UP_BALLS,
    call_case,
    clubs_hit,
    open_case,
    swings_dropped,
    training_ball,
)
from loftwright.services.training_debrief import MOST_SNAPSHOTS, look_back
from loftwright.services.training_plays import Play, all_plays, is_training, keep_play, read_play
from loftwright.services.training_record import debrief_record
from loftwright.services.training_room import BAY, METER, TrainingRoom
from loftwright.services.training_words import debrief_words, truth_lanes
from loftwright.services.virtual_bay import virtual_ball, virtual_mark
from loftwright.training.case_files import case_named
from loftwright.training.debrief import TOO_CLOSE
from studios import Clock, studio_in_memory
from training_rooms import hit_all, played, room_in_memory, sets_of


@pytest.fixture
def room() -> Studio:
    return room_in_memory()


def hit(room: Studio, fitting: str, club: str, balls: int) -> None:
    act(room, fitting, [HandedOver(club=club)])
    for _ in range(balls):
        training_ball(room, fitting)


def test_a_case_opens_warm_with_its_clubs_and_an_order_of_play(room: Studio) -> None:
    fitting = open_case(room, "yarrow")
    now = room.standing(fitting)
    assert is_training(fitting)
    assert room.store.fitting(fitting).value.invented
    assert "(invented)" in room.store.identity(room.store.fitting(fitting).value.golfer).name
    assert [club.name for club in now.clubs] == ["Own", "Ash", "Birch", "Cedar"]
    assert now.visit is not None
    assert now.visit.warm
    assert now.swings_today == WARM_UP_BALLS
    assert now.balls == ()
    assert sum(balls for _, balls in sets_of(room, fitting)) == case_named("yarrow").balls


def test_blocks_hang_club_after_club(room: Studio) -> None:
    fitting = open_case(room, "tansy")
    assert sets_of(room, fitting) == (("Own", 12), ("Ash", 12), ("Birch", 12))


def test_the_same_seed_and_the_same_balls_give_the_same_record() -> None:
    told = []
    for _ in range(2):
        room = room_in_memory()
        fitting = open_case(room, "larkspur", seed=77)
        hit(room, fitting, "Ash", 3)
        hit(room, fitting, "Own", 2)
        told.append([(one.club, one.numbers, one.mark) for one in room.standing(fitting).balls])
    assert told[0] == told[1]


def test_a_key_hits_once_also_where_nothing_was_read(room: Studio) -> None:
    fitting = open_case(room, "campion")
    act(room, fitting, [HandedOver(club="Own")])
    for number in range(1, 9):
        first = training_ball(room, fitting, key=f"k{number}")
        again = training_ball(room, fitting, key=f"k{number}")
        assert not first.repeated
        assert again.repeated
        assert (first.number == 0) == (number == 6)
    record = room.record(fitting)
    assert len(clubs_hit(record)) == 8
    assert swings_dropped(record) == 1


def test_what_was_not_read_leaves_a_mark_that_a_tap_gives_to_its_ball(room: Studio) -> None:
    clock = Clock()
    room = room_in_memory(clock)
    fitting = open_case(room, "campion")
    act(room, fitting, [HandedOver(club="Own")])
    for _ in range(6):
        clock.forward(0.6)
        training_ball(room, fitting)
    now = room.standing(fitting)
    assert len(now.balls) == 5
    assert len(now.waiting) == 1
    act(room, fitting, [NotRead()])
    now = room.standing(fitting)
    assert now.waiting == ()
    assert now.balls[-1].numbers is None
    assert now.balls[-1].mark is not None


def test_a_club_that_was_not_in_hand_after_all_does_not_hit_its_balls_twice(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    hit(room, fitting, "Own", 1)
    act(room, fitting, [HandedOver(club="Ash")])
    handed = room.record(fitting)[-1].sequence
    training_ball(room, fitting)
    act(room, fitting, [Undone(act=handed)])
    training_ball(room, fitting)
    assert clubs_hit(room.record(fitting)) == ("Own", "Ash", "Own")


def test_the_virtual_golfer_of_the_bay_page_is_the_one_of_the_case(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    act(room, fitting, [HandedOver(club="Ash")])
    taken = virtual_ball(room, fitting, marked=False)
    other = room_in_memory()
    again = open_case(other, "larkspur")
    act(other, again, [HandedOver(club="Ash")])
    training_ball(other, again)
    assert room.standing(fitting).balls[0].numbers == other.standing(again).balls[0].numbers
    assert not virtual_mark(room, fitting, taken.sequence)


def test_a_ball_needs_a_club_in_hand(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    act(room, fitting, [VisitOpened(day=room.today(), bay=BAY, device=METER)])
    with pytest.raises(InputError, match="no club is in hand"):
        training_ball(room, fitting)


def test_nothing_is_told_before_the_call(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    hit(room, fitting, "Own", 3)
    with pytest.raises(ConflictError, match="stays hidden"):
        look_back(room, fitting)
    assert set(Play.__dataclass_fields__) == {"case", "seed", "call", "upto"}
    kept = "".join(path.read_text() for path in room.folder.rglob("*.json"))
    assert kept.strip() == '{"case": "larkspur", "seed": 10, "call": "", "upto": 0}'
    lesson = case_named("larkspur").lesson.split(".")[0]
    assert isinstance(room.store, MemoryStore)
    assert lesson not in repr(room.record(fitting))


def test_a_call_is_made_once_and_ends_the_balls(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    with pytest.raises(InputError, match="no ball was hit"):
        call_case(room, fitting, "Ash")
    hit(room, fitting, "Own", 3)
    with pytest.raises(InputError, match="no club of this case"):
        call_case(room, fitting, "Oak")
    first = call_case(room, fitting, "Ash")
    assert call_case(room, fitting, "Ash") == first
    with pytest.raises(ConflictError, match="Ash was called already"):
        call_case(room, fitting, "Own")
    with pytest.raises(ConflictError, match="closed"):
        training_ball(room, fitting)


def test_what_is_mended_after_the_call_does_not_move_the_debrief() -> None:
    clock = Clock()
    room = room_in_memory(clock)
    fitting = open_case(room, "larkspur")
    hit_all(room, fitting, clock)
    call_case(room, fitting, "Own")
    before = debrief_record(look_back(room, fitting))
    act(room, fitting, [ClubDropped(club="Ash")])
    assert debrief_record(look_back(room, fitting)) == before


def test_many_hand_overs_are_looked_at_in_few_steps(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    for club in ("Own", "Ash", "Birch") * 8:
        hit(room, fitting, club, 1)
    call_case(room, fitting, "Own")
    found = look_back(room, fitting).debrief
    assert len(found.snapshots) <= MOST_SNAPSHOTS
    assert found.snapshots[0].first == 1
    assert found.snapshots[-1].last == 24
    ends = [one.last for one in found.snapshots]
    assert [one.first for one in found.snapshots[1:]] == [last + 1 for last in ends[:-1]]


def test_a_call_after_one_club_costs_but_has_nothing_to_compare(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    hit(room, fitting, "Own", 2)
    call_case(room, fitting, TOO_CLOSE)
    words = debrief_words(look_back(room, fitting))
    assert "costs 4.8 yd, 0.30 strokes a round" in words.sentence
    assert [line.partition(":")[0] for line in words.decided] == ["What sets Birch apart from Own"]


def test_without_the_own_club_everything_is_held_against_the_mean(room: Studio) -> None:
    fitting = open_case(room, "larkspur")
    for club in ("Ash", "Birch") * 3:
        hit(room, fitting, club, 3)
    call_case(room, fitting, "Birch")
    lanes, zero = truth_lanes(look_back(room, fitting).debrief)
    assert zero == "the mean of the clubs"
    compared = [lane for lane in lanes if lane.club != "Own"]
    assert sum(lane.truth for lane in compared) == pytest.approx(0.0, abs=1e-9)
    plain = [lane.plain for lane in compared if lane.plain is not None]
    assert sum(plain) == pytest.approx(0.0, abs=1e-9)


def test_a_debrief_speaks_in_sentences() -> None:
    words = debrief_words(played("larkspur", call="Ash"))
    assert words.sentence == (
        "Birch was best: your call, Ash, costs 4.3 yd, 0.27 strokes a round."
    )
    assert "plain averages would have said Ash" in words.said[0]
    low = next(one for one in words.decided if "struck 11 mm lower" in one)
    assert low.startswith("Balls 6, 10, 11, 12, 19 and 20 with Birch")
    assert "plain averages would have said Birch instead of Ash" in low
    assert "nothing to find" in debrief_words(played("sorrel")).sentence
    assert debrief_words(played("comfrey", call="Own")).sentence == (
        "Own was best, and you called it."
    )
    assert (
        "What sets Birch apart from Own: 1.5 mph more head speed and 0.3° more upward attack."
        in (words.decided)
    )
    assert debrief_words(played("tansy")).decided[-1] == (
        "The golfer was still warming up: on average head speed was short by 4.0 mph with Own, "
        "1.9 mph with Ash and 0.9 mph with Birch."
    )
    dropped = debrief_words(played("campion")).decided[-1]
    assert dropped == "3 balls were hit and not read; 3 of them were said to be so."


def test_the_room_lies_in_a_folder_of_its_own_and_joins_nothing(tmp_path: Path) -> None:
    shop = studio_in_memory()
    shop.folder = tmp_path
    training = TrainingRoom(shop)
    try:
        fitting = open_case(training.studio(), "larkspur")
        hit(training.studio(), fitting, "Own", 2)
        assert [one.fitting for one in all_plays(training.studio())] == [fitting]
        assert training.studio() is training.studio()
        assert shop.store.fittings() == ()
        assert shop.store.golfers() == ()
        assert not shop.store.rack().assemblies
        assert fittings_today(shop, Desk()) == ()
        assert fittings_done(shop, 10).fittings == ()
        assert {path.parts[len(tmp_path.parts)] for path in tmp_path.rglob("*")} == {"training"}
        assert read_settings(training.studio()).settings.shop == "Training bay (invented)"
    finally:
        training.close()


def test_a_play_that_is_not_there_or_spoilt_is_named(room: Studio) -> None:
    with pytest.raises(NotFoundError, match="no training fitting"):
        read_play(room, "../../etc/passwd")
    with pytest.raises(NotFoundError, match="no such training fitting"):
        read_play(room, f"training-{'0' * 36}")
    fitting = open_case(room, "larkspur")
    keep_play(room, fitting, replace(read_play(room, fitting), seed=4))
    assert read_play(room, fitting).seed == 4
    (room.folder / "plays" / f"{fitting}.json").write_text("{")
    with pytest.raises(StoreError, match="cannot be read"):
        read_play(room, fitting)
    (room.folder / "plays" / f"{fitting}.json").unlink()
    assert all_plays(room) == ()

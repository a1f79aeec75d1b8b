"""Balls counted from the records, looks at pieces, parts that may not be hit, and recalls."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bays import Bay, a_bay, club_card
from loftwright.bay.now import FittingNow
from loftwright.constants import DEGREE
from loftwright.domain.acts import (
    ClubJoined,
    HandedOver,
    NotOurs,
    NotRead,
    Planned,
    RunMoved,
    Undone,
)
from loftwright.domain.fitting import PlanCard
from loftwright.domain.inspection import Finding
from loftwright.domain.rack import Assembly, HeadModel, Piece, ShaftModel, State
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.fittings import open_fitting
from loftwright.services.rack_changing import set_state
from loftwright.services.recalling import lock_all, put_all_back, recall
from loftwright.services.wear import balls_by_piece, balls_of, inspect, wear


@pytest.fixture
def bay() -> Bay:
    """Return a bay whose clubs' pieces stand in the rack: one head model, two shaft models."""
    made = a_bay()
    store = made.studio.store
    store.put(HeadModel(id="m-head", maker="", name="Harrow", loft=10.5 * DEGREE), version=None)
    store.put(ShaftModel(id="m-reed", maker="", name="Reedmace"), version=None)
    store.put(ShaftModel(id="m-rush", maker="", name="Rush"), version=None)
    store.put(Piece(id="head-1", model="m-head", label="H-1"), version=None)
    for club, model in (("Ash", "m-reed"), ("Birch", "m-reed"), ("Cedar", "m-rush")):
        piece = Piece(id=f"shaft-{club}", model=model, label=f"{club} shaft")
        store.put(piece, version=None)
        club_here = Assembly(id=f"assembly-{club}", head="head-1", shaft=piece.id, length=1.15)
        store.put(club_here, version=None)
    return made


def test_every_ball_of_the_golfer_counts_for_head_and_shaft(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(3)
    bay.do(NotRead(club="Ash"))
    stray = bay.ball()
    bay.do(NotOurs(ball=stray.sequence))
    bay.hand("Birch")
    bay.balls(2)
    found = balls_by_piece(bay.studio)
    assert found["shaft-Ash"] == 4
    assert found["shaft-Birch"] == 2
    assert found["head-1"] == 6


def test_a_ball_counts_once_where_one_piece_is_head_and_shaft(bay: Bay) -> None:
    """As an own club that was written down in one piece."""
    whole = replace(club_card("Elm"), head_piece="head-1", shaft_piece="head-1")
    bay.do(ClubJoined(club="Elm", card=whole))
    bay.hand("Elm")
    bay.balls(3)
    assert balls_by_piece(bay.studio)["head-1"] == 3
    assert [one.balls for one in recall(bay.studio, "head-1").fittings] == [3]


def test_a_recalled_model_counts_each_ball_of_its_samples_once(bay: Bay) -> None:
    for club, number in (("Ash", 3), ("Cedar", 2), ("Birch", 1), ("Ash", 2)):
        bay.hand(club)
        bay.balls(number)
    bay.do(NotOurs(ball=bay.ball().sequence))
    balls = {item: recall(bay.studio, item).fittings[0].balls for item in ("m-reed", "m-head")}
    assert balls == {"m-reed": 6, "m-head": 8}
    for item, number in (("shaft-Ash", 5), ("shaft-Birch", 1), ("head-1", 8)):
        assert recall(bay.studio, item).fittings[0].balls == number


def test_one_piece_is_counted_as_all_of_them_are(bay: Bay) -> None:
    for club, number in (("Ash", 2), ("Birch", 3)):
        bay.hand(club)
        bay.balls(number)
    every = balls_by_piece(bay.studio)
    pieces = ("head-1", "shaft-Ash", "shaft-Birch", "shaft-Cedar", "nowhere")
    assert [balls_of(bay.studio, one) for one in pieces] == [every.get(one, 0) for one in pieces]


def test_a_piece_asks_for_no_fitting_that_it_was_never_in(
    bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    golfer = bay.studio.store.fitting(bay.fitting).value.golfer
    open_fitting(bay.studio, golfer, bay="Bay 2")
    asked: list[str] = []
    standing = bay.studio.standing

    def watched(fitting: str) -> FittingNow:
        asked.append(fitting)
        return standing(fitting)

    monkeypatch.setattr(bay.studio, "standing", watched)
    assert balls_of(bay.studio, "shaft-Ash") == 0
    assert recall(bay.studio, "shaft-Ash").fittings[0].fitting == bay.fitting
    assert asked == [bay.fitting] * 2


def test_warm_up_balls_wear_a_shaft_too() -> None:
    bay = a_bay(warm=False)
    bay.hand("Ash")
    bay.balls(4)
    assert balls_by_piece(bay.studio)["shaft-Ash"] == 4


def test_a_corrected_club_takes_the_balls_with_it(bay: Bay) -> None:
    bay.hand("Ash")
    first, *_, last = bay.balls(3)
    bay.do(RunMoved(first=first.sequence, last=last.sequence, club="Birch"))
    found = balls_by_piece(bay.studio)
    assert "shaft-Ash" not in found
    assert found["shaft-Birch"] == 3
    bay.do(Undone(act=bay.studio.record(bay.fitting)[-1].sequence))
    assert balls_by_piece(bay.studio)["shaft-Ash"] == 3


def test_a_virtual_golfer_wears_nothing(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(2)
    kept = bay.studio.store.fitting(bay.fitting)
    bay.studio.store.change_fitting(replace(kept.value, invented=True), version=kept.version)
    assert balls_by_piece(bay.studio) == {}


def test_a_look_counts_the_balls_by_then_and_starts_anew(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(3)
    look = inspect(bay.studio, "shaft-Ash", Finding.SOUND, by="Ann")
    assert look.balls == 3
    bay.balls(2)
    stands = wear(bay.studio)["shaft-Ash"]
    assert (stands.balls, stands.since, stands.newest) == (5, 2, look)


def test_a_cracked_piece_is_locked_and_only_another_look_lets_it_back(bay: Bay) -> None:
    inspect(bay.studio, "shaft-Ash", Finding.CRACKED, words="hairline at the tip")
    piece = bay.studio.store.rack().pieces["shaft-Ash"]
    assert (piece.state, piece.reason) == (State.LOCKED, "cracked: hairline at the tip")
    with pytest.raises(ConflictError, match="found it cracked: hairline at the tip"):
        set_state(bay.studio, "shaft-Ash", State.READY)
    inspect(bay.studio, "shaft-Ash", Finding.SOUND, words="it was paint")
    set_state(bay.studio, "shaft-Ash", State.READY)
    assert bay.studio.store.rack().pieces["shaft-Ash"].state is State.READY


def test_a_fault_without_a_word_changes_nothing(bay: Bay) -> None:
    with pytest.raises(InputError):
        inspect(bay.studio, "shaft-Ash", Finding.CRACKED)
    with pytest.raises(InputError, match="only a head or a shaft"):
        inspect(bay.studio, "m-reed", Finding.SOUND)
    assert bay.studio.store.inspections() == {}
    assert bay.studio.store.rack().pieces["shaft-Ash"].state is State.READY


def test_a_worn_piece_stays_in_use(bay: Bay) -> None:
    inspect(bay.studio, "shaft-Ash", Finding.WORN, words="paint at the hosel")
    assert bay.studio.store.rack().pieces["shaft-Ash"].state is State.READY


def test_a_locked_shaft_is_not_handed_over(bay: Bay) -> None:
    inspect(bay.studio, "shaft-Ash", Finding.CRACKED, words="hairline at the tip")
    before = bay.studio.record(bay.fitting)
    with pytest.raises(ConflictError) as refused:
        bay.do(HandedOver(club="Ash"))
    assert refused.value.message == (
        "Ash cannot be handed over: Ash shaft is locked: cracked: hairline at the tip"
    )
    assert "put back on the rack’s page" in refused.value.mend
    assert bay.studio.record(bay.fitting) == before
    bay.hand("Birch")


def test_a_retired_head_stops_every_club_on_it(bay: Bay) -> None:
    set_state(bay.studio, "head-1", State.RETIRED, reason="sold")
    for club in ("Own", "Ash", "Birch"):
        with pytest.raises(ConflictError, match="H-1 is retired: sold"):
            bay.do(HandedOver(club=club))


def test_a_locked_shaft_is_not_planned(bay: Bay) -> None:
    set_state(bay.studio, "shaft-Ash", State.LOCKED, reason="loose ferrule")
    with pytest.raises(ConflictError, match="Ash cannot be planned: Ash shaft is locked"):
        bay.do(Planned(plan=PlanCard(sets=(("Birch", 3), ("Ash", 3)))))
    bay.do(Planned(plan=PlanCard(sets=(("Birch", 3), ("Cedar", 3)))))


def test_a_bond_that_cures_is_not_hit_before_its_time(bay: Bay) -> None:
    kept = bay.studio.store.item("shaft-Ash")
    piece = kept.value
    assert isinstance(piece, Piece)
    until = bay.clock.at + timedelta(hours=3)
    bay.studio.store.put(replace(piece, locked_until=until), version=kept.version)
    with pytest.raises(ConflictError, match="the bond is curing"):
        bay.do(HandedOver(club="Ash"))
    bay.clock.forward(181)
    bay.hand("Ash")


def test_which_club_was_hit_is_told_even_of_a_locked_one(bay: Bay) -> None:
    bay.hand("Birch")
    ball = bay.ball()
    set_state(bay.studio, "shaft-Ash", State.LOCKED, reason="cracked")
    bay.do(RunMoved(first=ball.sequence, last=ball.sequence, club="Ash"), HandedOver(club="Ash"))
    assert balls_by_piece(bay.studio)["shaft-Ash"] == 1


def test_a_recall_names_clubs_fittings_and_golfers(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(3)
    found = recall(bay.studio, "shaft-Ash")
    assert [one.id for one in found.assemblies] == ["assembly-Ash"]
    (touched,) = found.fittings
    assert (touched.name, touched.clubs, touched.balls, touched.since) == (
        "Ottoline Brambleby",
        ("Ash",),
        3,
        True,
    )
    assert not found.whole


def test_a_recall_of_a_model_takes_every_sample_of_it(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(3)
    bay.hand("Birch")
    bay.balls(2)
    found = recall(bay.studio, "m-reed")
    assert [one.id for one in found.pieces] == ["shaft-Ash", "shaft-Birch"]
    assert found.fittings[0].balls == 5
    assert found.fittings[0].clubs == ("Ash", "Birch")
    assert found.whole
    assert recall(bay.studio, "m-rush").fittings[0].balls == 0


def test_balls_before_a_sound_look_are_told_apart(bay: Bay) -> None:
    bay.hand("Ash")
    bay.balls(3)
    bay.clock.forward(1.0)
    inspect(bay.studio, "shaft-Ash", Finding.SOUND)
    assert not recall(bay.studio, "shaft-Ash").fittings[0].since
    bay.ball()
    assert recall(bay.studio, "shaft-Ash").fittings[0].since


def test_a_golfer_s_own_club_is_recalled_by_name(bay: Bay) -> None:
    own = Assembly(id="own", head="head-1", shaft="shaft-Cedar", length=1.15, owner=bay.golfer.id)
    bay.studio.store.put(own, version=None)
    found = recall(bay.studio, "m-rush")
    assert [(one.name, one.assembly) for one in found.owned] == [("Ottoline Brambleby", "own")]
    assert [one.id for one in found.assemblies] == ["assembly-Cedar"]


def test_what_is_nowhere_cannot_be_recalled(bay: Bay) -> None:
    with pytest.raises(NotFoundError):
        recall(bay.studio, "m-willow")


def test_all_of_a_model_is_locked_at_once_and_put_back_by_one_undo(bay: Bay) -> None:
    set_state(bay.studio, "shaft-Birch", State.RETIRED, reason="sold")
    with pytest.raises(InputError, match="needs a reason"):
        lock_all(bay.studio, "m-reed", " ")
    assert lock_all(bay.studio, "m-reed", "tips break") == ("shaft-Ash",)
    pieces = bay.studio.store.rack().pieces
    assert pieces["shaft-Ash"].reason == "tips break"
    assert pieces["shaft-Birch"].reason == "sold"
    assert put_all_back(bay.studio, ("shaft-Ash", "shaft-Birch"), "tips break") == 1
    assert bay.studio.store.rack().pieces["shaft-Ash"].state is State.READY
    assert bay.studio.store.rack().pieces["shaft-Birch"].state is State.RETIRED


def test_the_undo_of_a_recall_lets_no_cracked_piece_back(bay: Bay) -> None:
    locked = lock_all(bay.studio, "m-reed", "tips break")
    inspect(bay.studio, "shaft-Ash", Finding.CRACKED, words="hairline")
    assert put_all_back(bay.studio, locked, "tips break") == 1
    lock_all(bay.studio, "m-reed", "cracked: hairline")
    with pytest.raises(ConflictError, match="found cracked meanwhile"):
        put_all_back(bay.studio, locked, "cracked: hairline")
    assert bay.studio.store.rack().pieces["shaft-Birch"].state is State.LOCKED

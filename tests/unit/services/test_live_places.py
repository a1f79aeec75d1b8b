"""One rack over all bays: a part is in one bay at a time, and who has it is told."""

from dataclasses import replace

import pytest

from bays import a_bay
from loftwright.domain.acts import Closed
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.piece_code import code_of
from loftwright.domain.place import AWAY
from loftwright.domain.rack import Piece
from loftwright.errors import ConflictError, InputError
from loftwright.physics.sleeve import Convention
from loftwright.services.golfers import add_golfer
from loftwright.services.places import check_out, elsewhere, take_here, whereabouts
from loftwright.services.rack import candidates
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from studios import Clock, a_head, a_shaft, studio_in_memory


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    made = studio_in_memory(clock)
    kept = read_settings(made)
    three = replace(kept.settings, bays=("Bay 1", "Bay 2", "North room"), zone="UTC")
    change_settings(made, three, version=kept.version)
    return made


def stands(studio: Studio, piece: str) -> Piece:
    return studio.store.rack().pieces[piece]


def test_a_scanned_part_is_in_this_bay_and_who_said_so_is_told(
    studio: Studio, clock: Clock
) -> None:
    shaft, _ = a_shaft(studio)
    found = check_out(studio, code_of(shaft.id), "Bay 2", by="Ann Reed")
    assert (found.names, found.place, found.note) == (("Reedmace",), "Bay 2", "")
    clock.forward(12.0)
    assert elsewhere(studio, stands(studio, shaft.id), "Bay 1") == (
        "with Bay 2 since 12:00, Ann Reed"
    )
    assert elsewhere(studio, stands(studio, shaft.id), "Bay 2") == ""


def test_a_part_of_another_bay_goes_only_to_whoever_says_who_has_it(studio: Studio) -> None:
    shaft, _ = a_shaft(studio)
    code = code_of(shaft.id)
    check_out(studio, code, "Bay 2", by="Ann Reed")
    with pytest.raises(ConflictError) as told:
        check_out(studio, code, "Bay 1", by="Bo Marsh")
    assert told.value.place == "had"
    assert told.value.message == "Reedmace is with Bay 2 since 12:00, Ann Reed"
    assert stands(studio, shaft.id).place == "Bay 2"
    with pytest.raises(ConflictError):
        check_out(studio, code, "Bay 1", by="Bo Marsh", had="North room")
    found = check_out(studio, code, "Bay 1", by="Bo Marsh", had="Bay 2")
    assert found.note == "it was with Bay 2 since 12:00, Ann Reed"
    history = studio.store.place_history(shaft.id)
    assert [(one.was, one.place, one.by) for one in history] == [
        ("Bay 2", "Bay 1", "Bo Marsh"),
        ("", "Bay 2", "Ann Reed"),
    ]


def test_the_workshop_and_a_drawer_give_a_part_without_being_asked(studio: Studio) -> None:
    shaft, _ = a_shaft(studio, place="Drawer 3")
    check_out(studio, code_of(shaft.id), "Workshop")
    assert check_out(studio, code_of(shaft.id), "Bay 1").note == ""


def test_both_parts_of_a_club_of_their_own_go_together_and_a_shared_head_stays(
    studio: Studio,
) -> None:
    own_head, shared = a_head(studio), a_head(studio, "Sedge 440")
    alone, _ = a_shaft(studio, "Alder", head=own_head)
    first, _ = a_shaft(studio, "Rush", head=shared)
    a_shaft(studio, "Osier", head=shared)
    assert check_out(studio, code_of(alone.id), "Bay 1").names == ("Alder", "Harrow 460")
    assert stands(studio, own_head.id).place == "Bay 1"
    assert check_out(studio, code_of(first.id), "Bay 1").names == ("Rush",)
    assert stands(studio, shared.id).place == ""


def test_a_golfer_who_has_a_club_is_named_and_gives_it_back(studio: Studio) -> None:
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    shaft, _ = a_shaft(studio)
    check_out(studio, code_of(shaft.id), AWAY, by="Ann", golfer=golfer.id)
    piece = stands(studio, shaft.id)
    told = whereabouts(studio, piece, studio.store.places()[piece.id])
    assert told == "away with Ottoline Brambleby since 12:00, Ann"
    with pytest.raises(ConflictError, match="away with Ottoline"):
        check_out(studio, code_of(shaft.id), "Bay 1")
    check_out(studio, code_of(shaft.id), "Bay 1", had=AWAY)
    assert stands(studio, shaft.id).place == "Bay 1"


def test_a_plan_offers_no_club_that_another_bay_has_whatever_that_bay_is_called(
    studio: Studio,
) -> None:
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    shaft, _ = a_shaft(studio, head=a_head(studio))
    check_out(studio, code_of(shaft.id), "North room", by="Ann")
    here, there = (
        candidates(studio, golfer, bay, Convention.C)[0] for bay in ("Bay 1", "North room")
    )
    assert here.why_not == "Harrow 460 is with North room since 12:00, Ann"
    assert there.why_not == ""


def test_what_is_scanned_in_a_bay_is_there_and_says_who_had_it(studio: Studio) -> None:
    shaft, _ = a_shaft(studio)
    take_here(studio, [shaft.id], "Bay 2", by="Ann")
    assert take_here(studio, [shaft.id], "Bay 1", by="Bo") == (
        "Reedmace was with Bay 2 since 12:00, Ann"
    )
    assert take_here(studio, [shaft.id], "Bay 1", by="Bo") == ""
    assert len(studio.store.place_history(shaft.id)) == 2


def test_a_day_later_the_day_is_told_too(studio: Studio, clock: Clock) -> None:
    shaft, _ = a_shaft(studio)
    check_out(studio, code_of(shaft.id), "Bay 2")
    clock.forward(24 * 60.0)
    told = elsewhere(studio, stands(studio, shaft.id), "Bay 1")
    assert told == "with Bay 2 since 25 November, 12:00"


def test_a_wrong_label_moves_nothing(studio: Studio) -> None:
    shaft, _ = a_shaft(studio)
    with pytest.raises(InputError):
        check_out(studio, "7KQ-4MX-9TR", "Bay 1")
    assert studio.store.places() == {}
    assert stands(studio, shaft.id).place == ""


def test_a_golfers_name_is_gone_with_the_golfer_and_the_place_stays(clock: Clock) -> None:
    bay = a_bay(clock=clock)
    bay.do(Closed())
    shaft, _ = a_shaft(bay.studio)
    check_out(bay.studio, code_of(shaft.id), AWAY, golfer=bay.golfer.id)
    assert stands(bay.studio, shaft.id).place == AWAY
    assert "Ottoline" not in stands(bay.studio, shaft.id).place

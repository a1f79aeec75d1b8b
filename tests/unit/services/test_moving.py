"""A part is moved from where the page showed it, and known places keep their spelling."""

from dataclasses import replace

import pytest

from loftwright.domain.rack import Piece
from loftwright.errors import ConflictError, InputError
from loftwright.services.moving import known_places, move
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from studios import a_head, a_shaft, studio_in_memory


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    kept = read_settings(made)
    bays = replace(kept.settings, bays=("Bay 1", "Bay 2"))
    change_settings(made, bays, version=kept.version)
    return made


def place_of(studio: Studio, piece: str) -> str:
    found = studio.store.item(piece).value
    assert isinstance(found, Piece)
    return found.place


def test_a_part_goes_to_a_bay_and_back(studio: Studio) -> None:
    piece, _ = a_shaft(studio, place="Drawer 3")
    assert move(studio, piece.id, "bay  2 ", was="Drawer 3") == "Bay 2"
    assert place_of(studio, piece.id) == "Bay 2"
    move(studio, piece.id, "Drawer 3", was="Bay 2")
    assert studio.store.item(piece.id).value == piece


def test_who_has_it_is_a_place_and_so_is_none(studio: Studio) -> None:
    piece, _ = a_shaft(studio)
    move(studio, piece.id, "Ann, workshop", was="")
    assert place_of(studio, piece.id) == "Ann, workshop"
    other = a_head(studio)
    move(studio, other.id, "ANN, WORKSHOP", was="")
    assert place_of(studio, other.id) == "Ann, workshop"
    move(studio, piece.id, " ", was="Ann, workshop")
    assert place_of(studio, piece.id) == ""


def test_a_part_that_somebody_moved_meanwhile_stays_there(studio: Studio) -> None:
    piece, _ = a_shaft(studio, place="Bay 1")
    move(studio, piece.id, "Bay 2", was="Bay 1")
    with pytest.raises(ConflictError, match="at Bay 2 by now"):
        move(studio, piece.id, "Rack", was="Bay 1")
    assert place_of(studio, piece.id) == "Bay 2"
    move(studio, piece.id, "", was="Bay 2")
    with pytest.raises(ConflictError, match="without a place by now"):
        move(studio, piece.id, "Rack", was="Bay 2")


def test_what_does_not_move_is_not_written_again(studio: Studio) -> None:
    piece, _ = a_shaft(studio, place="Bay 1")
    version = studio.store.item(piece.id).version
    move(studio, piece.id, "BAY 1", was="Bay 1")
    assert studio.store.item(piece.id).version == version


def test_only_parts_move_and_a_place_is_short(studio: Studio) -> None:
    piece, club = a_shaft(studio, head=a_head(studio))
    assert club is not None
    with pytest.raises(InputError, match="only a head or a shaft"):
        move(studio, club.id, "Bay 1", was="")
    with pytest.raises(InputError, match="81 letters"):
        move(studio, piece.id, "x" * 81, was="")


def test_bays_are_offered_before_every_other_place(studio: Studio) -> None:
    for place in ("Rack", "Bay 2", "Drawer", ""):
        a_head(studio, place=place)
    assert known_places(studio, studio.store.rack()) == ("Bay 1", "Bay 2", "Drawer", "Rack")

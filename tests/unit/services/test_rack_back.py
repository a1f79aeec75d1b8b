"""A file that came in is taken back whole, or what stands in the way is said."""

import json
from dataclasses import replace
from typing import Any

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import ClubJoined, Undone
from loftwright.domain.inspection import Finding
from loftwright.domain.rack import Assembly, Piece, ShaftModel, State
from loftwright.errors import ConflictError, NotFoundError
from loftwright.services.measuring import keep_profile
from loftwright.services.rack import add_item, card_of
from loftwright.services.rack_back import NAME, last_import, take_back
from loftwright.services.rack_changing import set_state
from loftwright.services.rack_in import Coming, bring_in, look_at
from loftwright.services.rack_out import rack_json
from loftwright.services.studio import Studio
from loftwright.services.wear import inspect
from record_reads import records_read
from shafts import a_profile
from store_samples import PROFILE
from studios import a_head, a_shaft, studio_in_memory

HEAD = {"kind": "head", "id": "h9", "name": "Harrow", "loft_deg": 10.5}
SHAFT = {"kind": "shaft", "id": "s9", "name": "Reed", "paper_mass_g": 62}
PIECES = (
    {"kind": "piece", "id": "p8", "model": "h9", "label": "H1"},
    {"kind": "piece", "id": "p9", "model": "s9", "label": "R1"},
)
CLUB = {"kind": "club", "id": "c9", "head": "p8", "shaft": "p9", "length_mm": 1149.35}
LOOK = {
    "kind": "look",
    "piece": "p9",
    "at": "2026-05-14T09:00:00+00:00",
    "balls": 40,
    "finding": "sound",
    "words": "fine",
}
FILE = (HEAD, SHAFT, *PIECES, CLUB, LOOK)


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def brought(studio: Studio, *rows: dict[str, Any]) -> Coming:
    data = json.dumps({"format": "loftwright-rack", "version": 1, "items": rows}).encode()
    return bring_in(studio, "mine.json", data, seen=look_at(studio, "mine.json", data).seen)


def in_the_way(studio: Studio) -> tuple[str, ...]:
    last = last_import(studio)
    assert last is not None
    return last.in_the_way


def taken(studio: Studio) -> None:
    last = last_import(studio)
    assert last is not None
    take_back(studio, version=last.version)


def test_a_file_is_taken_back_and_comes_in_again(studio: Studio) -> None:
    a_shaft(studio, head=a_head(studio))
    before = rack_json(studio)
    brought(studio, *FILE)
    after = rack_json(studio)
    last = last_import(studio)
    assert last is not None
    assert (last.name, last.came.rows, last.in_the_way, last.at) == (
        "mine.json",
        6,
        (),
        studio.now(),
    )
    taken(studio)
    assert rack_json(studio) == before
    assert last_import(studio) is None
    brought(studio, *FILE)
    assert rack_json(studio) == after


def test_what_it_changed_is_as_it_was_to_the_last_bit(studio: Studio) -> None:
    piece, club = a_shaft(studio, grams=61.3, head=a_head(studio, loft=9.7), price=43700)
    assert club is not None
    before = studio.store.rack()
    brought(
        studio,
        {"kind": "piece", "id": piece.id, "model": piece.model, "mass_g": 60.9, "place": "Bay 7"},
        {**CLUB, "id": club.id, "head": club.head, "shaft": club.shaft, "price": 1},
        {"kind": "head", "id": before.pieces[club.head].model, "name": "Oak", "loft_deg": 11},
    )
    assert studio.store.rack() != before
    taken(studio)
    assert studio.store.rack() == before


def test_a_file_that_changes_nothing_leaves_the_one_before_to_be_taken_back(
    studio: Studio,
) -> None:
    brought(studio, *FILE)
    brought(studio, HEAD)
    last = last_import(studio)
    assert last is not None
    assert last.came.rows == 6


def test_a_second_file_is_the_newest_and_holds_the_first(studio: Studio) -> None:
    brought(studio, HEAD, SHAFT)
    first = last_import(studio)
    assert first is not None
    brought(studio, *FILE)
    with pytest.raises(ConflictError, match="came in since this page was opened"):
        take_back(studio, version=first.version)
    taken(studio)
    assert studio.store.rack().heads["h9"].name == "Harrow"
    assert last_import(studio) is None


def test_nothing_is_taken_back_twice(studio: Studio) -> None:
    brought(studio, *FILE)
    last = last_import(studio)
    assert last is not None
    take_back(studio, version=last.version)
    with pytest.raises(NotFoundError, match="no file is there"):
        take_back(studio, version=last.version)


def test_a_later_change_stands_in_the_way_and_is_named(studio: Studio) -> None:
    brought(studio, *FILE)
    set_state(studio, "p9", State.LOCKED, reason="creaks")
    before = rack_json(studio)
    assert in_the_way(studio) == ("the sample Reed R1 was changed since",)
    with pytest.raises(ConflictError, match="cannot be taken back: the sample Reed R1"):
        taken(studio)
    assert rack_json(studio) == before
    assert studio.store.setting(NAME).value


def test_what_was_added_since_stands_in_the_way(studio: Studio) -> None:
    brought(studio, *FILE)
    add_item(studio, Piece(id="", model="s9", label="R2"))
    add_item(studio, ShaftModel(id="", maker="", name="Reed II", replaces="s9"))
    add_item(studio, Assembly(id="", head="p8", shaft="p9", length=1.12))
    assert in_the_way(studio) == (
        "the sample Reed R2 was added since and is of it",
        "the club of Harrow and Reed was put together of it since",
        "the shaft Reed II was said to replace a model of it",
    )


def test_a_later_look_or_measurement_stands_in_the_way(studio: Studio) -> None:
    brought(studio, *FILE)
    inspect(studio, "p9", Finding.SOUND)
    keep_profile(studio, replace(PROFILE, piece="p9"))
    assert in_the_way(studio) == (
        "the sample Reed R1 was looked at since",
        "the sample Reed R1 was measured since",
    )


def test_a_measurement_that_came_goes_unless_it_was_judged_since(studio: Studio) -> None:
    other = studio_in_memory()
    brought(other, HEAD, SHAFT, *PIECES)
    kept = keep_profile(other, a_profile(piece="p9"))
    data = rack_json(other).encode()
    bring_in(studio, "all.json", data, seen=look_at(studio, "all.json", data).seen)
    studio.store.set_profile_aside(kept.id, "span misread")
    assert in_the_way(studio) == ("a measurement of the sample Reed R1 was judged anew since",)
    studio.store.set_profile_aside(kept.id, "")
    taken(studio)
    assert studio.store.profiles() == {}


def join(bay: Bay, assembly: str = "c9") -> None:
    rack = bay.studio.store.rack()
    bay.do(ClubJoined(club="Elm", card=card_of(rack, rack.assemblies[assembly])))


def test_a_fitting_that_has_a_club_of_it_stands_in_the_way_even_if_it_was_undone() -> None:
    bay = a_bay()
    brought(bay.studio, *FILE)
    join(bay)
    told = ("the fitting of 25 November 2026 in Bay 1 has it as Elm",)
    assert in_the_way(bay.studio) == told
    bay.do(Undone(act=bay.studio.record(bay.fitting)[-1].sequence))
    assert in_the_way(bay.studio) == told


def test_a_changed_part_is_held_only_by_fittings_that_it_joined_since() -> None:
    bay = a_bay()
    piece, club = a_shaft(bay.studio, head=a_head(bay.studio))
    assert club is not None
    join(bay, club.id)
    bay.clock.forward(1)
    row = {"kind": "piece", "id": piece.id, "model": piece.model, "place": "Bay 7"}
    brought(bay.studio, row)
    assert in_the_way(bay.studio) == ()
    rack = bay.studio.store.rack()
    bay.do(ClubJoined(club="Fir", card=card_of(rack, club)))
    assert in_the_way(bay.studio) == ("the fitting of 25 November 2026 in Bay 1 has it as Fir",)


def test_of_many_fittings_some_are_named_and_only_records_with_a_part_of_it_are_read(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first = a_bay()
    brought(first.studio, *FILE)
    others = [a_bay(studio=first.studio) for _ in range(6)]
    for bay in others:
        join(bay)
    read = records_read(monkeypatch)
    told = in_the_way(first.studio)
    assert told[-1] == "other fittings have something of it too"
    assert set(read) == {bay.fitting for bay in others}


def test_a_changed_model_is_held_by_a_club_that_joined_since() -> None:
    bay = a_bay()
    _, club = a_shaft(bay.studio, head=a_head(bay.studio))
    assert club is not None
    model = bay.studio.store.rack().shaft_of(club)
    brought(bay.studio, {"kind": "shaft", "id": model.id, "name": "Sedge"})
    join(bay, club.id)
    assert len(in_the_way(bay.studio)) == 1


def test_a_club_that_would_fit_no_more_stands_in_the_way(studio: Studio) -> None:
    sleeve = {
        "kind": "sleeve",
        "id": "v9",
        "name": "angled",
        "system": "Q",
        "settings": [{"name": "middle", "bore_deg": 0, "lean_deg": 0}],
    }
    brought(studio, {**HEAD, "system": "Q"}, SHAFT, sleeve, *PIECES)
    more = [*sleeve["settings"], {"name": "up", "bore_deg": 1.5, "lean_deg": 0}]
    brought(studio, {**sleeve, "settings": more}, {**PIECES[1], "sleeve": "v9"})
    kept = studio.store.item("p9").value
    assert isinstance(kept, Piece)
    add_item(studio, Assembly(id="", head="p8", shaft="p9", length=1.12, setting="up"))
    (told,) = in_the_way(studio)
    assert told.startswith("what was changed cannot be as it was: ")

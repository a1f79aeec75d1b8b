"""Files of the open format: what they would do, which row cannot be, and nothing by halves."""

import json
from typing import Any

import pytest

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.inspection import Finding
from loftwright.domain.rack import HeadModel, Piece, ShaftModel, State
from loftwright.errors import ConflictError, InputError
from loftwright.services.golfers import add_golfer
from loftwright.services.rack_adding import OwnClub, add_own_club
from loftwright.services.rack_in import Coming, bring_in, look_at
from loftwright.services.rack_out import rack_csv, rack_json
from loftwright.services.studio import Studio
from loftwright.services.wear import inspect
from store_samples import LOOKED_AT, PROFILE, RACK, with_rack
from studios import a_head, a_shaft, studio_in_memory

HEAD = "kind,id,name,loft_deg,model,paper_mass_g,head,shaft,length_mm\n"
CLUB = (
    HEAD
    + "club,c1,,,,,p1,p2,1149.35\n"
    + "piece,p1,,,h1,,,,\n"
    + "piece,p2,,,s1,,,,\n"
    + "head,h1,Harrow,10.5,,,,,\n"
    + "shaft,s1,Reedmace,,,62,,,\n"
)


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


def shop_rack(studio: Studio) -> None:
    """Keep the samples' rack without the club that a golfer owns."""
    studio.store.put_together([(item, None) for item in RACK[:-1]])


def looked(studio: Studio, text: str) -> Coming:
    return look_at(studio, "rack.csv", text.encode())


def brought(studio: Studio, text: str) -> Coming:
    return bring_in(studio, "rack.csv", text.encode(), seen=looked(studio, text).seen)


def as_json(*items: dict[str, Any]) -> str:
    return json.dumps({"format": "loftwright-rack", "version": 1, "items": items})


def test_rows_come_in_whatever_their_order(studio: Studio) -> None:
    coming = brought(studio, CLUB)
    assert len(coming.new) == 5
    rack = studio.store.rack()
    assert rack.heads["h1"] == HeadModel(id="h1", maker="", name="Harrow", loft=10.5 * DEGREE)
    assert rack.shafts["s1"].paper_mass == 62.0 * GRAM
    assert rack.assemblies["c1"].length == pytest.approx(45.25 * INCH, rel=1e-15)


def test_looking_at_a_file_does_nothing(studio: Studio) -> None:
    looked(studio, CLUB)
    assert studio.store.rack().heads == {}


def test_a_column_that_is_not_there_keeps_what_stands(studio: Studio) -> None:
    brought(studio, CLUB)
    (change,) = looked(studio, "kind,id,stock\nshaft,s1,4\n").changed
    assert change.differs == (("stock", "nothing", "4"),)
    brought(studio, "kind,id,stock\nshaft,s1,4\n")
    assert studio.store.rack().shafts["s1"] == ShaftModel(
        id="s1", maker="", name="Reedmace", paper_mass=62.0 * GRAM, stock=4
    )
    assert studio.store.item("s1").version == 2


def test_an_empty_cell_empties_what_stands(studio: Studio) -> None:
    brought(studio, CLUB)
    brought(studio, "kind,id,paper_mass_g\nshaft,s1,\n")
    assert studio.store.rack().shafts["s1"].paper_mass is None


def test_the_same_file_again_changes_nothing(studio: Studio) -> None:
    brought(studio, CLUB)
    again = looked(studio, CLUB)
    assert not again.anything
    assert again.same == 5


@pytest.mark.parametrize(
    ("row", "where", "place", "mend"),
    [
        ("head,h2,,10.5,,,,,", "row 2", "name", "Give it."),
        ("head,h2,Harrow,forty,,,,,", "row 2", "loft_deg", "point as decimal mark"),
        ('head,h2,Harrow,"10,5",,,,,', "row 2", "loft_deg", "point as decimal mark"),
        ("head,h2,Harrow,105,,,,,", "row 2", "loft", "4 to 20 deg"),
        ("head,h 2,Harrow,10,,,,,", "row 2", "id", "1 to 64"),
        ("head,h2,Harrow,10,,60,,,", "row 2", "paper_mass_g", "Known are id, maker"),
        ("piece,p2,,,s9,,,,", "row 2", "model", "of the rack or of this file"),
        ("club,c2,,,,,p8,p9,1149", "row 2", "head", "of the rack or of this file"),
    ],
)
def test_a_row_that_cannot_be_is_named_with_its_mend(
    studio: Studio, row: str, where: str, place: str, mend: str
) -> None:
    (refused,) = looked(studio, f"{HEAD}{row}\n").refused
    assert (refused.where, refused.place) == (where, place)
    assert mend in refused.mend


def test_every_bad_row_is_named_and_nothing_comes_in(studio: Studio) -> None:
    text = f"{HEAD}head,h1,Harrow,forty,,,,,\nshaft,s1,,,,62,,,\nhead,h2,Harrow,10,,,,,\n"
    coming = looked(studio, text)
    assert [one.where for one in coming.refused] == ["row 2", "row 3"]
    with pytest.raises(InputError, match="row 2: 'forty' is no number"):
        bring_in(studio, "rack.csv", text.encode(), seen=coming.seen)
    assert studio.store.rack().heads == {}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "is no rack"),
        ("a,b\n1,2\n", "is no rack"),
        ("kind,id,loft\n", "has a column 'loft'"),
        ("kind,id,id\n", "has a column twice"),
        ("kind,id\nhead,h1,Harrow, 460\n", "has 4 cells in line 2"),
        ("kind,id\nputter,h1\n", "row 2 is of the kind 'putter'"),
        ('{"items": []}', "is no rack"),
        ('{"format": "loftwright-rack", "version": 9}', "has version 9"),
        ('{"format": "loftwright-rack", "version": 1}', "has no list of items"),
        ('{"format": "loftwright-rack",\n "version', "breaks off as JSON in line 2"),
    ],
)
def test_what_is_no_rack_at_all_is_refused_whole(studio: Studio, text: str, told: str) -> None:
    with pytest.raises(InputError) as refused:
        looked(studio, text)
    assert told in refused.value.message
    assert refused.value.mend


def test_bytes_that_are_no_text_are_named_with_their_place(studio: Studio) -> None:
    with pytest.raises(InputError, match="is no text at byte 5"):
        look_at(studio, "rack.csv", b"kind,\xff\n")


def test_a_spreadsheet_s_mark_and_semicolons_are_read(studio: Studio) -> None:
    text = "\ufeffkind;id;name\nshaft;s1;Reedmace\n"
    assert [item.id for _, item in looked(studio, text).new] == ["s1"]


@pytest.mark.parametrize(
    ("item", "place"),
    [
        ({"kind": "shaft", "id": "s1", "name": "Reed", "stock": 1.5}, "stock"),
        ({"kind": "shaft", "id": "s1", "name": "Reed", "stock": True}, "stock"),
        ({"kind": "shaft", "id": "s1", "name": "Reed", "price": "1.234"}, "price"),
        ({"kind": "shaft", "id": "s1", "name": 7}, "name"),
        ({"kind": "shaft", "id": "s1", "name": "R" * 401}, "name"),
        (
            {"kind": "shaft", "id": "s1", "name": "Reed", "paper_mass_g": float("nan")},
            "paper_mass_g",
        ),
        ({"kind": "head", "id": "h1", "name": "H", "loft_deg": 9, "hand": "both"}, "hand"),
        ({"kind": "sleeve", "id": "v1", "name": "V", "system": "Q", "settings": [{}]}, "settings"),
        ({"kind": "sleeve", "id": "v1", "name": "V", "system": "Q", "settings": 4}, "settings"),
        (
            {
                "kind": "look",
                "piece": "p1",
                "at": "2026-05-14T09:00",
                "balls": 1,
                "finding": "sound",
            },
            "at",
        ),
        ({"kind": "shaft", "id": "s1", "name": "Reed", "replaces": "s1"}, "replaces"),
        ({"kind": "shaft", "id": "s1", "name": "Reed", "replaces": "s9"}, "replaces"),
    ],
)
def test_an_item_that_cannot_be_is_named(studio: Studio, item: dict[str, Any], place: str) -> None:
    (refused,) = looked(studio, as_json(item)).refused
    assert (refused.where, refused.place) == ("item 1", place)


def test_two_rows_of_one_id_are_refused(studio: Studio) -> None:
    text = "kind,id,name\nshaft,s1,Reed\nshaft,s1,Rush\n"
    (refused,) = looked(studio, text).refused
    assert refused.message == "s1 stands in row 2 too"


def test_an_id_stays_of_its_kind(studio: Studio) -> None:
    shop_rack(studio)
    (refused,) = looked(studio, "kind,id,name\nshaft,h1,Reed\n").refused
    assert "in the rack as something else" in refused.message


def test_a_golfer_s_own_club_neither_leaves_nor_is_touched(studio: Studio) -> None:
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    add_own_club(studio, golfer, OwnClub(loft=0.18, length=1.15, head="Her old one"))
    a_shaft(studio, head=a_head(studio))
    own = studio.store.rack().assemblies
    mine = next(one for one in own.values() if one.owner)
    for text in (rack_json(studio), rack_csv(studio)):
        assert "Her old one" not in text
        assert golfer.id not in text
        assert mine.id not in text
    (refused,) = looked(studio, f"kind,id,model\npiece,{mine.head},h1\n").refused
    assert "a golfer's own club" in refused.message


def test_a_cracked_piece_is_not_let_back_by_a_file(studio: Studio) -> None:
    shop_rack(studio)
    before = rack_csv(studio)
    inspect(studio, "p1", Finding.CRACKED, words="insert loose")
    (refused,) = looked(studio, before).refused
    assert refused.place == "state"
    held = studio.store.item("p1").value
    assert isinstance(held, Piece)
    assert held.state is State.LOCKED


def test_only_what_was_looked_at_comes_in(studio: Studio) -> None:
    brought(studio, CLUB)
    text = "kind,id,stock\nshaft,s1,4\n"
    seen = looked(studio, text).seen
    brought(studio, "kind,id,name\nshaft,s1,Rush\n")
    with pytest.raises(ConflictError, match="changed since the file was looked at"):
        bring_in(studio, "rack.csv", text.encode(), seen=seen)
    assert studio.store.rack().shafts["s1"].stock is None


def test_a_change_that_breaks_a_standing_club_is_refused(studio: Studio) -> None:
    brought(studio, CLUB)
    (refused,) = looked(studio, "kind,id,system\nhead,h1,Quarter\n").refused
    assert refused.where == "the whole file"
    assert "a club of the rack would not fit" in refused.message


def test_a_profile_is_never_changed_by_a_file(studio: Studio) -> None:
    shop_rack(studio)
    studio.store.keep_profile(PROFILE)
    (refused,) = looked(studio, rack_json(studio).replace("64.8", "65.8")).refused
    assert refused.message == "a profile m1 is there already and tells otherwise"


def test_a_profile_and_a_look_need_their_piece(studio: Studio) -> None:
    shop_rack(studio)
    studio.store.keep_profile(PROFILE)
    studio.store.inspect(LOOKED_AT)
    items = [
        one for one in json.loads(rack_json(studio))["items"] if one["kind"] in {"look", "profile"}
    ]
    refused = looked(studio_in_memory(), as_json(*items)).refused
    assert [one.place for one in refused] == ["piece", "piece"]


def test_a_line_of_models_leaves_whole(studio: Studio) -> None:
    with_rack(studio.store)
    assert looked(studio_in_memory(), rack_json(studio)).refused == ()
    assert '"id": "h1"' in rack_json(studio)

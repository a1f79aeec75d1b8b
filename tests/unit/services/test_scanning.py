"""A label scanned in the bay puts its club in hand, or says what it is instead."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bays import Bay, a_bay
from loftwright.constants import DEGREE
from loftwright.domain.acts import Undone, Vetoed, VisitOpened
from loftwright.domain.fitting import Strip
from loftwright.domain.piece_code import code_of
from loftwright.domain.rack import HeadModel, Piece, ShaftModel, State
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import undo
from loftwright.services.places import check_out
from loftwright.services.rack_changing import set_state
from loftwright.services.scanning import Scanned, hand_over_scanned, sample_name


@pytest.fixture
def bay() -> Bay:
    """Return a bay whose shafts stand in the rack: two samples of Badger, one not in a club."""
    made = a_bay()
    store = made.studio.store
    store.put(HeadModel(id="m-head", maker="", name="Harrow", loft=10.5 * DEGREE), version=None)
    store.put(Piece(id="head-1", model="m-head", label="H1"), version=None)
    for model, name in (("m-badger", "Badger"), ("m-otter", "Otter"), ("m-stoat", "Stoat")):
        store.put(ShaftModel(id=model, maker="", name=name), version=None)
    for piece, model, label in (
        ("shaft-Ash", "m-otter", "Otter 1"),
        ("shaft-Birch", "m-badger", "Badger 2"),
        ("badger-1", "m-badger", "Badger 1"),
        ("shaft-Cedar", "m-stoat", ""),
        ("stoat-2", "m-stoat", "B"),
    ):
        place = "Bay 4" if piece == "shaft-Birch" else ""
        store.put(Piece(id=piece, model=model, label=label, place=place), version=None)
    return made


def scan(bay: Bay, piece: str, planned: str = "", *, key: str = "") -> Scanned:
    code = code_of(piece)
    return hand_over_scanned(bay.studio, bay.fitting, code, planned=planned, by="Ann", key=key)


def test_a_shafts_label_puts_its_club_in_hand(bay: Bay) -> None:
    found = scan(bay, "shaft-Birch", "Birch")
    assert (found.now.in_hand, found.note) == ("Birch", "Badger 2 was in Bay 4.")
    assert bay.now.in_hand == "Birch"


def test_a_code_is_read_as_a_scanner_or_a_hand_types_it(bay: Bay) -> None:
    typed = code_of("shaft-Birch").replace("-", " ").lower()
    assert hand_over_scanned(bay.studio, bay.fitting, f" {typed} ").now.in_hand == "Birch"


def test_another_club_than_the_planned_one_is_in_hand_and_said(bay: Bay) -> None:
    found = scan(bay, "shaft-Ash", "Birch")
    assert found.now.in_hand == "Ash"
    assert found.note == ("This is Otter 1, so Ash is in hand. Planned was Birch, with Badger 2.")


def test_another_sample_of_the_planned_shaft_is_not_handed_over(bay: Bay) -> None:
    bay.hand("Ash")
    with pytest.raises(InputError, match="this is Badger 1; Birch has Badger 2") as refused:
        scan(bay, "badger-1", "Birch")
    assert refused.value.mend == "Take Badger 2. It is at Bay 4."
    assert bay.now.in_hand == "Ash"


def test_a_sample_without_a_mark_is_called_by_its_label(bay: Bay) -> None:
    with pytest.raises(
        InputError, match=f"this is Stoat B; Cedar has Stoat {code_of('shaft-Cedar')}"
    ):
        scan(bay, "stoat-2")


def test_a_part_of_no_club_here_is_said_to_be_so(bay: Bay) -> None:
    store = bay.studio.store
    store.put(ShaftModel(id="m-hare", maker="", name="Hare"), version=None)
    store.put(Piece(id="hare-1", model="m-hare", label="Hare 1"), version=None)
    with pytest.raises(InputError, match="Hare 1 is in no club of this fitting"):
        scan(bay, "hare-1", "Birch")


def test_a_head_of_several_clubs_asks_for_the_shaft(bay: Bay) -> None:
    with pytest.raises(InputError, match="Harrow H1 is part of Own, Ash, Birch and Cedar") as told:
        scan(bay, "head-1", "Birch")
    assert "its other part" in told.value.mend


def test_a_locked_part_is_refused_with_its_reason(bay: Bay) -> None:
    set_state(bay.studio, "shaft-Birch", State.LOCKED, reason="creaks at the tip")
    with pytest.raises(ConflictError, match="Badger 2 is locked: creaks at the tip"):
        scan(bay, "shaft-Birch", "Birch")
    assert bay.now.in_hand == "Own"


def test_a_locked_part_of_no_club_is_told_to_be_locked(bay: Bay) -> None:
    set_state(bay.studio, "badger-1", State.RETIRED, reason="sold")
    with pytest.raises(ConflictError, match="Badger 1 is retired: sold"):
        scan(bay, "badger-1")


def test_a_curing_bond_is_refused_until_its_hour(bay: Bay) -> None:
    kept = bay.studio.store.item("shaft-Birch")
    assert isinstance(kept.value, Piece)
    until = bay.studio.now() + timedelta(hours=2)
    bay.studio.store.put(replace(kept.value, locked_until=until), version=kept.version)
    with pytest.raises(ConflictError, match="the bond is curing"):
        scan(bay, "shaft-Birch")


def test_a_club_that_would_not_be_played_is_not_handed_over(bay: Bay) -> None:
    bay.do(Vetoed(club="Birch"))
    with pytest.raises(ConflictError, match="Badger 2 belongs to Birch, which is out"):
        scan(bay, "shaft-Birch")


@pytest.mark.parametrize("code", ["", "7KQ", "AAA-AAA-AAB"])
def test_what_is_no_label_is_refused(bay: Bay, code: str) -> None:
    with pytest.raises(InputError):
        hand_over_scanned(bay.studio, bay.fitting, code)


def test_a_label_of_another_shop_is_refused(bay: Bay) -> None:
    with pytest.raises(InputError, match="no part here bears the label"):
        scan(bay, "somebody-elses")


def test_a_scan_is_written_once_under_its_key_and_undone_as_a_tap_is(bay: Bay) -> None:
    bay.hand("Ash")
    scan(bay, "shaft-Birch", key="k1")
    length = len(bay.studio.record(bay.fitting))
    again = scan(bay, "shaft-Birch", "Ash", key="k1")
    assert (len(bay.studio.record(bay.fitting)), again.note) == (length, "")
    last = bay.now.undoable
    assert last is not None
    undo(bay.studio, bay.fitting, last.sequence, seen=None)
    assert bay.now.in_hand == "Ash"
    assert isinstance(bay.studio.record(bay.fitting)[-1].act, Undone)


def test_a_mark_that_names_the_model_says_enough(bay: Bay) -> None:
    rack = bay.studio.store.rack()
    assert sample_name(rack, rack.pieces["badger-1"]) == "Badger 1"
    assert sample_name(rack, rack.pieces["head-1"]) == "Harrow H1"


def test_a_part_in_a_golfers_hand_in_another_bay_is_not_handed_over_here(bay: Bay) -> None:
    second = a_bay(studio=bay.studio, clock=bay.clock)
    kept = bay.studio.store.fitting(second.fitting)
    visit = bay.studio.standing(second.fitting).visit
    assert visit is not None
    second.do(
        VisitOpened(
            day=visit.day, bay="Bay 4", device=visit.device, strip=Strip(), learned=visit.learned
        )
    )
    scan(second, "shaft-Birch")
    with pytest.raises(ConflictError, match=r"with Bay 4 since .* in a golfer’s hand there"):
        scan(bay, "shaft-Birch")
    assert bay.now.in_hand != "Birch"
    check_out(bay.studio, code_of("shaft-Birch"), "Bay 1", had="Bay 4")
    assert scan(bay, "shaft-Birch").now.in_hand == "Birch"
    assert kept.value.bay == "Bay 1"

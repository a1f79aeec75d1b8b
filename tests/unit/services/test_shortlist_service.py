"""A golfer of the shop is offered what can be put together here, and told who has the rest."""

from dataclasses import replace

import pytest

from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.rack import Piece, State
from loftwright.evidence.shortlist import Lacks, LeftOutFor, Without
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_rack import fill_rack
from loftwright.services.demo_shafts import DEMO_SHAFTS
from loftwright.services.measuring import keep_profile
from loftwright.services.rack_adding import OwnClub, add_own_club
from loftwright.services.rack_changing import set_state
from loftwright.services.shortlist import list_for_golfer, shafts_on_hand
from loftwright.services.studio import Studio
from studios import studio_in_memory

SPEED = 93.0 * MILE_PER_HOUR
CLUB = OwnClub(loft=10.5 * DEGREE, length=45.0 * INCH, shaft="Old Linnet")


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    fill_rack(made)
    return made


def owner(studio: Studio, hand: Hand = Hand.RIGHT) -> Golfer:
    return add_own_club(studio, Golfer(id="g", hand=hand), CLUB)


def with_a_measured_own(studio: Studio, golfer: Golfer) -> None:
    own_shaft = studio.store.rack().assemblies[golfer.own or ""].shaft
    linnet = next(one for one in DEMO_SHAFTS if one.name == "Linnet")
    keep_profile(studio, demo_profile(linnet, piece=own_shaft, day=studio.today(), seed=77))


def piece_called(studio: Studio, label: str) -> Piece:
    return next(one for one in studio.store.rack().pieces.values() if one.label == label)


def lock(studio: Studio, piece: str, reason: str) -> None:
    set_state(studio, piece, State.LOCKED, reason=reason, version=studio.store.item(piece).version)


def test_what_is_lacking_is_named(studio: Studio) -> None:
    nothing = list_for_golfer(studio, Golfer(id="g"), head_speed=None)
    assert nothing.lacks == (Lacks.OWN_CLUB, Lacks.HEAD_SPEED)
    assert nothing.shortlist is None


def test_without_a_measured_own_shaft_the_levers_stand_alone(studio: Studio) -> None:
    found = list_for_golfer(studio, owner(studio), head_speed=SPEED)
    assert found.shortlist is not None
    assert found.shortlist.without is Without.OWN_NOT_MEASURED
    assert found.own_reason == "Old Linnet was not measured"


def test_shafts_of_the_rack_are_named_and_a_near_copy_of_the_own_is_not(studio: Studio) -> None:
    golfer = owner(studio)
    with_a_measured_own(studio, golfer)
    found = list_for_golfer(studio, golfer, head_speed=SPEED).shortlist
    assert found is not None
    assert len(found.shafts) == 3
    assert {one.shaft.name for one in found.left_out if one.why is LeftOutFor.LIKE_OWN} == {
        "Linnet 1"
    }
    named = [one.shaft.name for one in found.shafts]
    named += [one.shaft.name for one in found.left_out]
    assert "Old Linnet" not in named


def test_a_locked_shaft_and_one_in_another_bay_are_named_with_their_reason(
    studio: Studio,
) -> None:
    lock(studio, piece_called(studio, "Otter 1").id, reason="cracked at the tip")
    heron = piece_called(studio, "Heron 1")
    studio.store.put(replace(heron, place="Bay 4"), version=studio.store.item(heron.id).version)
    on_hand = {
        one.name: one.elsewhere for one in shafts_on_hand(studio, hand=Hand.RIGHT, bay="Bay 1")
    }
    assert "cracked at the tip" in on_hand["Otter 1"]
    assert on_hand["Heron 1"] == "it is in Bay 4"
    assert on_hand["Badger 1"] == ""


def test_a_left_hander_is_offered_only_what_a_left_handed_head_takes(studio: Studio) -> None:
    on_hand = {one.name: one.elsewhere for one in shafts_on_hand(studio, hand=Hand.LEFT)}
    assert on_hand["Linnet 1"] == ""
    rack = studio.store.rack()
    left = [piece for piece in rack.pieces.values() if piece.label == "Wayfarer 10.5 left"]
    lock(studio, left[0].id, reason="lent")
    without = {one.name: one.elsewhere for one in shafts_on_hand(studio, hand=Hand.LEFT)}
    assert "no left-handed head" in without["Heron 1"]

"""Inspections, measured profiles and several items at once, in every store alike."""

from dataclasses import fields, replace
from datetime import datetime

import numpy as np
import pytest

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece, ShaftModel
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.interface import Store
from store_samples import LOOKED_AT, PROFILE, RACK, with_rack


def same(one: MeasuredProfile, other: MeasuredProfile) -> bool:
    """Return whether two profiles tell the same to the last bit."""
    return all(
        np.array_equal(getattr(one, part.name), getattr(other, part.name))
        if isinstance(getattr(one, part.name), np.ndarray)
        else getattr(one, part.name) == getattr(other, part.name)
        for part in fields(MeasuredProfile)
    )


def test_inspections_come_back_by_piece_in_the_order_in_which_they_came(store: Store) -> None:
    with_rack(store)
    later = replace(LOOKED_AT, balls=500)
    for one in (LOOKED_AT, replace(LOOKED_AT, piece="p1"), later):
        store.inspect(one)
    assert store.inspections() == {
        "p2": (LOOKED_AT, later),
        "p1": (replace(LOOKED_AT, piece="p1"),),
    }


def test_a_look_at_what_is_no_piece_is_refused(store: Store) -> None:
    with_rack(store)
    with pytest.raises(NotFoundError, match="piece 's1'"):
        store.inspect(replace(LOOKED_AT, piece="s1"))
    with pytest.raises(InputError, match="zone"):
        store.inspect(replace(LOOKED_AT, at=datetime(2026, 5, 14, 9)))  # noqa: DTZ001 - the point
    assert store.inspections() == {}


def test_a_profile_comes_back_to_the_last_bit(store: Store) -> None:
    with_rack(store)
    store.keep_profile(PROFILE)
    ((kept,),) = store.profiles().values()
    assert same(kept, PROFILE)
    assert not kept.bending.flags.writeable
    with pytest.raises(ConflictError, match="m1"):
        store.keep_profile(PROFILE)
    with pytest.raises(NotFoundError, match="piece 'p9'"):
        store.keep_profile(replace(PROFILE, id="m2", piece="p9"))


def test_a_profile_set_aside_stays_and_may_stand_again(store: Store) -> None:
    with_rack(store)
    store.keep_profile(PROFILE)
    store.set_profile_aside("m1", "clamp slipped")
    assert store.profiles()["p2"][0].set_aside == "clamp slipped"
    store.set_profile_aside("m1", "")
    assert same(store.profiles()["p2"][0], PROFILE)
    with pytest.raises(NotFoundError, match="profile 'm9'"):
        store.set_profile_aside("m9", "")


def test_items_are_kept_together_or_not_at_all(store: Store) -> None:
    with_rack(store)
    model = ShaftModel(id="s2", maker="Thistledown", name="Rush", replaces="s1")
    reed = RACK[2]
    assert isinstance(reed, ShaftModel)
    changed = replace(reed, stock=4)
    store.put_together([(changed, 1), (model, None), (Piece(id="p3", model="s2"), None)])
    assert store.item("s1").value == changed
    assert store.item("s1").version == 2
    before = store.rack()
    with pytest.raises(NotFoundError, match="model 's9'"):
        store.put_together([(RACK[2], 2), (Piece(id="p4", model="s9"), None)])
    with pytest.raises(ConflictError, match="version 2"):
        store.put_together([(Piece(id="p4", model="s2"), None), (RACK[2], 1)])
    assert store.rack() == before

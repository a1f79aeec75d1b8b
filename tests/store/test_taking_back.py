"""What came in together is taken back whole or not at all, in every store alike."""

from dataclasses import replace

import pytest

from loftwright.domain.rack import Assembly, HeadModel, Piece, ShaftModel
from loftwright.errors import ConflictError, NotFoundError
from loftwright.store.interface import Store, TakenBack
from store_samples import LOOKED_AT, PROFILE, RACK, with_rack

EVERYTHING = TakenBack(
    # A model may replace one that stands before or behind it.
    items=tuple(
        (item.id, 1) for item in sorted(RACK, key=lambda one: one.id == "v1", reverse=True)
    ),
    looks=(LOOKED_AT,),
    profiles=(PROFILE.id,),
)


def filled(store: Store) -> None:
    with_rack(store)
    store.inspect(LOOKED_AT)
    store.keep_profile(PROFILE)


def test_a_whole_rack_goes_as_it_came(store: Store) -> None:
    empty = store.rack()
    filled(store)
    store.take_back(EVERYTHING)
    assert (store.rack(), store.inspections(), store.profiles()) == (empty, {}, {})
    filled(store)
    assert store.item("p2").version == 1


def test_what_was_changed_is_as_it_was_under_a_new_version(store: Store) -> None:
    with_rack(store)
    was = store.item("p1").value
    assert isinstance(was, Piece)
    store.put(replace(was, place="Bay 9"), version=1)
    store.take_back(TakenBack(changed=((was, 2),)))
    stands = store.item("p1")
    assert (stands.value, stands.version) == (was, 3)


def test_an_equal_look_before_stays(store: Store) -> None:
    filled(store)
    store.inspect(LOOKED_AT)
    store.take_back(TakenBack(looks=(LOOKED_AT,)))
    assert store.inspections() == {"p2": (LOOKED_AT,)}


@pytest.mark.parametrize(
    "later",
    [
        Piece(id="late", model="s1"),
        HeadModel(id="late", maker="", name="Late", loft=0.18, replaces="h2"),
        ShaftModel(id="late", maker="", name="Late", replaces="s1"),
        Piece(id="late", model="h1", sleeve="v1"),
        Assembly(id="late", head="p1", shaft="p2", length=1.15),
    ],
)
def test_nothing_goes_while_something_later_names_it(
    store: Store, later: Piece | HeadModel | ShaftModel | Assembly
) -> None:
    filled(store)
    store.put(later, version=None)
    before = store.rack()
    with pytest.raises(ConflictError, match="came later"):
        store.take_back(EVERYTHING)
    assert store.rack() == before
    assert store.inspections() == {"p2": (LOOKED_AT,)}
    assert len(store.profiles()["p2"]) == 1


def test_nothing_goes_while_a_part_was_looked_at_or_measured_since(store: Store) -> None:
    filled(store)
    store.inspect(replace(LOOKED_AT, balls=500))
    with pytest.raises(ConflictError):
        store.take_back(EVERYTHING)
    assert len(store.inspections()["p2"]) == 2


@pytest.mark.parametrize(
    ("taken", "error"),
    [
        (TakenBack(items=(("p1", 2),)), ConflictError),
        (TakenBack(items=(("nowhere", 1),)), NotFoundError),
        (TakenBack(profiles=("nowhere",)), NotFoundError),
        (TakenBack(looks=(replace(LOOKED_AT, by="Bea"),)), NotFoundError),
        (TakenBack(changed=((RACK[0], 7),)), ConflictError),
    ],
)
def test_what_is_not_as_it_came_leaves_everything(
    store: Store, taken: TakenBack, error: type[Exception]
) -> None:
    filled(store)
    before = store.rack()
    whole = replace(taken, profiles=(PROFILE.id, *taken.profiles))
    with pytest.raises(error):
        store.take_back(whole)
    assert store.rack() == before
    assert len(store.profiles()["p2"]) == 1

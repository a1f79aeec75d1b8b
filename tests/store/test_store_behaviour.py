"""What every store does, each against the same facts."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.domain.acts import HandedOver
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.rack import (
    Assembly,
    Piece,
    ShaftModel,
    Sleeve,
    SleeveSetting,
)
from loftwright.errors import ConflictError, NotFoundError
from loftwright.store.door_interface import PairedDevice
from loftwright.store.interface import Store
from store_samples import AT, DAY, GOLFER, RACK, WHO, with_fitting, with_rack


def test_a_golfer_comes_back_whole_and_the_newest_first(store: Store) -> None:
    store.add_golfer(GOLFER, WHO)
    store.add_golfer(Golfer(id="g2"), Identity(name="Hob Noughtley"))
    assert store.golfer("g1").value == GOLFER
    assert store.identity("g1") == WHO
    assert [kept.value.id for kept in store.golfers()] == ["g2", "g1"]


def test_a_change_states_the_version_it_read(store: Store) -> None:
    store.add_golfer(GOLFER, WHO)
    read = store.golfer("g1")
    second = store.change_golfer(replace(GOLFER, goal="further"), version=read.version)
    assert store.golfer("g1").value.goal == "further"
    with pytest.raises(ConflictError, match=f"stands at version {second}"):
        store.change_golfer(replace(GOLFER, goal="lower"), version=read.version)
    assert store.golfer("g1").value.goal == "further"


def test_an_identity_is_replaced_apart_from_the_golfer(store: Store) -> None:
    store.add_golfer(GOLFER, WHO)
    store.change_identity("g1", Identity(name="W. T."))
    assert store.identity("g1").name == "W. T."
    assert store.golfer("g1").version == 1


def test_limits_belong_to_their_day_and_are_forgotten(store: Store) -> None:
    store.add_golfer(GOLFER, WHO)
    store.set_limits("g1", DAY, "no full swings")
    store.set_limits("g1", DAY, "half swings")
    store.set_limits("g1", DAY + timedelta(days=1), "none")
    assert store.limits("g1", DAY) == "half swings"
    assert store.limits("g1", DAY - timedelta(days=1)) == ""
    assert store.forget_limits(DAY + timedelta(days=1)) == 1
    assert store.limits("g1", DAY) == ""
    assert store.limits("g1", DAY + timedelta(days=1)) == "none"


def test_the_rack_comes_back_whole_in_the_order_in_which_it_came(store: Store) -> None:
    with_rack(store)
    rack = store.rack()
    found = [
        *rack.heads.values(),
        *rack.shafts.values(),
        *rack.sleeves.values(),
        *rack.pieces.values(),
        *rack.assemblies.values(),
    ]
    assert found == list(RACK)
    for item in RACK:
        assert store.item(item.id).value == item


def test_an_item_is_changed_with_its_version_and_a_sleeve_with_its_settings(
    store: Store,
) -> None:
    with_rack(store)
    sleeve = RACK[3]
    assert isinstance(sleeve, Sleeve)
    fewer = replace(sleeve, settings=(SleeveSetting(name="only"),))
    assert store.put(fewer, version=1) == 2
    assert store.item("v1").value == fewer
    with pytest.raises(ConflictError, match="stands at version 2"):
        store.put(sleeve, version=1)
    with pytest.raises(ConflictError, match="there already"):
        store.put(sleeve, version=None)


def test_what_is_not_there_is_named(store: Store) -> None:
    with_fitting(store)
    nothing = "nothing"
    for ask in (
        lambda: store.golfer(nothing),
        lambda: store.identity(nothing),
        lambda: store.change_identity(nothing, WHO),
        lambda: store.set_limits(nothing, DAY, "x"),
        lambda: store.change_golfer(replace(GOLFER, id=nothing), version=1),
        lambda: store.item(nothing),
        lambda: store.put(replace(RACK[0], id=nothing), version=1),
        lambda: store.fitting(nothing),
        lambda: store.change_fitting(Fitting(id=nothing, golfer="g1", opened=DAY), version=1),
        lambda: store.open_fitting(Fitting(id="f2", golfer=nothing, opened=DAY)),
        lambda: store.record(nothing),
        lambda: store.append(nothing, [HandedOver(club="Own")], at=AT, by=""),
        lambda: store.set_hitting("Bay 1", nothing, version=0),
        lambda: store.withdraw(nothing, at=AT),
    ):
        with pytest.raises(NotFoundError, match="nothing"):
            ask()


def test_nothing_is_added_twice(store: Store) -> None:
    with_fitting(store)
    with pytest.raises(ConflictError, match="there already"):
        store.add_golfer(GOLFER, WHO)
    with pytest.raises(ConflictError, match="there already"):
        store.open_fitting(Fitting(id="f1", golfer="g1", opened=DAY))


def test_fittings_come_back_newest_first_and_change_by_version(store: Store) -> None:
    with_fitting(store)
    second = Fitting(
        id="f2",
        golfer="g1",
        opened=DAY,
        bay="Bay 2",
        fitter="B. Quill",
        partner="f1",
        invented=True,
    )
    store.open_fitting(second)
    assert [kept.value for kept in store.fittings()] == [
        second,
        Fitting(id="f1", golfer="g1", opened=DAY),
    ]
    store.change_fitting(replace(second, fitter="W. T."), version=1)
    assert store.fitting("f2").value.fitter == "W. T."
    with pytest.raises(ConflictError, match="fitting was changed"):
        store.change_fitting(second, version=1)


def test_settings_and_turns_have_versions_from_nought(store: Store) -> None:
    fitting = with_fitting(store)
    assert (store.setting("shop").value, store.setting("shop").version) == ("", 0)
    assert store.set_setting("shop", "{}", version=0) == 1
    assert store.set_setting("shop", '{"ü": 1}', version=1) == 2
    with pytest.raises(ConflictError, match="version 2"):
        store.set_setting("shop", "x", version=1)
    assert store.settings() == {"shop": '{"ü": 1}'}
    assert store.hitting("Bay 1").version == 0
    assert store.set_hitting("Bay 1", fitting, version=0) == 1
    assert store.hitting("Bay 1").value == fitting
    with pytest.raises(ConflictError, match="Bay 1"):
        store.set_hitting("Bay 1", fitting, version=0)


def test_devices_are_let_in_and_withdrawn_once(store: Store) -> None:
    one = PairedDevice(id="d1", name="tablet", role="fitter", key_hash="aa", paired_at=AT)
    store.pair(one)
    store.pair(replace(one, id="d2", key_hash="bb"))
    assert [device.id for device in store.paired()] == ["d2", "d1"]
    store.withdraw("d1", at=AT + timedelta(hours=1))
    store.withdraw("d1", at=AT + timedelta(hours=2))
    assert store.paired()[1].withdrawn_at == AT + timedelta(hours=1)
    assert store.paired()[0].withdrawn_at is None


def test_a_part_that_is_not_there_is_named_before_anything_is_kept(store: Store) -> None:
    with_rack(store)
    for item, named in (
        (Piece(id="p3", model="h9"), "model 'h9'"),
        (Piece(id="p3", model="s1", sleeve="v9"), "sleeve 'v9'"),
        (Piece(id="p3", model="s1", sleeve="h1"), "sleeve 'h1'"),
        (Assembly(id="a2", head="p9", shaft="p2", length=1.15), "piece 'p9'"),
        (Assembly(id="a2", head="p1", shaft="h1", length=1.15), "piece 'h1'"),
    ):
        with pytest.raises(NotFoundError, match=named):
            store.put(item, version=None)
        with pytest.raises(NotFoundError, match=item.id):
            store.item(item.id)


def test_an_item_stays_of_its_kind(store: Store) -> None:
    with_rack(store)
    with pytest.raises(ConflictError, match="p1"):
        store.put(ShaftModel(id="p1", maker="Thistledown", name="Reed"), version=1)
    assert store.item("p1").value == RACK[4]


def test_a_fitting_names_a_golfer_and_a_partner_that_are_there(store: Store) -> None:
    with_fitting(store)
    alone = store.fitting("f1").value
    with pytest.raises(NotFoundError, match="fitting 'f9'"):
        store.change_fitting(replace(alone, partner="f9"), version=1)
    with pytest.raises(NotFoundError, match="golfer 'g9'"):
        store.change_fitting(replace(alone, golfer="g9"), version=1)
    assert store.fitting("f1").value == alone


def test_a_device_or_its_key_is_let_in_once(store: Store) -> None:
    one = PairedDevice(id="d1", name="tablet", role="fitter", key_hash="aa", paired_at=AT)
    store.pair(one)
    for again in (replace(one, key_hash="bb"), replace(one, id="d2")):
        with pytest.raises(ConflictError, match="let in already"):
            store.pair(again)
    assert store.paired() == (one,)


def test_limits_of_nobody_are_not_asked_for(store: Store) -> None:
    with pytest.raises(NotFoundError, match="golfer 'g1'"):
        store.limits("g1", DAY)

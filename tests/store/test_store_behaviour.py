"""What every store does, each against the same facts."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR, YARD
from loftwright.domain import acts
from loftwright.domain.acts import Act, Felt, HandedOver, ShotArrived
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard, Fitting, PlanCard, Strip
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity
from loftwright.domain.home import Hole, Home, Lie, Trouble, Turf
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    RackItem,
    ShaftModel,
    Sleeve,
    SleeveSetting,
    State,
)
from loftwright.errors import ConflictError, NotFoundError
from loftwright.store.interface import PairedDevice, Store
from records import card, mark, numbers

AT = datetime(2026, 5, 14, 9, 0, 0, 123456, tzinfo=UTC)
DAY = date(2026, 5, 14)
HOME = Home(
    name="Mossy Bottom Links",
    altitude=54.864,
    temperature=289.3,
    humidity=0.7,
    turf=Turf.FIRM,
    wind_along=-1.3,
    wind_across=0.1,
    re_aim=False,
    holes=(
        Hole(length=402 * YARD, trouble=Trouble.RIGHT, trouble_lie=Lie.SAND),
        Hole(length=365 * YARD),
    ),
)
GOLFER = Golfer(
    id="g1",
    hand=Hand.LEFT,
    goal="not right, “please” — Ünïcode",
    looks="low",
    ability="senior",
    head_speed=75.1 * MILE_PER_HOUR,
    home=HOME,
    own="a1",
    consents=Consents(keep=True, given_on=DAY),
)
WHO = Identity(name="Wilhelmina Tuppence (invented)", contact="by post", guardian="")
RACK: tuple[RackItem, ...] = (
    HeadModel(id="h1", maker="Quillon", name="Wayfarer", loft=10.5 * DEGREE, system="Q"),
    HeadModel(
        id="h2",
        maker="Quillon",
        name="Wayfarer II",
        hand=Hand.LEFT,
        loft=9 * DEGREE,
        replaces="h1",
        generation="second",
    ),
    ShaftModel(id="s1", maker="Thistledown", name="Reed", paper_mass=62 * GRAM, paper_label="R"),
    Sleeve(
        id="v1",
        name="angled",
        system="Q",
        settings=(
            SleeveSetting(name="middle"),
            SleeveSetting(name="one up", bore=1.5 * DEGREE, azimuth=0.25),
        ),
    ),
    Piece(id="p1", model="h1", label="H-1", mass=0.2003, place="Bay 1"),
    Piece(
        id="p2",
        model="s1",
        label="S-1",
        sleeve="v1",
        state=State.LOCKED,
        reason="cracked",
        locked_until=AT + timedelta(days=1),
    ),
    Assembly(
        id="a1",
        head="p1",
        shaft="p2",
        setting="middle",
        length=45.25 * INCH,
        owner="g1",
        price=42900,
        grip="plain",
    ),
)
EVERY_ACT: tuple[Act, ...] = (
    acts.VisitOpened(
        day=DAY,
        bay="Bay 1",
        device=DeviceCard(name="meter", origins={"spin": Origin.CALCULATED}, mark_error=0.002),
        strip=Strip(ball="range", tee="40", surface="mat", place="in", treatment="spray"),
    ),
    acts.ClubJoined(club="Own", card=card("Own")),
    acts.Planned(
        plan=PlanCard(sets=(("Own", 3), ("Ash", 2)), seconds=1800.5, seed=7, given_up=("a", "b"))
    ),
    HandedOver(club="Own"),
    acts.SettingSeen(setting="middle"),
    acts.WarmUpDone(unseen=4),
    acts.StripChanged(strip=Strip(ball="premium")),
    ShotArrived(
        numbers=numbers(150.123456789, carry=0.1 + 0.2),
        club="Own",
        line='"7";148,2;ü',
        time="09:00:01",
        device="meter",
        source="folder",
        after=3,
    ),
    acts.NotRead(after=0, club="Own"),
    acts.Marked(mark=mark(1.1, -2.2), ball=8),
    acts.Marked(mark=replace(mark(3, 4), words="toe, high", error=0.006)),
    acts.NoMark(ball=8),
    acts.SetMarked(balls=(8, 9), marks=(mark(1, 2), mark(3, 4))),
    acts.MarksJoined(marks=(11,), balls=(8,)),
    acts.MarksShifted(first=8, by=-1),
    acts.MarkDropped(mark=11),
    acts.NotOurs(ball=8),
    acts.OddBall(ball=8),
    acts.RunMoved(first=8, last=9, club="Own"),
    acts.RunSet(first=8, last=9, setting="one up"),
    Felt(club="Own", place=1 / 3, word="solid"),
    acts.Vetoed(club="Own"),
    acts.ClubDropped(club="Own"),
    acts.Rested(),
    acts.PainSaid(),
    acts.Revealed(),
    acts.Closed(),
    acts.Undone(act=27),
)


def with_fitting(store: Store) -> str:
    store.add_golfer(GOLFER, WHO)
    store.open_fitting(Fitting(id="f1", golfer="g1", opened=DAY))
    return "f1"


def with_rack(store: Store) -> None:
    for item in RACK:
        store.put(item, version=None)


def test_every_kind_of_act_is_in_the_suite() -> None:
    assert {type(act) for act in EVERY_ACT} == set(acts.Act.__args__)


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
    store.change_fitting(replace(second, closed=True), version=1)
    assert store.fitting("f2").value.closed
    with pytest.raises(ConflictError, match="fitting was changed"):
        store.change_fitting(second, version=1)


def test_every_act_comes_back_to_the_last_digit(store: Store) -> None:
    fitting = with_fitting(store)
    written = [
        store.append(fitting, [act], at=AT + timedelta(seconds=place), by="tablet").entries[0]
        for place, act in enumerate(EVERY_ACT)
    ]
    assert store.record(fitting) == tuple(written)
    assert [entry.act for entry in store.record(fitting)] == list(EVERY_ACT)
    assert [entry.sequence for entry in written] == list(range(1, len(EVERY_ACT) + 1))


def test_acts_written_together_share_a_group(store: Store) -> None:
    fitting = with_fitting(store)
    store.append(fitting, [HandedOver(club="Own")], at=AT, by="a")
    both = store.append(
        fitting, [acts.NotRead(), ShotArrived(numbers=numbers()), acts.Rested()], at=AT, by="b"
    )
    assert [(one.sequence, one.group) for one in both.entries] == [(2, 2), (3, 2), (4, 2)]
    assert store.record(fitting, after=2) == both.entries[1:]


def test_a_key_writes_once_and_answers_the_same(store: Store) -> None:
    fitting = with_fitting(store)
    shot = ShotArrived(numbers=numbers(), line="the device's own line")
    first = store.append(fitting, [shot, acts.NotRead()], at=AT, by="feed", key="k1")
    again = store.append(
        fitting, [ShotArrived(numbers=numbers(99))], at=AT + timedelta(1), by="x", key="k1"
    )
    assert (first.repeated, again.repeated) == (False, True)
    assert again.entries == first.entries
    assert len(store.record(fitting)) == 2


def test_keys_are_a_fittings_own_and_no_key_repeats_nothing(store: Store) -> None:
    fitting = with_fitting(store)
    store.open_fitting(Fitting(id="f2", golfer="g1", opened=DAY))
    for where in (fitting, "f2"):
        assert not store.append(where, [acts.NotRead()], at=AT, by="", key="k").repeated
    for _ in range(2):
        assert not store.append(fitting, [acts.NotRead()], at=AT, by="").repeated
    assert len(store.record(fitting)) == 3


def test_one_key_from_many_threads_writes_once(store: Store) -> None:
    fitting = with_fitting(store)

    def send(_: int) -> tuple[int, bool]:
        shot = ShotArrived(numbers=numbers())
        found = store.append(fitting, [shot], at=AT, by="feed", key="same")
        return found.entries[0].sequence, found.repeated

    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(send, range(8)))
    assert {sequence for sequence, _ in answers} == {1}
    assert sorted(repeated for _, repeated in answers) == [False] + 7 * [True]


def test_many_threads_leave_no_gap_in_the_sequence(store: Store) -> None:
    fitting = with_fitting(store)
    with ThreadPoolExecutor(8) as pool:
        list(
            pool.map(
                lambda place: store.append(
                    fitting, [ShotArrived(numbers=numbers())], at=AT, by="", key=str(place)
                ),
                range(60),
            )
        )
    assert [one.sequence for one in store.record(fitting)] == list(range(1, 61))


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


def test_an_empty_act_list_writes_nothing(store: Store) -> None:
    fitting = with_fitting(store)
    assert store.append(fitting, [], at=AT, by="", key="k").entries == ()
    assert store.record(fitting) == ()

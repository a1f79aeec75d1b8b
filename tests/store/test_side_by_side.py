"""The store on the disk and the one in a dictionary answer alike, in any order."""

import tempfile
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any, TypeAlias

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from act_strategies import TOLD, texts
from fakes import MemoryStore
from loftwright.constants import DEGREE
from loftwright.domain.acts import Act
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity
from loftwright.domain.home import Home, Turf
from loftwright.domain.opening import Opening
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    RackItem,
    ShaftModel,
    Sleeve,
    SleeveSetting,
)
from loftwright.errors import LoftwrightError
from loftwright.store.door_interface import PairedDevice
from loftwright.store.interface import Store
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store

AT = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
DAY = date(2026, 5, 14)

Answer: TypeAlias = Any

GOLFERS = ("g1", "g2", "g3")
FITTINGS = ("f1", "f2", "f3")
ITEMS = ("i1", "i2", "i3", "i4", "i5", "i6", "i7")
SETTINGS = ("shop", "zone")
PINS = st.sampled_from([None, "a", "ü"])
BEHIND = (0, 1, 2, 5)

golfer_ids = st.sampled_from(("g1", *GOLFERS))
fitting_ids = st.sampled_from(("f1", *FITTINGS))
item_ids = st.sampled_from(ITEMS)
versions = st.integers(0, 3)
names = texts.filter(str.strip)
some_acts = st.lists(st.sampled_from(list(TOLD)).flatmap(TOLD.__getitem__), max_size=3)
identities = st.builds(Identity, name=names, contact=texts, guardian=texts)
golfers = st.builds(
    Golfer,
    id=golfer_ids,
    hand=st.sampled_from(Hand),
    goal=texts,
    looks=texts,
    ability=st.none() | texts,
    head_speed=st.none() | st.floats(20.0, 60.0),
    home=st.builds(Home, name=texts, turf=st.sampled_from(Turf), altitude=st.floats(0, 3000)),
    own=st.none() | item_ids,
    consents=st.builds(Consents, keep=st.booleans(), given_on=st.none() | st.dates()),
)
fittings = st.builds(
    Fitting,
    id=fitting_ids,
    golfer=golfer_ids,
    opened=st.dates(),
    bay=texts,
    fitter=texts,
    partner=st.none() | fitting_ids,
    invented=st.booleans(),
)
sleeve_settings = st.lists(
    st.builds(SleeveSetting, name=names, bore=st.floats(0.0, 4.0 * DEGREE)),
    min_size=1,
    max_size=3,
    unique_by=lambda one: one.name,
).map(tuple)
items = st.one_of(
    st.builds(
        HeadModel, id=item_ids, maker=texts, name=names, loft=st.floats(5 * DEGREE, 19 * DEGREE)
    ),
    st.builds(
        ShaftModel, id=item_ids, maker=texts, name=names, paper_mass=st.none() | st.just(0.0612)
    ),
    st.builds(Sleeve, id=item_ids, name=names, system=texts, settings=sleeve_settings),
    st.builds(
        Piece,
        id=item_ids,
        model=item_ids,
        label=texts,
        mass=st.none() | st.floats(0.05, 0.25),
        sleeve=st.none() | item_ids,
        locked_until=st.none() | st.just(AT),
    ),
    st.builds(
        Assembly,
        id=item_ids,
        head=item_ids,
        shaft=item_ids,
        length=st.floats(1.0, 1.2),
        owner=st.none() | golfer_ids,
        price=st.none() | st.integers(0, 10**9),
    ),
)


class SideBySide(RuleBasedStateMachine):
    """Asks both stores the same, and looks at all that can be read of them."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.kept: SqlStore = open_store(Path(self.folder.name))
        self.told = MemoryStore()
        self.at = AT

    def teardown(self) -> None:
        """Let go of the file."""
        self.kept.close()
        self.folder.cleanup()

    def both(self, ask: Callable[[Store], Answer]) -> None:
        """Ask both and compare what they answer, or the kind of what they refuse."""
        assert answered(partial(ask, self.kept)) == answered(partial(ask, self.told))

    @initialize()
    def begin_with_a_fitting_and_a_club(self) -> None:
        self.both(lambda store: store.add_golfer(Golfer(id="g1"), Identity(name="Hob")))
        self.both(lambda store: store.open_fitting(Fitting(id="f1", golfer="g1", opened=DAY)))
        for item in (
            HeadModel(id="i1", maker="Quillon", name="Wayfarer", loft=10.5 * DEGREE),
            ShaftModel(id="i2", maker="Thistledown", name="Reed"),
            Sleeve(id="i3", name="angled", system="Q", settings=(SleeveSetting(name="one"),)),
            Piece(id="i4", model="i1"),
            Piece(id="i5", model="i2", sleeve="i3"),
        ):
            self.both(partial(_put_new, item))

    @rule(golfer=golfers, identity=identities)
    def add_golfer(self, golfer: Golfer, identity: Identity) -> None:
        self.both(lambda store: store.add_golfer(golfer, identity))

    @rule(golfer=golfers, version=versions)
    def change_golfer(self, golfer: Golfer, version: int) -> None:
        self.both(lambda store: store.change_golfer(golfer, version=version))

    @rule(golfer=golfer_ids, identity=identities)
    def change_identity(self, golfer: str, identity: Identity) -> None:
        self.both(lambda store: store.change_identity(golfer, identity))

    @rule(golfer=golfer_ids, days=st.integers(0, 1), limits=texts)
    def set_limits(self, golfer: str, days: int, limits: str) -> None:
        self.both(lambda store: store.set_limits(golfer, DAY + timedelta(days), limits))

    @rule(days=st.integers(0, 2))
    def forget_limits(self, days: int) -> None:
        self.both(lambda store: store.forget_limits(DAY + timedelta(days)))

    @rule(item=items, version=st.none() | versions)
    def put(self, item: RackItem, version: int | None) -> None:
        self.both(lambda store: store.put(item, version=version))

    @rule(fitting=fittings)
    def open_fitting(self, fitting: Fitting) -> None:
        self.both(lambda store: store.open_fitting(fitting))

    @rule(fitting=fittings, version=versions)
    def change_fitting(self, fitting: Fitting, version: int) -> None:
        self.both(lambda store: store.change_fitting(fitting, version=version))

    @rule(fitting=fitting_ids, told=some_acts, key=st.sampled_from(["", "a", "b", "ü"]), by=texts)
    def append(self, fitting: str, told: Sequence[Act], key: str, by: str) -> None:
        self.at += timedelta(milliseconds=1)
        self.both(lambda store: store.append(fitting, told, at=self.at, by=by, key=key))

    @rule(name=st.sampled_from(SETTINGS), text=texts, version=versions)
    def set_setting(self, name: str, text: str, version: int) -> None:
        self.both(lambda store: store.set_setting(name, text, version=version))

    @rule(fitting=fitting_ids, version=versions)
    def set_hitting(self, fitting: str, version: int) -> None:
        self.both(lambda store: store.set_hitting("Bay 1", fitting, version=version))

    @rule(device=st.sampled_from(["d1", "d2"]), key_hash=st.sampled_from(["aa", "bb"]), name=texts)
    def pair(self, device: str, key_hash: str, name: str) -> None:
        one = PairedDevice(id=device, name=name, role="fitter", key_hash=key_hash, paired_at=AT)
        self.both(lambda store: store.pair(one))
        self.both(lambda store: store.pair(replace(one, withdrawn_at=AT)))

    @rule(device=st.sampled_from(["d1", "d2"]), hours=st.integers(1, 3))
    def withdraw(self, device: str, hours: int) -> None:
        self.both(lambda store: store.withdraw(device, at=AT + timedelta(hours=hours)))

    @rule(device=st.sampled_from(["d1", "d2"]), was=PINS, pin=PINS)
    def change_pin(self, device: str, was: str | None, pin: str | None) -> None:
        self.both(lambda store: store.change_pin(device, pin, was=was))

    @rule(
        golfer=golfer_ids,
        fitting=st.none() | fitting_ids,
        device=st.sampled_from(["", "d1"]),
        minutes=st.integers(0, 30),
        page=texts,
    )
    def open_record(
        self, golfer: str, fitting: str | None, device: str, minutes: int, page: str
    ) -> None:
        at = AT + timedelta(minutes=minutes)
        one = Opening(golfer=golfer, fitting=fitting, device=device, page=page, at=at)
        self.both(lambda store: store.keep_opening(one, within=timedelta(minutes=10)))

    @rule(minutes=st.integers(0, 30))
    def forget_openings(self, minutes: int) -> None:
        self.both(lambda store: store.forget_openings(AT + timedelta(minutes=minutes)))

    @rule()
    def open_again(self) -> None:
        self.kept.close()
        self.kept = open_store(Path(self.folder.name))

    @invariant()
    def everything_reads_alike(self) -> None:
        assert everything(self.kept) == everything(self.told)


def _put_new(item: RackItem, store: Store) -> int:
    return store.put(item, version=None)


def everything(store: Store) -> list[Answer]:
    """Return all that can be read of a store."""
    rack = store.rack()
    kinds = (rack.heads, rack.shafts, rack.pieces, rack.sleeves, rack.assemblies)
    days = [DAY + timedelta(days) for days in range(2)]
    asked: list[Callable[[], Answer]] = [
        *(store.golfers, store.fittings, store.settings, store.paired),
        partial(store.hitting, "Bay 1"),
        *(partial(store.setting, name) for name in SETTINGS),
        *(partial(store.item, item) for item in ITEMS),
        *(partial(ask, golfer) for ask in (store.golfer, store.identity) for golfer in GOLFERS),
        *(partial(store.openings, golfer, most=9) for golfer in GOLFERS),
        *(partial(store.limits, golfer, day) for golfer in GOLFERS for day in days),
        *(partial(store.fitting, fitting) for fitting in FITTINGS),
        *(partial(store.record, fitting, after=last) for fitting in FITTINGS for last in BEHIND),
    ]
    return [list(kind.items()) for kind in kinds] + [answered(ask) for ask in asked]


def answered(ask: Callable[[], Answer]) -> Answer:
    """Return an answer, or the kind of the refusal."""
    try:
        return ask()
    except LoftwrightError as error:
        return type(error)


TestSideBySide = SideBySide.TestCase
TestSideBySide.settings = settings(
    max_examples=30,
    stateful_step_count=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)

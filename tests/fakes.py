"""A store in a dictionary: the reference that every real store must answer like."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import date, datetime
from threading import RLock
from typing import TypeVar

from fake_bench import MemoryBench
from fake_door import MemoryDoor
from fake_erasing import MemoryErasing
from fake_jobs import MemoryJobs
from fake_overviews import MemoryOverviews
from fake_places import MemoryPlaces
from loftwright.domain.acts import Act, ClubJoined, Entry, ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.inspection import Inspection
from loftwright.domain.prediction import Prediction
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    Rack,
    RackItem,
    ShaftModel,
    Sleeve,
)
from loftwright.errors import ConflictError, InputError, MovedOnError, NotFoundError
from loftwright.store.golfers import ERASED
from loftwright.store.interface import Appended, TakenBack, Versioned
from loftwright.store.schema import HEAD

Value = TypeVar("Value")
OfPiece = TypeVar("OfPiece", Inspection, MeasuredProfile)


class MemoryStore(
    MemoryErasing, MemoryBench, MemoryDoor, MemoryJobs, MemoryOverviews, MemoryPlaces
):
    """Keeps everything in dictionaries, in the order in which it came."""

    def __init__(self) -> None:
        MemoryBench.__init__(self)
        MemoryDoor.__init__(self)
        MemoryJobs.__init__(self)
        MemoryPlaces.__init__(self)
        self._lock = RLock()
        self._golfers: dict[str, Versioned[Golfer]] = {}
        self._identities: dict[str, Identity] = {}
        self._limits: dict[tuple[str, date], str] = {}
        self._items: dict[str, Versioned[RackItem]] = {}
        self._inspections: list[Inspection] = []
        self._profiles: dict[str, MeasuredProfile] = {}
        self._fittings: dict[str, Versioned[Fitting]] = {}
        self._records: dict[str, list[Entry]] = {}
        self._predictions: dict[str, list[Prediction]] = {}
        self._settings: dict[str, Versioned[str]] = {}
        self._hitting: dict[str, Versioned[str]] = {}

    def add_golfer(self, golfer: Golfer, identity: Identity) -> None:
        with self._lock:
            if golfer.id in self._golfers:
                raise ConflictError(f"a golfer {golfer.id} is there already", place="golfer")
            self._golfers[golfer.id] = Versioned(value=golfer, version=1)
            self._identities[golfer.id] = identity

    def golfer(self, golfer: str) -> Versioned[Golfer]:
        return _found(self._golfers, golfer, "golfer")

    def golfers(self) -> tuple[Versioned[Golfer], ...]:
        return tuple(reversed(self._golfers.values()))

    def change_golfer(self, golfer: Golfer, *, version: int) -> int:
        return self._change(self._golfers, golfer.id, golfer, version, "golfer")

    def identity(self, golfer: str) -> Identity:
        return _found(self._identities, golfer, "golfer")

    def change_identity(self, golfer: str, identity: Identity) -> None:
        _found(self._identities, golfer, "golfer")
        self._identities[golfer] = identity

    def forget_golfer(self, golfer: str) -> None:
        _found(self._golfers, golfer, "golfer")
        self._identities[golfer] = ERASED
        self._limits = {key: one for key, one in self._limits.items() if key[0] != golfer}
        self.forget_openings_of(golfer)

    def set_limits(self, golfer: str, day: date, limits: str) -> None:
        _found(self._golfers, golfer, "golfer")
        self._limits[golfer, day] = limits

    def limits(self, golfer: str, day: date) -> str:
        _found(self._golfers, golfer, "golfer")
        return self._limits.get((golfer, day), "")

    def forget_limits(self, before: date) -> int:
        old = [key for key in self._limits if key[1] < before]
        for key in old:
            del self._limits[key]
        return len(old)

    def put(self, item: RackItem, *, version: int | None) -> int:
        with self._lock:
            self._check_parts(item)
            known = self._items.get(item.id)
            if version is None:
                if known is not None:
                    raise ConflictError(f"an item {item.id} is there already", place="item")
                self._items[item.id] = Versioned(value=item, version=1)
                return 1
            if known and known.version == version and type(known.value) is not type(item):
                raise ConflictError(f"{item.id} cannot become something else", place="item")
            return self._change(self._items, item.id, item, version, "item")

    def put_together(self, items: Sequence[tuple[RackItem, int | None]]) -> None:
        with self._lock:
            before = dict(self._items)
            try:
                for item, version in items:
                    self.put(item, version=version)
            except BaseException:
                self._items = before
                raise

    def item(self, item: str) -> Versioned[RackItem]:
        return _found(self._items, item, "item")

    def rack(self) -> Rack:
        values = [kept.value for kept in self._items.values()]
        return Rack(
            heads={one.id: one for one in values if isinstance(one, HeadModel)},
            shafts={one.id: one for one in values if isinstance(one, ShaftModel)},
            pieces={one.id: one for one in values if isinstance(one, Piece)},
            sleeves={one.id: one for one in values if isinstance(one, Sleeve)},
            assemblies={one.id: one for one in values if isinstance(one, Assembly)},
        )

    def inspect(self, inspection: Inspection) -> None:
        _found(self.rack().pieces, inspection.piece, "piece")
        if inspection.at.tzinfo is None:
            raise InputError("a time has no zone", place="at")
        self._inspections.append(inspection)

    def inspections(self) -> dict[str, tuple[Inspection, ...]]:
        return _by_piece(self._inspections)

    def keep_profile(self, profile: MeasuredProfile) -> None:
        _found(self.rack().pieces, profile.piece, "piece")
        if profile.id in self._profiles:
            raise ConflictError(f"a profile {profile.id} is there already", place="profile")
        self._profiles[profile.id] = profile

    def set_profile_aside(self, profile: str, reason: str) -> None:
        kept = _found(self._profiles, profile, "profile")
        self._profiles[profile] = replace(kept, set_aside=reason)

    def profiles(self) -> dict[str, tuple[MeasuredProfile, ...]]:
        return _by_piece(list(self._profiles.values()))

    def take_back(self, taken: TakenBack) -> None:
        with self._lock:
            before = dict(self._items), list(self._inspections), dict(self._profiles)
            try:
                self._take_back(taken)
            except BaseException:
                self._items, self._inspections, self._profiles = before
                raise

    def _take_back(self, taken: TakenBack) -> None:
        for item, version in taken.items:
            if _found(self._items, item, "item").version != version:
                raise ConflictError(f"{item} was changed meanwhile", place="item")
        for profile in taken.profiles:
            _found(self._profiles, profile, "profile")
            del self._profiles[profile]
        for look in taken.looks:
            if look not in self._inspections:
                raise NotFoundError("there is no such look", place="look")
            self._inspections.remove(look)
        for before, version in taken.changed:
            self.put(before, version=version)
        for item, _ in taken.items:
            del self._items[item]
        gone = {item for item, _ in taken.items}
        left = [kept.value for kept in self._items.values()]
        if any(
            gone & _names(one) for one in [*left, *self._inspections, *self._profiles.values()]
        ) or any(self.on_the_bench(one) or self.has_card(one) for one in gone):
            raise ConflictError("something that came later names one", place="item")

    def knows_fitting(self, fitting: str) -> bool:
        return fitting in self._fittings

    def knows_item(self, item: str) -> bool:
        return item in self._items

    def knows_golfer(self, golfer: str) -> bool:
        return golfer in self._golfers

    def open_fitting(self, fitting: Fitting) -> None:
        with self._lock:
            self._check_named(fitting)
            if fitting.id in self._fittings:
                raise ConflictError(f"a fitting {fitting.id} is there already", place="fitting")
            self._fittings[fitting.id] = Versioned(value=fitting, version=1)
            self._records[fitting.id] = []

    def fitting(self, fitting: str) -> Versioned[Fitting]:
        return _found(self._fittings, fitting, "fitting")

    def fittings(self) -> tuple[Versioned[Fitting], ...]:
        return tuple(reversed(self._fittings.values()))

    def change_fitting(self, fitting: Fitting, *, version: int) -> int:
        _found(self._fittings, fitting.id, "fitting")
        self._check_named(fitting)
        return self._change(self._fittings, fitting.id, fitting, version, "fitting")

    def append(
        self,
        fitting: str,
        acts: Sequence[Act],
        *,
        at: datetime,
        by: str,
        key: str = "",
        end: int | None = None,
    ) -> Appended:
        with self._lock:
            record = _found(self._records, fitting, "fitting")
            known = tuple(one for one in record if key and one.key == key)
            if known:
                return Appended(entries=known, repeated=True)
            if at.tzinfo is None:
                raise InputError("a time has no zone", place="at")
            if end is not None and end != len(record):
                raise MovedOnError("the record went on meanwhile", place="record")
            first = len(record) + 1
            entries = tuple(
                Entry(sequence=first + place, at=at, by=by, act=act, group=first, key=key)
                for place, act in enumerate(acts)
            )
            record.extend(entries)
            return Appended(entries=entries, repeated=False)

    def record(self, fitting: str, *, after: int = 0) -> tuple[Entry, ...]:
        return tuple(_found(self._records, fitting, "fitting")[after:])

    def fittings_with(self, pieces: Collection[str]) -> frozenset[str]:
        return frozenset(
            fitting
            for fitting, record in self._records.items()
            for entry in record
            if isinstance(entry.act, ClubJoined)
            and {entry.act.card.head_piece, entry.act.card.shaft_piece} & set(pieces)
        )

    def predict(self, fitting: str, prediction: Prediction) -> bool:
        with self._lock:
            record = _found(self._records, fitting, "fitting")
            if prediction.after > len(record):
                raise InputError("the record does not hold this entry", place="after")
            if prediction.at.tzinfo is None:
                raise InputError("a time has no zone", place="at")
            if any(isinstance(one.act, ShotArrived) for one in record[prediction.after :]):
                raise ConflictError("a ball came meanwhile", place="after")
            kept = self._predictions.setdefault(fitting, [])
            made = {(one.after, one.set_up) for one in kept}
            if (prediction.after, prediction.set_up) in made:
                return False
            kept.append(prediction)
            return True

    def predictions(self, fitting: str) -> tuple[Prediction, ...]:
        _found(self._fittings, fitting, "fitting")
        return tuple(self._predictions.get(fitting, ()))

    def setting(self, name: str) -> Versioned[str]:
        return self._settings.get(name, Versioned(value="", version=0))

    def set_setting(self, name: str, text: str, *, version: int) -> int:
        return self._set(self._settings, name, text, version)

    def settings(self) -> dict[str, str]:
        return {name: kept.value for name, kept in self._settings.items()}

    def hitting(self, bay: str) -> Versioned[str]:
        return self._hitting.get(bay, Versioned(value="", version=0))

    def set_hitting(self, bay: str, fitting: str, *, version: int) -> int:
        _found(self._fittings, fitting, "fitting")
        return self._set(self._hitting, bay, fitting, version)

    @property
    def database(self) -> str:
        return "memory"

    def schema(self) -> str:
        return HEAD

    def probe(self) -> str:
        return HEAD

    def rows(self) -> dict[str, int]:
        return {"golfers": len(self._golfers), "fittings": len(self._fittings)}

    def close(self) -> None:
        """Do nothing: there is nothing to let go of."""

    def _check_parts(self, item: RackItem) -> None:
        if isinstance(item, Piece):
            _found(self._items, item.model, "model")
            if item.sleeve is not None:
                _found(self.rack().sleeves, item.sleeve, "sleeve")
        elif isinstance(item, Assembly):
            for piece in (item.head, item.shaft):
                _found(self.rack().pieces, piece, "piece")

    def _check_named(self, fitting: Fitting) -> None:
        _found(self._golfers, fitting.golfer, "golfer")
        if fitting.partner is not None:
            _found(self._fittings, fitting.partner, "fitting")

    def _change(
        self,
        kept: dict[str, Versioned[Value]],
        name: str,
        value: Value,
        version: int,
        what: str,
    ) -> int:
        with self._lock:
            now = _found(kept, name, what)
            if now.version != version:
                raise ConflictError(
                    f"the {what} was changed meanwhile: it stands at version {now.version}, and "
                    f"version {version} was read",
                    place=what,
                    mend="Look at what stands now and change it again.",
                )
            kept[name] = Versioned(value=value, version=version + 1)
            return version + 1

    def _set(self, kept: dict[str, Versioned[str]], name: str, text: str, version: int) -> int:
        with self._lock:
            now = kept.get(name, Versioned(value="", version=0))
            if now.version != version:
                raise ConflictError(
                    f"{name} was changed meanwhile: it stands at version {now.version}",
                    place=name,
                    mend="Look at what stands now and change it again.",
                )
            kept[name] = Versioned(value=text, version=version + 1)
            return version + 1


def _found(kept: dict[str, Value], name: str, what: str) -> Value:
    if name not in kept:
        raise NotFoundError(f"there is no {what} {name!r}", place=what)
    return kept[name]


def _names(one: RackItem | Inspection | MeasuredProfile) -> set[str]:
    """Return what something of the rack names."""
    parts = ("model", "sleeve", "head", "shaft", "replaces", "piece")
    return {name for part in parts if (name := getattr(one, part, None))}


def _by_piece(kept: Sequence[OfPiece]) -> dict[str, tuple[OfPiece, ...]]:
    pieces = dict.fromkeys(one.piece for one in kept)
    return {piece: tuple(one for one in kept if one.piece == piece) for piece in pieces}

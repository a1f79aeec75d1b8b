"""What every store can do; SQLite and the reference in the tests answer alike."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Generic, Protocol, TypeVar

from loftwright.domain.acts import Act, Entry
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.inspection import Inspection
from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.measured_card import MeasuredCard
from loftwright.domain.place import PlaceMove
from loftwright.domain.prediction import Prediction
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Rack, RackItem
from loftwright.store.door_interface import DoorStore
from loftwright.store.erasing_interface import ErasingStore
from loftwright.store.overview import OverviewStore
from loftwright.store.standing import Standing

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Versioned(Generic[Value]):
    """A value with the version under which it was read; a write states it again."""

    value: Value
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Appended:
    """What became of an append.

    Attributes
    ----------
    entries : tuple of Entry
        As they stand in the record.
    repeated : bool
        Whether the key was known, so that nothing was added.
    """

    entries: tuple[Entry, ...]
    repeated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class JobAppended:
    """What became of an append to a job's record; as `Appended`."""

    entries: tuple[JobEntry, ...]
    repeated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchDay:
    """What a bench read of its master shaft on a day.

    Attributes
    ----------
    told : str
        The readings with their set-ups, as JSON.
    """

    piece: str
    at: datetime
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenBack:
    """What came into the rack together and is to go again.

    Attributes
    ----------
    items : tuple of (str, int)
        New items, each after what it names, with the version at which it must stand.
    changed : tuple of (RackItem, int)
        Items as they were before, with the version at which they must stand now.
    looks : tuple of Inspection
    profiles : tuple of str
        Their ids.
    """

    items: tuple[tuple[str, int], ...] = ()
    changed: tuple[tuple[RackItem, int], ...] = ()
    looks: tuple[Inspection, ...] = ()
    profiles: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Busy:
    """A fitting whose record does not end with its closing.

    Attributes
    ----------
    at : datetime
        When its newest entry was written.
    by : str
        By whom.
    """

    fitting: str
    bay: str
    fitter: str
    at: datetime
    by: str


class Store(DoorStore, ErasingStore, OverviewStore, Standing, Protocol):
    """The studio's memory.

    Every method that names something raises `NotFoundError` if it is not there; every change
    states the version it read and raises `ConflictError`, which says what stands now, if that
    is stale. What a method returns was committed.
    """

    def add_golfer(self, golfer: Golfer, identity: Identity) -> None:
        """Keep a new golfer; identity goes under a fresh key of the golfer's own."""

    def golfer(self, golfer: str) -> Versioned[Golfer]:
        """Return a golfer."""

    def golfers(self) -> tuple[Versioned[Golfer], ...]:
        """Return every golfer, the newest first."""

    def change_golfer(self, golfer: Golfer, *, version: int) -> int:
        """Replace a golfer and return the new version."""

    def identity(self, golfer: str) -> Identity:
        """Return who a golfer is."""

    def change_identity(self, golfer: str, identity: Identity) -> None:
        """Replace who a golfer is."""

    def forget_golfer(self, golfer: str) -> None:
        """Destroy a golfer's key: what it sealed cannot be read any more, in no copy."""

    def set_limits(self, golfer: str, day: date, limits: str) -> None:
        """Keep what the golfer's body allows on a day, apart from everything else."""

    def limits(self, golfer: str, day: date) -> str:
        """Return the limits of a day; empty if nothing is kept."""

    def forget_limits(self, before: date) -> int:
        """Remove limits of days before this one and return how many went."""

    def put(self, item: RackItem, *, version: int | None) -> int:
        """Keep an item of the rack, new without a version, and return its version."""

    def put_together(self, items: Sequence[tuple[RackItem, int | None]]) -> None:
        """Keep items of the rack, each after what it names: all of them or none."""

    def item(self, item: str) -> Versioned[RackItem]:
        """Return an item of the rack."""

    def rack(self) -> Rack:
        """Return the whole rack."""

    def check_out(self, moves: Sequence[PlaceMove]) -> int:
        """Move parts, all of them or none, and return the number of the newest move.

        Raises `ConflictError` with the place "place" if one is not where its move says it was.
        """

    def places(self) -> dict[str, PlaceMove]:
        """Return the newest move of every part that was ever moved."""

    def place_history(self, piece: str) -> tuple[PlaceMove, ...]:
        """Return the newest moves of a part, the last one first."""

    def inspect(self, inspection: Inspection) -> None:
        """Keep a look at a piece."""

    def inspections(self) -> dict[str, tuple[Inspection, ...]]:
        """Return every inspection by its piece, in the order in which they came."""

    def keep_profile(self, profile: MeasuredProfile) -> None:
        """Keep a measured profile of a shaft's sample."""

    def set_profile_aside(self, profile: str, reason: str) -> None:
        """Say why a profile does not stand; an empty reason lets it stand again."""

    def profiles(self) -> dict[str, tuple[MeasuredProfile, ...]]:
        """Return every measured profile by its piece, in the order in which they came."""

    def bench_sheet(self, piece: str) -> Versioned[str]:
        """Return the open bench sheet of a piece; version 0 and empty if there is none."""

    def bench_sheets(self) -> dict[str, str]:
        """Return every open bench sheet by its piece."""

    def set_bench_sheet(self, piece: str, told: str, *, version: int) -> int:
        """Replace the open bench sheet of a piece, new at version 0, and return its version."""

    def close_bench_sheet(self, piece: str, kept: str) -> None:
        """Close the open bench sheet of a piece under what became of it; it stays on record."""

    def keep_bench_day(self, day: BenchDay) -> None:
        """Keep what a bench read of its master shaft."""

    def bench_days(self) -> tuple[BenchDay, ...]:
        """Return what was read of master shafts, in the order in which it came."""

    def take_back(self, taken: TakenBack) -> None:
        """Remove what came and put back what was changed: all of it or nothing.

        Raises `ConflictError` if something that stays names an item that would go.
        """

    def open_fitting(self, fitting: Fitting) -> None:
        """Keep a new fitting."""

    def fitting(self, fitting: str) -> Versioned[Fitting]:
        """Return a fitting."""

    def fittings(self) -> tuple[Versioned[Fitting], ...]:
        """Return every fitting, the newest first."""

    def change_fitting(self, fitting: Fitting, *, version: int) -> int:
        """Replace a fitting and return the new version."""

    def busy(self, since: datetime, among: Collection[str] | None = None) -> tuple[Busy, ...]:
        """Return the fittings that are not closed and were written to since, the newest first.

        Of all fittings, or among those that are named.
        """

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
        """Write acts together behind a fitting's record.

        With a key that the record knows nothing is added, and what was written under it is
        returned. Where the record does not end at `end`, raises `MovedOnError`.
        """

    def record(self, fitting: str, *, after: int = 0) -> tuple[Entry, ...]:
        """Return a fitting's record behind a sequence, in order."""

    def fittings_with(self, pieces: Collection[str]) -> frozenset[str]:
        """Return the fittings that a club with one of these pieces ever joined, undone or not."""

    def predict(self, fitting: str, prediction: Prediction) -> bool:
        """Keep what is predicted of the next ball and return whether it is new.

        What was predicted after the same entry with the same set-up stays as it is. Raises
        `ConflictError` if a ball came behind the entry that the prediction knows last, and
        `InputError` if the record does not hold that entry.
        """

    def predictions(self, fitting: str) -> tuple[Prediction, ...]:
        """Return what was predicted in a fitting, in the order in which it was."""

    def append_job(
        self,
        fitting: str,
        acts: Sequence[JobAct],
        *,
        at: datetime,
        by: str,
        key: str = "",
        end: int | None = None,
    ) -> JobAppended:
        """Write acts together behind the record of a fitting's job; as `append`."""

    def job_record(self, fitting: str, *, after: int = 0) -> tuple[JobEntry, ...]:
        """Return the record of a fitting's job behind a sequence, in order."""

    def jobs(self) -> tuple[str, ...]:
        """Return the fittings that have a job, in the order in which these began."""

    def keep_card(self, card: MeasuredCard) -> None:
        """Keep what was measured of an item of the rack."""

    def cards(self) -> dict[str, tuple[MeasuredCard, ...]]:
        """Return every measured card by its item, in the order in which they came."""

    def bag(self, golfer: str) -> Versioned[str]:
        """Return the clubs of a golfer's bag as text; version 0 and empty if none was typed."""

    def set_bag(self, golfer: str, told: str, *, version: int) -> int:
        """Replace the clubs of a golfer's bag, new at version 0, and return its version."""

    def setting(self, name: str) -> Versioned[str]:
        """Return a setting's text; version 0 and empty if it was never set."""

    def set_setting(self, name: str, text: str, *, version: int) -> int:
        """Replace a setting and return the new version."""

    def settings(self) -> dict[str, str]:
        """Return every setting."""

    def hitting(self, bay: str) -> Versioned[str]:
        """Return the fitting whose golfer hits in a bay; version 0 and empty if nobody does."""

    def set_hitting(self, bay: str, fitting: str, *, version: int) -> int:
        """Say whose golfer hits in a bay and return the new version."""

    def hear(self, told: Callable[[str, int], None]) -> None:
        """Have something told what other processes on this store wrote, until it is closed.

        It takes the topic and its newest revision; an empty topic says that something may have
        been missed.
        """

    def close(self) -> None:
        """Let go of files and connections."""

"""Read everything a store holds, to see whether it can be read."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from loftwright.domain.acts import ShotArrived
from loftwright.errors import LoftwrightError
from loftwright.store.golfers import ERASED
from loftwright.store.interface import Store

_UNREADABLE: Final = (LoftwrightError, ValueError, KeyError, TypeError, AttributeError)
"""What reading raises where what is kept is not what was written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Something in a store that cannot be read, or is not as it should be."""

    place: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadThrough:
    """What reading everything found."""

    fittings: int
    balls: int
    faults: tuple[Fault, ...]


def read_everything(store: Store) -> ReadThrough:
    """Read every fitting's record, job and predictions, every golfer, and all of the rack.

    Parameters
    ----------
    store : Store

    Raises
    ------
    StoreError
        If the store cannot be used at all.
    """
    faults: list[Fault] = []
    faults += _tried("rack", store.rack)
    faults += _tried("settings", store.settings)
    faults += _tried("devices", store.paired)
    faults += _tried("inspections", store.inspections)
    faults += _tried("profiles", store.profiles)
    faults += _tried("measured cards", store.cards)
    faults += _tried("golfers", store.golfers)
    faults += _tried("fittings", store.fittings)
    if faults:
        return ReadThrough(fittings=0, balls=0, faults=tuple(faults))
    named = set()
    for golfer in store.golfers():
        known, found = _golfer(store, golfer.value.id)
        faults += found
        if known:
            named.add(golfer.value.id)
    fittings = store.fittings()
    balls = 0
    for kept in fittings:
        here, found = _record(store, kept.value.id, sealed=kept.value.golfer not in named)
        balls += here
        faults += found
    return ReadThrough(fittings=len(fittings), balls=balls, faults=tuple(faults))


def _golfer(store: Store, golfer: str) -> tuple[bool, list[Fault]]:
    """Return whether a golfer's key is there, and what cannot be read though it is."""
    place = f"golfer {golfer}"
    try:
        if store.identity(golfer) == ERASED:
            return False, []
    except _UNREADABLE as error:
        return False, [Fault(place=place, why=_words(error))]
    return True, list(_tried(f"bag of {place}", lambda: store.bag(golfer)))


def _record(store: Store, fitting: str, *, sealed: bool) -> tuple[int, list[Fault]]:
    """Return the balls of a fitting and what cannot be read; a job not where its key is gone."""
    place = f"fitting {fitting}"
    try:
        record = store.record(fitting)
    except _UNREADABLE as error:
        return 0, [Fault(place=place, why=_words(error))]
    found = []
    numbers = [entry.sequence for entry in record]
    if numbers != list(range(1, len(numbers) + 1)):
        found.append(Fault(place=place, why="its entries are not numbered from 1 without gaps"))
    found += _tried(f"predictions of {place}", lambda: store.predictions(fitting))
    if not sealed:
        found += _tried(f"job of {place}", lambda: store.job_record(fitting))
    return sum(isinstance(entry.act, ShotArrived) for entry in record), found


def _tried(place: str, read: Callable[[], object]) -> Iterator[Fault]:
    try:
        read()
    except _UNREADABLE as error:
        yield Fault(place=place, why=_words(error))


def _words(error: Exception) -> str:
    """Return what is wrong, without what was kept: it may hold a name."""
    if isinstance(error, LoftwrightError):
        return error.message
    return f"what is kept is not what was written ({type(error).__name__})"

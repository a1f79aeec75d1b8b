"""All fittings of the store in a dictionary at once."""

from collections.abc import Collection
from datetime import date

from loftwright.domain.acts import Closed, Entry
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.job_acts import JobEntry
from loftwright.store.golfers import ERASED
from loftwright.store.interface import Versioned
from loftwright.store.overview import Ending, Outline


class MemoryOverviews:
    """Tells of all fittings by looking through all of them."""

    _fittings: dict[str, Versioned[Fitting]]
    _records: dict[str, list[Entry]]
    _golfers: dict[str, Versioned[Golfer]]
    _identities: dict[str, Identity]

    def jobs(self) -> tuple[str, ...]:
        raise NotImplementedError

    def job_record(self, fitting: str, *, after: int = 0) -> tuple[JobEntry, ...]:
        raise NotImplementedError

    def outlines(self) -> tuple[Outline, ...]:
        return tuple(
            Outline(
                fitting=kept.value.id,
                golfer=kept.value.golfer,
                fitter=kept.value.fitter,
                invented=kept.value.invented,
                bay_check=kept.value.bay_check,
                opened=kept.value.opened,
                end=max((one.group for one in self._records[kept.value.id]), default=0),
            )
            for kept in reversed(list(self._fittings.values()))
        )

    def endings(self, fittings: Collection[str]) -> dict[str, Ending]:
        ends = {name: self._records[name][-1] for name in fittings if self._records.get(name)}
        return {
            name: Ending(end=last.group, at=last.at, closing=isinstance(last.act, Closed))
            for name, last in ends.items()
        }

    def job_ends(self) -> dict[str, int]:
        return {one: self.job_record(one)[-1].sequence for one in self.jobs()}

    def contact(self) -> dict[str, bool]:
        firsts = {one: kept.value.merged_into or one for one, kept in self._golfers.items()}
        return {
            one: self._golfers[first].value.consents.contact
            for one, first in firsts.items()
            if self._identities[first] != ERASED
        }

    def agreed(self) -> dict[str, str]:
        firsts = {one: kept.value.merged_into or one for one, kept in self._golfers.items()}
        return {
            one: first
            for one, first in firsts.items()
            if self._golfers[first].value.consents.shop_record
        }

    def roll(self) -> tuple[str, ...]:
        return tuple(
            kept.value.id
            for kept in reversed(list(self._golfers.values()))
            if kept.value.merged_into is None
        )

    def names(self) -> dict[str, str]:
        return {
            one: self._identities[one].name
            for one in self.roll()
            if self._identities[one] != ERASED
        }

    def growth_checks(self) -> dict[str, date]:
        days = {one: self._identities[one].growth_check for one in self.roll()}
        return {
            one: day
            for one, day in days.items()
            if day is not None and self._golfers[one].value.minor
        }

    def to_keep(self) -> frozenset[str]:
        return frozenset(one for one in self.roll() if self._golfers[one].value.consents.keep)

    def to_publish(self) -> frozenset[str]:
        told = {one: kept.value.consents for one, kept in self._golfers.items()}
        return frozenset(one for one, may in told.items() if may.publish and may.shop_record)

    def seconds(self) -> dict[str, str]:
        return {
            kept.value.id: kept.value.merged_into
            for kept in reversed(list(self._golfers.values()))
            if kept.value.merged_into is not None
        }

"""All fittings of the store in a dictionary at once."""

from collections.abc import Collection

from loftwright.domain.acts import Closed, Entry
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.store.golfers import ERASED
from loftwright.store.interface import Versioned
from loftwright.store.overview import Ending, Outline


class MemoryOverviews:
    """Tells of all fittings by looking through all of them."""

    _fittings: dict[str, Versioned[Fitting]]
    _records: dict[str, list[Entry]]
    _golfers: dict[str, Versioned[Golfer]]
    _identities: dict[str, Identity]

    def outlines(self) -> tuple[Outline, ...]:
        return tuple(
            Outline(
                kept.value.id,
                kept.value.golfer,
                kept.value.fitter,
                kept.value.invented,
                kept.value.bay_check,
                max((one.group for one in self._records[kept.value.id]), default=0),
            )
            for kept in reversed(list(self._fittings.values()))
        )

    def endings(self, fittings: Collection[str]) -> dict[str, Ending]:
        ends = {name: self._records[name][-1] for name in fittings if self._records.get(name)}
        return {
            name: Ending(end=last.group, at=last.at, closing=isinstance(last.act, Closed))
            for name, last in ends.items()
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

    def seconds(self) -> dict[str, str]:
        return {
            kept.value.id: kept.value.merged_into
            for kept in reversed(list(self._golfers.values()))
            if kept.value.merged_into is not None
        }

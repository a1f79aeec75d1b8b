"""How golfers are erased from dictionaries: a part of the reference store."""

from collections.abc import Collection, Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from loftwright.domain.acts import ClubJoined, Entry
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.inspection import Inspection
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.measured_card import MeasuredCard
from loftwright.domain.place import PlaceMove
from loftwright.domain.prediction import Prediction
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, Rack, RackItem
from loftwright.store.erasing import without_ids
from loftwright.store.erasing_interface import ErasedRows
from loftwright.store.interface import Versioned


class MemoryErasing:
    """Forgets golfers."""

    _golfers: dict[str, Versioned[Golfer]]
    _identities: dict[str, Identity]
    _limits: dict[tuple[str, date], str]
    _items: dict[str, Versioned[RackItem]]
    _inspections: list[Inspection]
    _profiles: dict[str, MeasuredProfile]
    _fittings: dict[str, Versioned[Fitting]]
    _records: dict[str, list[Entry]]
    _predictions: dict[str, list[Prediction]]
    _settings: dict[str, Versioned[str]]
    _hitting: dict[str, Versioned[str]]
    _jobs: dict[str, list[JobEntry]]
    _cards: list[MeasuredCard]
    _bags: dict[str, Versioned[str]]
    _moves: list[PlaceMove]

    def rack(self) -> Rack:
        raise NotImplementedError

    def golfer_ids(self) -> tuple[str, ...]:
        return tuple(self._golfers)

    def erase_golfers(
        self, gone: Collection[str], *, keeping: Mapping[str, str] = MappingProxyType({})
    ) -> ErasedRows:
        theirs = {one for one, kept in self._fittings.items() if kept.value.golfer in gone}
        items = self._owned(gone, theirs)
        for name, kept in self._fittings.items():
            if kept.value.partner in theirs:
                alone = replace(kept.value, partner=None)
                self._fittings[name] = Versioned(value=alone, version=kept.version)
        for one in theirs:
            for by_fitting in (self._fittings, self._records, self._predictions, self._jobs):
                by_fitting.pop(one, None)
        for bay in [bay for bay, kept in self._hitting.items() if kept.value in theirs]:
            del self._hitting[bay]
        for golfer in gone:
            for by_golfer in (self._golfers, self._identities, self._bags):
                by_golfer.pop(golfer, None)
        for key in [key for key in self._limits if key[0] in gone]:
            del self._limits[key]
        self._forget_items(gone, items)
        for name, text in keeping.items():
            known = self._settings.get(name, Versioned(value="", version=0))
            self._settings[name] = Versioned(value=text, version=known.version + 1)
        self._forget_in_settings({*gone, *theirs, *items})
        return ErasedRows(golfers=len(gone), fittings=len(theirs), items=len(items))

    def scrub(self) -> None:
        """Do nothing: a dictionary keeps nothing of what left it."""

    def _owned(self, gone: Collection[str], theirs: set[str]) -> set[str]:
        rack = self.rack()
        clubs = [one for one in rack.assemblies.values() if one.owner in gone]
        brought = {kept.value.own for name, kept in self._golfers.items() if name in gone}
        others = [one for one in rack.assemblies.values() if one.owner not in gone]
        kept = {part for one in others for part in (one.head, one.shaft)}
        for name, record in self._records.items():
            joined = [one.act for one in record if isinstance(one.act, ClubJoined)]
            if name not in theirs:
                cards = [act.card for act in joined]
                kept |= {part for card in cards for part in (card.head_piece, card.shaft_piece)}
        parts = {part for one in clubs for part in (one.head, one.shaft)} - kept
        own = {part for one in clubs if one.id in brought for part in (one.head, one.shaft)}
        left = {one.model for one in rack.pieces.values() if one.id not in parts}
        models = {rack.pieces[one].model for one in own & parts} - left
        models -= {one.replaces for one in rack.heads.values() if one.replaces}
        models -= {one.replaces for one in rack.shafts.values() if one.replaces}
        whole = {one.id for one in clubs if not {one.head, one.shaft} & kept}
        return whole | parts | models

    def _forget_items(self, gone: Collection[str], items: set[str]) -> None:
        for one in items:
            self._items.pop(one, None)
        for name, kept in self._items.items():
            if isinstance(kept.value, Assembly) and kept.value.owner in gone:
                free = replace(kept.value, owner=None)
                self._items[name] = Versioned(value=free, version=kept.version)
        self._cards[:] = [one for one in self._cards if one.item not in items]
        self._inspections[:] = [one for one in self._inspections if one.piece not in items]
        for name in [name for name, one in self._profiles.items() if one.piece in items]:
            del self._profiles[name]
        self._moves[:] = [
            replace(one, golfer=None) if one.golfer in gone else one
            for one in self._moves
            if one.piece not in items
        ]

    def _forget_in_settings(self, ids: set[str]) -> None:
        for name, kept in list(self._settings.items()):
            if any(one in name for one in ids):
                del self._settings[name]
            elif any(one in kept.value for one in ids):
                text = without_ids(kept.value, ids)
                self._settings[name] = Versioned(value=text, version=kept.version + 1)

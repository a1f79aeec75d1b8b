"""Bring a rack in from a file of the open format: looked at first, then all of it or nothing."""

from dataclasses import dataclass, fields
from hashlib import sha256
from typing import Any

import numpy as np

from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.lineage import check_line
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    Rack,
    RackItem,
    ShaftModel,
    State,
)
from loftwright.errors import ConflictError, InputError, LoftwrightError
from loftwright.services.rack import check_assembly
from loftwright.services.rack_adding import rack_with
from loftwright.services.rack_back import Came, remember
from loftwright.services.rack_changing import check_change
from loftwright.services.rack_fields import FIELDS, TYPES
from loftwright.services.rack_out import every_item, row_of, shop_items
from loftwright.services.rack_read import Row, check_keys, rows_in, value_of
from loftwright.services.studio import Studio


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedRow:
    """A row that cannot come in.

    Attributes
    ----------
    where : str
        Its place in the file.
    place : str
        The key.
    """

    where: str
    place: str
    message: str
    mend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """An item that would become another; what differs, by key: before and after in words."""

    where: str
    item: RackItem
    version: int
    differs: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Coming:
    """What a file would do to the rack.

    Attributes
    ----------
    new : tuple of (str, RackItem)
        Each with its place in the file.
    same : int
        Rows that change nothing.
    refused : tuple of RefusedRow
        While there is one, nothing comes in.
    seen : str
        Names this very plan, so that only what was looked at comes in.
    """

    new: tuple[tuple[str, RackItem], ...]
    changed: tuple[Change, ...]
    looks: tuple[Inspection, ...]
    profiles: tuple[MeasuredProfile, ...]
    same: int
    refused: tuple[RefusedRow, ...]
    seen: str

    @property
    def anything(self) -> bool:
        """Whether the file would change anything."""
        return bool(self.new or self.changed or self.looks or self.profiles)


class _Reading:
    """The rows of one file, taken in one by one against what stands."""

    def __init__(self, studio: Studio) -> None:
        self.studio = studio
        self.rack = studio.store.rack()
        self.shop = {item.id: item for item in shop_items(self.rack)}
        self.every = every_item(self.rack)
        self.all_looks = studio.store.inspections()
        self.known_profiles = {
            one.id: one for found in studio.store.profiles().values() for one in found
        }
        self.where: dict[str, str] = {}
        self.new: list[tuple[str, RackItem]] = []
        self.changed: list[Change] = []
        self.looks: list[Inspection] = []
        self.profiles: list[MeasuredProfile] = []
        self.same = 0
        self.refused: list[RefusedRow] = []

    def take(self, row: Row) -> None:
        """Take a row in, or refuse it."""
        try:
            check_keys(row)
            if row.kind == "look":
                self._look(value_of(row))
            elif row.kind == "profile":
                self._profile(value_of(row))
            else:
                self._item(row)
        except LoftwrightError as error:
            self.refuse(row.where, error)

    def refuse(self, where: str, error: LoftwrightError) -> None:
        """Write down why a row cannot come in."""
        self.refused.append(
            RefusedRow(where=where, place=error.place, message=error.message, mend=error.mend)
        )

    def _item(self, row: Row) -> None:
        told = row.told.get("id")
        if not isinstance(told, str):
            raise InputError("an id is text", place="id", mend="Give it between quotation marks.")
        known = self.shop.get(told)
        if known is None and told in self.every:
            raise InputError(
                f"{told} is part of a golfer's own club", place="id", mend="Give another id."
            )
        if known is not None and not isinstance(known, TYPES[row.kind]):
            raise InputError(
                f"{told} is in the rack as something else", place="id", mend="Give another id."
            )
        if told in self.where:
            raise InputError(
                f"{told} stands in {self.where[told]} too", place="id", mend="Give each its own."
            )
        made: RackItem = value_of(row, known)
        self.where[made.id] = row.where
        if known is None:
            self.new.append((row.where, made))
        elif made == known:
            self.same += 1
        else:
            self._refuse_cracked(made)
            version = self.studio.store.item(made.id).version
            self.changed.append(
                Change(
                    where=row.where,
                    item=made,
                    version=version,
                    differs=_differs(row.kind, known, made),
                )
            )

    def _refuse_cracked(self, made: RackItem) -> None:
        looks = self.all_looks.get(made.id, ())
        cracked = bool(looks) and looks[-1].finding is Finding.CRACKED
        if isinstance(made, Piece) and made.state is State.READY and cracked:
            raise InputError(
                "the newest look here found it cracked",
                place="state",
                mend="Leave it locked, and look at it again on its page.",
            )

    def _look(self, look: Inspection) -> None:
        if look in self.all_looks.get(look.piece, ()) or look in self.looks:
            self.same += 1
        else:
            self.looks.append(look)

    def _profile(self, profile: MeasuredProfile) -> None:
        known = self.known_profiles.get(profile.id)
        if known is None:
            self.known_profiles[profile.id] = profile
            self.profiles.append(profile)
        elif _same_profile(known, profile):
            self.same += 1
        else:
            raise InputError(
                f"a profile {profile.id} is there already and tells otherwise",
                place="id",
                mend="A measurement is not changed: give it another id.",
            )

    def check_together(self) -> None:
        """Refuse rows that name what is nowhere, or would not go together."""
        items = [item for _, item in self.new] + [one.item for one in self.changed]
        after = rack_with(self.rack, *items)
        mine = every_item(after).keys() - (self.every.keys() - self.shop.keys())
        for item in items:
            try:
                _check_named(after, item, mine)
            except InputError as error:
                self.refuse(self.where[item.id], error)
        told: list[Inspection | MeasuredProfile] = [*self.looks, *self.profiles]
        for one in told:
            if one.piece not in after.pieces or one.piece not in mine:
                wrong = InputError(
                    f"the rack has no piece {one.piece!r}",
                    place="piece",
                    mend="Give the id of a piece of the rack or of this file.",
                )
                kind = "a look" if isinstance(one, Inspection) else f"profile {one.id}"
                self.refuse(kind, wrong)
        if not self.refused:
            try:
                check_change(self.rack, tuple(items))
            except InputError as error:
                self.refuse("the whole file", error)


def look_at(studio: Studio, name: str, data: bytes) -> Coming:
    """Return what a file would do to the rack, and do nothing.

    Parameters
    ----------
    studio : Studio
    name : str
        Of the file.
    data : bytes

    Raises
    ------
    InputError
        If it is no rack in the open format at all.
    """
    reading = _Reading(studio)
    order = list(FIELDS)
    for row in sorted(rows_in(name, data), key=lambda one: order.index(one.kind)):
        reading.take(row)
    if not reading.refused:
        reading.check_together()
    told = repr(
        (reading.new, reading.changed, reading.looks, [one.id for one in reading.profiles])
    )
    return Coming(
        new=tuple(reading.new),
        changed=tuple(reading.changed),
        looks=tuple(reading.looks),
        profiles=tuple(reading.profiles),
        same=reading.same,
        refused=tuple(reading.refused),
        seen=sha256(told.encode() + data).hexdigest(),
    )


def bring_in(studio: Studio, name: str, data: bytes, *, seen: str) -> Coming:
    """Bring a file in that was looked at, and return what it did.

    Raises
    ------
    InputError
        If a row of it is refused.
    ConflictError
        If the rack was changed since it was looked at; nothing comes in then.
    """
    with studio.lock:
        coming = look_at(studio, name, data)
        if coming.refused:
            first = coming.refused[0]
            raise InputError(f"{first.where}: {first.message}", place=first.place, mend=first.mend)
        if coming.seen != seen:
            raise ConflictError(
                "the rack was changed since the file was looked at",
                place="seen",
                mend="Look at what it would do now, and bring it in again.",
            )
        items: list[tuple[RackItem, int | None]] = [(item, None) for _, item in coming.new]
        items += [(one.item, one.version) for one in coming.changed]
        before = studio.store.rack()
        studio.store.put_together(items)
        for look in coming.looks:
            studio.store.inspect(look)
        for profile in coming.profiles:
            studio.store.keep_profile(profile)
        if coming.anything:
            remember(studio, name, _came(before, coming))
    return coming


def _came(before: Rack, coming: Coming) -> Came:
    was = every_item(before)
    return Came(
        new=tuple(item.id for _, item in coming.new),
        changed=tuple((was[one.item.id], one.version + 1) for one in coming.changed),
        looks=coming.looks,
        profiles=tuple((one.id, one.set_aside) for one in coming.profiles),
    )


def _check_named(after: Rack, item: RackItem, mine: set[str]) -> None:
    match item:
        case HeadModel():
            check_line(after.heads, item)
        case ShaftModel():
            check_line(after.shafts, item)
        case Piece():
            if item.model not in {*after.heads, *after.shafts} & mine:
                raise InputError(
                    f"the rack has no model {item.model!r}",
                    place="model",
                    mend="Give the id of a head or shaft of the rack or of this file.",
                )
            if item.sleeve is not None and item.sleeve not in after.sleeves:
                raise InputError(
                    f"the rack has no sleeve {item.sleeve!r}",
                    place="sleeve",
                    mend="Give the id of a sleeve of the rack or of this file.",
                )
        case Assembly():
            for place in ("head", "shaft"):
                if getattr(item, place) not in mine:
                    raise InputError(
                        f"the rack has no {place} {getattr(item, place)!r}",
                        place=place,
                        mend="Give the id of a piece of the rack or of this file.",
                    )
            check_assembly(after, item)


def _differs(kind: str, before: RackItem, after: RackItem) -> tuple[tuple[str, str, str], ...]:
    was, becomes = row_of(kind, before), row_of(kind, after)
    return tuple(
        (key, _told(was[key]), _told(becomes[key])) for key in becomes if was[key] != becomes[key]
    )


def _told(value: Any) -> str:  # noqa: ANN401 - any value of a row
    return "nothing" if value is None or value == "" else str(value)


def _same_profile(one: MeasuredProfile, other: MeasuredProfile) -> bool:
    """Return whether two profiles tell the same, whether set aside or not."""
    return all(
        np.array_equal(getattr(one, part.name), getattr(other, part.name))
        if isinstance(getattr(one, part.name), np.ndarray)
        else getattr(one, part.name) == getattr(other, part.name)
        for part in fields(MeasuredProfile)
        if part.name != "set_aside"
    )

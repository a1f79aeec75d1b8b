"""The newest file that came into the rack, taken back while nothing of it has been used."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from itertools import islice
from typing import Final, TypeVar

from loftwright.domain.acts import ClubJoined
from loftwright.domain.fitting import ClubCard
from loftwright.domain.inspection import Inspection
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    Rack,
    RackItem,
    ShaftModel,
    Sleeve,
)
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.rack_changing import check_change
from loftwright.services.rack_fields import TYPES
from loftwright.services.rack_out import json_of, row_of
from loftwright.services.rack_read import rows_in, value_of
from loftwright.services.shop_leaving import pieces_changed
from loftwright.services.studio import Studio
from loftwright.store.interface import TakenBack

Item = TypeVar("Item")

NAME: Final = "last import"
"""Of the setting that holds it."""
_MOST_TOLD: Final = 5
"""Fittings that are named as in the way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Came:
    """What a file did to the rack.

    Attributes
    ----------
    new : tuple of str
        Ids, each after what it names.
    changed : tuple of (RackItem, int)
        Items as they were before, with the version at which they stood after.
    looks : tuple of Inspection
    profiles : tuple of (str, str)
        Ids, and why each came set aside.
    """

    new: tuple[str, ...]
    changed: tuple[tuple[RackItem, int], ...]
    looks: tuple[Inspection, ...]
    profiles: tuple[tuple[str, str], ...]

    @property
    def rows(self) -> int:
        """How many rows came in."""
        return len(self.new) + len(self.changed) + len(self.looks) + len(self.profiles)


@dataclass(frozen=True, slots=True, kw_only=True)
class LastImport:
    """The newest file that came in.

    Attributes
    ----------
    name : str
        Of the file.
    version : int
        Under which it was read.
    in_the_way : tuple of str
        Why it cannot be taken back, each in a sentence; empty if it can.
    """

    name: str
    at: datetime
    came: Came
    version: int
    in_the_way: tuple[str, ...]


def remember(studio: Studio, name: str, came: Came) -> None:
    """Write down what a file did, so that it can be taken back.

    Parameters
    ----------
    studio : Studio
    name : str
        Of the file.
    came : Came
    """
    kinds = {kind: word for word, kind in TYPES.items()}
    rows = [row_of(kinds[type(item)], item) for item, _ in came.changed]
    rows += [row_of("look", look) for look in came.looks]
    told = {
        "name": name,
        "at": studio.now().isoformat(),
        "new": came.new,
        "before": json_of(rows),
        "versions": [version for _, version in came.changed],
        "profiles": came.profiles,
    }
    kept = studio.store.setting(NAME)
    studio.store.set_setting(NAME, json.dumps(told, ensure_ascii=False), version=kept.version)
    pieces_changed(studio, _pieces(came))


def last_import(studio: Studio) -> LastImport | None:
    """Return the newest file that came in and was not taken back; None without one."""
    kept = studio.store.setting(NAME)
    if not kept.value:
        return None
    told = json.loads(kept.value)
    values = [value_of(row) for row in rows_in(NAME, told["before"].encode())]
    looks = tuple(one for one in values if isinstance(one, Inspection))
    items = [one for one in values if not isinstance(one, Inspection)]
    came = Came(
        new=tuple(told["new"]),
        changed=tuple(zip(items, told["versions"], strict=True)),
        looks=looks,
        profiles=tuple((piece, reason) for piece, reason in told["profiles"]),
    )
    at = datetime.fromisoformat(told["at"])
    return LastImport(
        name=told["name"],
        at=at,
        came=came,
        version=kept.version,
        in_the_way=tuple(dict.fromkeys(_in_the_way(studio, came, at))),
    )


def _pieces(came: Came) -> set[str]:
    """Return the pieces that were there before and that a file changed or looked at."""
    changed = {item.id for item, _ in came.changed if isinstance(item, Piece)}
    return changed | {look.piece for look in came.looks}


def take_back(studio: Studio, *, version: int) -> LastImport:
    """Take the newest file back and return what it was.

    Parameters
    ----------
    studio : Studio
    version : int
        Under which the file was read.

    Raises
    ------
    NotFoundError
        If none is there to be taken back.
    ConflictError
        If another came in meanwhile, or something of it has been used; nothing is changed then.
    """
    with studio.lock:
        last = last_import(studio)
        if last is None:
            raise NotFoundError(
                "no file is there to be taken back",
                place="import",
                mend="It was taken back already.",
            )
        if last.version != version:
            raise ConflictError(
                f"{last.name} came in since this page was opened",
                place="import",
                mend="Look at what it did, and take it back if you mean that one.",
            )
        if last.in_the_way:
            raise ConflictError(
                f"{last.name} cannot be taken back: {last.in_the_way[0]}",
                place="import",
                mend="Change the rack item by item instead.",
            )
        studio.store.take_back(
            TakenBack(
                items=tuple((item, 1) for item in last.came.new),
                changed=last.came.changed,
                looks=last.came.looks,
                profiles=tuple(profile for profile, _ in last.came.profiles),
            )
        )
        studio.store.set_setting(NAME, "", version=last.version)
        pieces_changed(studio, _pieces(last.came))
    return last


def _in_the_way(studio: Studio, came: Came, at: datetime) -> Iterator[str]:
    rack = studio.store.rack()
    new = set(came.new)
    yield from _changed_since(studio, rack, came)
    yield from _named_since(rack, new)
    yield from _known_since(studio, rack, came)
    yield from _hit_since(studio, rack, came, at)
    before = tuple(item for item, _ in came.changed)
    try:
        check_change(_without(rack, new), before)
    except InputError as error:
        yield f"what was changed cannot be as it was: {error.message}"


def _changed_since(studio: Studio, rack: Rack, came: Came) -> Iterator[str]:
    wanted = [(item, 1) for item in came.new]
    wanted += [(item.id, version) for item, version in came.changed]
    for item, version in wanted:
        kept = studio.store.item(item)
        if kept.version != version:
            yield f"{_named(rack, kept.value)} was changed since"


def _named_since(rack: Rack, new: set[str]) -> Iterator[str]:
    """Yield what came later and names something that would go."""
    for piece in rack.pieces.values():
        if piece.id not in new and {piece.model, piece.sleeve} & new:
            yield f"{_named(rack, piece)} was added since and is of it"
    for club in rack.assemblies.values():
        if club.id not in new and {club.head, club.shaft} & new:
            yield f"{_named(rack, club)} was put together of it since"
    models: list[HeadModel | ShaftModel] = [*rack.heads.values(), *rack.shafts.values()]
    for model in models:
        if model.id not in new and model.replaces in new:
            yield f"{_named(rack, model)} was said to replace a model of it"


def _known_since(studio: Studio, rack: Rack, came: Came) -> Iterator[str]:
    """Yield what was found of its parts by a later look or measurement."""
    mine = dict(came.profiles)
    for piece, looks in studio.store.inspections().items():
        later = [one for one in looks if one not in came.looks]
        if piece in came.new and later:
            yield f"{_named(rack, rack.pieces[piece])} was looked at since"
    for piece, profiles in studio.store.profiles().items():
        for one in profiles:
            if one.id in mine and one.set_aside != mine[one.id]:
                yield f"a measurement of {_named(rack, rack.pieces[piece])} was judged anew since"
            elif one.id not in mine and piece in came.new:
                yield f"{_named(rack, rack.pieces[piece])} was measured since"


def _hit_since(studio: Studio, rack: Rack, came: Came, at: datetime) -> Iterator[str]:
    """Yield the newest fittings that a part of it came into, for new parts at any time."""
    new, changed = set(came.new), {item.id for item, _ in came.changed}
    asked = studio.store.fittings_with(_pieces_of(rack, new))
    ends = studio.store.endings(studio.store.fittings_with(_pieces_of(rack, changed)))
    asked |= {fitting for fitting, ending in ends.items() if ending.at >= at}
    told = (
        f"{_of_fitting(studio, outline.fitting)} has it as {entry.act.club}"
        for outline in studio.store.outlines()
        if outline.fitting in asked
        for entry in studio.record(outline.fitting)
        if isinstance(entry.act, ClubJoined)
        and _parts_of(rack, entry.act.card) & (new | changed if entry.at >= at else new)
    )
    yield from islice(told, _MOST_TOLD)
    if next(told, None) is not None:
        yield "other fittings have something of it too"


def _pieces_of(rack: Rack, parts: set[str]) -> set[str]:
    """Return the pieces that are some parts, are of them, or are put together in them."""
    clubs = [club for club in rack.assemblies.values() if club.id in parts]
    pieces = {piece for club in clubs for piece in (club.head, club.shaft)}
    return pieces | {
        one.id for one in rack.pieces.values() if _with_models(rack, {one.id}) & parts
    }


def _parts_of(rack: Rack, card: ClubCard) -> set[str]:
    return _with_models(rack, {card.assembly, card.head_piece, card.shaft_piece})


def _of_fitting(studio: Studio, fitting: str) -> str:
    kept = studio.store.fitting(fitting).value
    day = f"{kept.opened:%d %B %Y}".lstrip("0")
    return f"the fitting of {day} in {kept.bay}" if kept.bay else f"the fitting of {day}"


def _with_models(rack: Rack, parts: set[str]) -> set[str]:
    """Return parts with their models and sleeves."""
    pieces = [rack.pieces[one] for one in parts if one in rack.pieces]
    return parts | {one.model for one in pieces} | {one.sleeve for one in pieces if one.sleeve}


def _without(rack: Rack, gone: set[str]) -> Rack:
    return Rack(
        heads=_rest(rack.heads, gone),
        shafts=_rest(rack.shafts, gone),
        pieces=_rest(rack.pieces, gone),
        sleeves=_rest(rack.sleeves, gone),
        assemblies=_rest(rack.assemblies, gone),
    )


def _rest(items: dict[str, Item], gone: set[str]) -> dict[str, Item]:
    return {name: item for name, item in items.items() if name not in gone}


def _named(rack: Rack, item: RackItem) -> str:
    match item:
        case HeadModel():
            return f"the head {item.name}"
        case ShaftModel():
            return f"the shaft {item.name}"
        case Piece():
            model = rack.heads.get(item.model) or rack.shafts[item.model]
            return f"the sample {model.name} {item.label or item.id}"
        case Assembly() if item.owner is not None:
            return "a golfer's own club"
        case Assembly():
            return f"the club of {rack.head_of(item).name} and {rack.shaft_of(item).name}"
        case Sleeve():
            return f"the sleeve {item.name}"

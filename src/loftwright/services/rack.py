"""The rack: what is there, what can be put together in this bay, and what each club tries."""

from collections.abc import Container
from dataclasses import dataclass, replace
from typing import TypeVar

from loftwright.bay.levers import Build, Tried, tried
from loftwright.bay.setups import angles_of
from loftwright.domain.club_kind import Kind, check_loft, kind_of_card
from loftwright.domain.fitting import ClubCard
from loftwright.domain.golfer import Golfer
from loftwright.domain.rack import Assembly, Piece, Rack, RackItem
from loftwright.errors import InputError
from loftwright.physics.sleeve import Convention
from loftwright.services.holding import barred, local_now
from loftwright.services.measuring import measured
from loftwright.services.places import elsewhere
from loftwright.services.studio import Studio, new_id

Item = TypeVar("Item", bound=RackItem)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """An assembly as it stands before this golfer.

    Attributes
    ----------
    why_not : str
        Why it cannot be hit here now; empty if it can.
    tries : Tried
        What it tries against the golfer's own club.
    other_kind : bool
        Whether it is of another kind than that: a fairway wood beside a driver.
    """

    assembly: Assembly
    card: ClubCard
    why_not: str
    tries: Tried
    other_kind: bool = False


def add_item(studio: Studio, item: Item) -> Item:
    """Keep a new item of the rack under a fresh id and return it."""
    kept = replace(item, id=new_id())
    if isinstance(kept, Assembly):
        check_assembly(studio.store.rack(), kept)
    studio.store.put(kept, version=None)
    return kept


def check_assembly(rack: Rack, assembly: Assembly) -> None:
    """Refuse a club that cannot be put together.

    Raises
    ------
    InputError
        If a part is unknown, the sleeve fits another system of heads, or the loft no club so long.
    """
    for place, piece, models in (
        ("head", assembly.head, rack.heads),
        ("shaft", assembly.shaft, rack.shafts),
    ):
        found = rack.pieces.get(piece)
        if found is None or found.model not in models:
            raise InputError(
                f"the rack has no {place} {piece!r}", place=place, mend=f"Choose a {place}."
            )
    head, sleeve = rack.head_of(assembly), rack.sleeve_of(assembly)
    check_loft(head.loft, assembly.length)
    if head.system and (sleeve is None or sleeve.system != head.system):
        on_it = f"a {sleeve.system} sleeve" if sleeve else "no sleeve"
        raise InputError(
            f"{head.name} takes a {head.system} sleeve and this shaft has {on_it}",
            place="shaft",
            mend="Choose a shaft with the sleeve of this head.",
        )
    if sleeve is not None and head.system:
        sleeve.setting(assembly.setting)


def card_of(rack: Rack, assembly: Assembly, on_bench: Container[str] = ()) -> ClubCard:
    """Return a club's card as a fitting keeps it.

    Parameters
    ----------
    rack : Rack
    assembly : Assembly
    on_bench : container of str
        Pieces with a profile that stands.
    """
    head, shaft, sleeve = (
        rack.head_of(assembly),
        rack.shaft_of(assembly),
        rack.sleeve_of(assembly),
    )
    return ClubCard(
        assembly=assembly.id,
        head=f"{head.maker} {head.name}".strip(),
        shaft=" ".join(part for part in (shaft.maker, shaft.name, shaft.paper_label) if part),
        head_piece=assembly.head,
        shaft_piece=assembly.shaft,
        loft=head.loft,
        lie=head.lie,
        face=head.face,
        length=assembly.length,
        setting=assembly.setting,
        settings=sleeve.settings if sleeve else (),
        grip=assembly.grip,
        price=assembly.price,
        measured=assembly.shaft in on_bench,
    )


def build_of(rack: Rack, assembly: Assembly, convention: Convention) -> Build:
    """Return what levers move in an assembly."""
    piece = rack.pieces[assembly.shaft]
    printed = rack.shaft_of(assembly).paper_mass
    return Build(
        length=assembly.length,
        loft=angles_of(card_of(rack, assembly), assembly.setting, convention).loft,
        head=rack.pieces[assembly.head].model,
        shaft=piece.model,
        shaft_mass=printed if piece.mass is None else piece.mass,
    )


def candidates(
    studio: Studio, golfer: Golfer, bay: str, convention: Convention
) -> tuple[Candidate, ...]:
    """Return the shop's clubs for a golfer: those that can be hit first, big levers first.

    Clubs of another kind than the own one, a driver where there is none, come after those of it.

    Parameters
    ----------
    studio : Studio
    golfer : Golfer
    bay : str
        Where the golfer hits; a piece of another bay is named with its place.
    convention : Convention
    """
    rack = studio.store.rack()
    known = measured(studio)
    mine = rack.assemblies.get(golfer.own or "")
    own = build_of(rack, mine, convention) if mine else None
    kind = kind_of_card(card_of(rack, mine)) if mine else Kind.DRIVER
    cards = {one.id: card_of(rack, one, known) for one in rack.assemblies.values()}
    found = [
        Candidate(
            assembly=one,
            card=cards[one.id],
            other_kind=kind_of_card(cards[one.id]) is not kind,
            why_not=_why_not(studio, rack, one, golfer, bay),
            tries=tried(build_of(rack, one, convention), own),
        )
        for one in rack.assemblies.values()
        if one.owner is None
    ]
    return tuple(
        sorted(found, key=lambda one: (bool(one.why_not), one.other_kind, one.tries.lever))
    )


def _why_not(studio: Studio, rack: Rack, assembly: Assembly, golfer: Golfer, bay: str) -> str:
    head = rack.head_of(assembly)
    if head.hand is not golfer.hand:
        return f"{head.hand}-handed head"
    for piece in (rack.pieces[assembly.head], rack.pieces[assembly.shaft]):
        reason = _barred(studio, piece, bay)
        if reason:
            return reason
    return ""


def _barred(studio: Studio, piece: Piece, bay: str) -> str:
    reason = barred(piece, local_now(studio))
    where = "" if reason else elsewhere(studio, piece, bay)
    return reason or (f"{piece.label or 'a part'} is {where}" if where else "")

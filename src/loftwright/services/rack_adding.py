"""What a shop writes down of its rack in one go: a head, a shaft with its club, an own club."""

from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.club_kind import check_loft
from loftwright.domain.golfer import Golfer
from loftwright.domain.lineage import check_line
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    Rack,
    RackItem,
    ShaftModel,
    Sleeve,
)
from loftwright.errors import InputError
from loftwright.services.rack import check_assembly
from loftwright.services.studio import Studio, new_id

UNKNOWN_HEAD: Final = "Unknown head"
UNKNOWN_SHAFT: Final = "Unknown shaft"


@dataclass(frozen=True, slots=True, kw_only=True)
class NewHead:
    """A head model with the one sample that is in the shop.

    Attributes
    ----------
    model : HeadModel
        Its id is given when it is kept.
    """

    model: HeadModel
    label: str = ""
    mass: float | None = None
    place: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewClub:
    """What a shaft is put on, for a whole club.

    Attributes
    ----------
    head : str
        Id of the head's piece.
    length : float
        Playing length [m].
    setting : str
        Name of the sleeve's setting; empty for its first one.
    """

    head: str
    length: float
    setting: str = ""
    grip: str = ""
    price: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NewShaft:
    """A shaft model, or one more sample of a known one, with the club it makes, if any.

    Attributes
    ----------
    model : ShaftModel
        A known id adds a sample of that model.
    sleeve : str, optional
        Id of the sleeve glued to it.
    club : NewClub, optional
    """

    model: ShaftModel
    label: str = ""
    mass: float | None = None
    place: str = ""
    sleeve: str | None = None
    club: NewClub | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnClub:
    """A golfer's own club as it was measured when it came in.

    Attributes
    ----------
    head, shaft : str
        What is written on them; empty if nobody can tell.
    loft, length : float
        [rad], [m]
    shaft_mass : float, optional
        As printed [kg].
    """

    loft: float
    length: float
    head: str = ""
    shaft: str = ""
    shaft_mass: float | None = None
    label: str = ""
    grip: str = ""


def add_head(studio: Studio, new: NewHead) -> Piece:
    """Keep a head model with its sample and return the sample."""
    model = replace(new.model, id=new_id())
    check_line(studio.store.rack().heads, model)
    piece = Piece(
        id=new_id(), model=model.id, label=new.label or model.name, mass=new.mass, place=new.place
    )
    _keep(studio, model, piece)
    return piece


def add_shaft(studio: Studio, new: NewShaft) -> tuple[Piece, Assembly | None]:
    """Keep a shaft and the club it makes; nothing is kept if the club cannot be.

    Returns
    -------
    tuple of (Piece, Assembly or None)

    Raises
    ------
    InputError
        If the sleeve is unknown, or head and shaft do not go together.
    """
    rack = studio.store.rack()
    known = rack.shafts.get(new.model.id)
    model = known or replace(new.model, id=new_id())
    check_line(rack.shafts, model)
    if new.sleeve is not None and new.sleeve not in rack.sleeves:
        raise InputError(
            "the rack has no such sleeve", place="sleeve", mend="Choose one, or add it first."
        )
    piece = Piece(
        id=new_id(),
        model=model.id,
        label=new.label or model.name,
        mass=new.mass,
        place=new.place,
        sleeve=new.sleeve,
    )
    items: list[RackItem] = [piece] if known else [model, piece]
    club = None
    if new.club is not None:
        club = _club(rack_with(rack, *items), new.club, piece)
        items.append(club)
    _keep(studio, *items)
    return piece, club


def add_own_club(studio: Studio, golfer: Golfer, own: OwnClub) -> Golfer:
    """Keep a golfer's own club and return the golfer who has it; the golfer is not kept yet."""
    items = own_items(golfer, own)
    _keep(studio, *items)
    return replace(golfer, own=items[-1].id)


def own_items(golfer: Golfer, own: OwnClub) -> tuple[RackItem, ...]:
    """Return what an own club is made of, each after what it names; the club comes last.

    Raises
    ------
    InputError
        If loft, length or weight cannot be.
    """
    check_loft(own.loft, own.length)
    head = HeadModel(
        id=new_id(),
        maker="",
        name=own.head or UNKNOWN_HEAD,
        hand=golfer.hand,
        loft=own.loft,
    )
    shaft = ShaftModel(
        id=new_id(),
        maker="",
        name=own.shaft or UNKNOWN_SHAFT,
        paper_mass=own.shaft_mass,
        paper_label=own.label,
    )
    parts = tuple(Piece(id=new_id(), model=model.id, label=model.name) for model in (head, shaft))
    club = Assembly(
        id=new_id(),
        head=parts[0].id,
        shaft=parts[1].id,
        length=own.length,
        grip=own.grip,
        owner=golfer.id,
    )
    return head, shaft, *parts, club


def change_own_club(studio: Studio, golfer: Golfer, own: OwnClub) -> None:
    """Write down anew what a golfer's own club is; its parts keep their ids."""
    check_loft(own.loft, own.length)
    store = studio.store
    rack = store.rack()
    club = rack.assemblies[golfer.own or ""]
    head, shaft = rack.head_of(club), rack.shaft_of(club)
    changed: tuple[RackItem, ...] = (
        replace(head, name=own.head or UNKNOWN_HEAD, loft=own.loft, hand=golfer.hand),
        replace(
            shaft,
            name=own.shaft or UNKNOWN_SHAFT,
            paper_mass=own.shaft_mass,
            paper_label=own.label,
        ),
        replace(club, length=own.length, grip=own.grip),
    )
    for item in changed:
        kept = store.item(item.id)
        if kept.value != item:
            store.put(item, version=kept.version)


def own_club(rack: Rack, golfer: Golfer) -> OwnClub | None:
    """Return a golfer's own club as it was written down, or None."""
    club = rack.assemblies.get(golfer.own or "")
    if club is None:
        return None
    head, shaft = rack.head_of(club), rack.shaft_of(club)
    return OwnClub(
        loft=head.loft,
        length=club.length,
        head="" if head.name == UNKNOWN_HEAD else head.name,
        shaft="" if shaft.name == UNKNOWN_SHAFT else shaft.name,
        shaft_mass=shaft.paper_mass,
        label=shaft.paper_label,
        grip=club.grip,
    )


def first_setting(rack: Rack, piece: Piece) -> str:
    """Return the name of a shaft's first sleeve setting; empty without a sleeve."""
    return rack.sleeves[piece.sleeve].settings[0].name if piece.sleeve else ""


def rack_with(rack: Rack, *items: RackItem) -> Rack:
    """Return a rack in which these items stand too."""
    heads, shafts, pieces = dict(rack.heads), dict(rack.shafts), dict(rack.pieces)
    sleeves, assemblies = dict(rack.sleeves), dict(rack.assemblies)
    for item in items:
        match item:
            case HeadModel():
                heads[item.id] = item
            case ShaftModel():
                shafts[item.id] = item
            case Piece():
                pieces[item.id] = item
            case Sleeve():
                sleeves[item.id] = item
            case Assembly():
                assemblies[item.id] = item
    return Rack(heads=heads, shafts=shafts, pieces=pieces, sleeves=sleeves, assemblies=assemblies)


def _club(rack: Rack, new: NewClub, shaft: Piece) -> Assembly:
    club = Assembly(
        id=new_id(),
        head=new.head,
        shaft=shaft.id,
        length=new.length,
        setting=new.setting or first_setting(rack, shaft),
        grip=new.grip,
        price=new.price,
    )
    check_assembly(rack, club)
    return club


def _keep(studio: Studio, *items: RackItem) -> None:
    """Keep new items, each after what it names: all of them or none."""
    studio.store.put_together([(item, None) for item in items])

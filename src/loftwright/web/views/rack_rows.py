"""Heads, shafts, sleeves and whole clubs in words, one row each."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, Piece, Rack, ShaftModel, State
from loftwright.errors import NotFoundError
from loftwright.report.numbers import NONE, count
from loftwright.report.screen_numbers import Show

NOT_MEASURED: Final = "not measured"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One entry of a list to choose from."""

    value: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubRow:
    """A whole club of the shop.

    Attributes
    ----------
    head_under, shaft_under : str
        Maker and mark of the sample.
    words : str
        The whole club in words, for those who hear the page.
    """

    id: str
    head: str
    head_under: str
    shaft: str
    shaft_under: str
    words: str
    weight: str
    weight_from: str
    length: str
    setting: str
    grip: str
    price: str
    bench: str
    state: str
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShaftRow:
    """One sample of a shaft."""

    id: str
    name: str
    mark: str
    weight: str
    weight_from: str
    label: str
    sleeve: str
    bench: str
    state: str
    place: str
    clubs: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadRow:
    """One sample of a head."""

    id: str
    name: str
    mark: str
    hand: str
    loft: str
    lie: str
    system: str
    weight: str
    state: str
    place: str
    clubs: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveRow:
    """A kind of sleeve with its settings in words."""

    id: str
    name: str
    system: str
    settings: str


def shop_shaft(rack: Rack, item: str) -> Piece:
    """Return a sample of a shaft of the shop's rack.

    Raises
    ------
    NotFoundError
        If it is none, or part of a golfer's own club.
    """
    piece = rack.pieces.get(item)
    if piece is None or piece.model not in rack.shafts or item in own_parts(rack):
        raise NotFoundError(
            "the rack has no such shaft", place=item, mend="Open a shaft from the rack."
        )
    return piece


def own_parts(rack: Rack) -> set[str]:
    """Return the ids of pieces that golfers brought with their own clubs."""
    return {
        piece
        for club in rack.assemblies.values()
        if club.owner is not None
        for piece in (club.head, club.shaft)
    }


def bench_words(piece: str, measured: Mapping[str, MeasuredProfile]) -> str:
    """Return when a shaft was measured, and where; that it was not if so."""
    found = measured.get(piece)
    if found is None:
        return NOT_MEASURED
    return f"measured on {found.bench}, {found.day.day} {found.day:%B %Y}"


def club_row(
    rack: Rack,
    club: Assembly,
    show: Show,
    currency: str,
    measured: Mapping[str, MeasuredProfile],
) -> ClubRow:
    """Return a whole club's row."""
    head, shaft = rack.pieces[club.head], rack.pieces[club.shaft]
    model = rack.shafts[shaft.model]
    weight, weight_from = weight_words(shaft, model, show)
    barred = next((one for one in (head, shaft) if one.state is not State.READY), None)
    return ClubRow(
        id=club.id,
        head=_head_name(rack, head, show),
        head_under=_under(rack.heads[head.model].maker, head, rack.heads[head.model].name),
        shaft=shaft_name(rack, shaft),
        shaft_under=_under(model.maker, shaft, model.name),
        words=f"{head_words(rack, head, show)} with {shaft_words(rack, shaft)}",
        weight=weight,
        weight_from=weight_from,
        length=show.length(club.length),
        setting=club.setting or NONE,
        grip=club.grip,
        price=NONE if club.price is None else show.money(club.price, currency),
        bench=bench_words(shaft.id, measured),
        state="" if barred is None else state_words(barred),
        place=" and ".join(dict.fromkeys(one.place for one in (head, shaft) if one.place)),
    )


def shaft_row(
    rack: Rack, piece: Piece, show: Show, measured: Mapping[str, MeasuredProfile]
) -> ShaftRow:
    """Return a shaft's row."""
    model = rack.shafts[piece.model]
    weight, weight_from = weight_words(piece, model, show)
    return ShaftRow(
        id=piece.id,
        name=model.name,
        mark=_under(model.maker, piece, model.name),
        weight=weight,
        weight_from=weight_from,
        label=model.paper_label or NONE,
        sleeve=rack.sleeves[piece.sleeve].name if piece.sleeve else NONE,
        bench=bench_words(piece.id, measured),
        state=state_words(piece),
        place=piece.place,
        clubs=_in_clubs(rack, piece),
    )


def head_row(rack: Rack, piece: Piece, show: Show) -> HeadRow:
    """Return a head's row."""
    model = rack.heads[piece.model]
    return HeadRow(
        id=piece.id,
        name=model.name,
        mark=_under(model.maker, piece, model.name),
        hand=model.hand.value,
        loft=show.angle(model.loft),
        lie=show.angle(model.lie),
        system=model.system or NONE,
        weight=NONE if piece.mass is None else show.mass(piece.mass, 1),
        state=state_words(piece),
        place=piece.place,
        clubs=_in_clubs(rack, piece),
    )


def shaft_name(rack: Rack, piece: Piece) -> str:
    """Return a shaft's name with what is printed on it, without its maker."""
    model = rack.shafts[piece.model]
    return f"{model.name} {model.paper_label}".strip()


def _head_name(rack: Rack, piece: Piece, show: Show) -> str:
    model = rack.heads[piece.model]
    left = ", left-handed" if model.hand.value == "left" else ""
    return f"{model.name}, {show.angle(model.loft)}{left}"


def _under(maker: str, piece: Piece, name: str) -> str:
    mark = piece.label if piece.label != name else ""
    return ", ".join(part for part in (maker, mark) if part)


def head_words(rack: Rack, piece: Piece, show: Show) -> str:
    """Return a head in words: maker, name, loft, and its hand where that is the left."""
    model = rack.heads[piece.model]
    left = ", left-handed" if model.hand.value == "left" else ""
    mark = f" ({piece.label})" if piece.label and piece.label != model.name else ""
    return f"{model.maker} {model.name}{mark}, {show.angle(model.loft)}{left}".strip()


def shaft_words(rack: Rack, piece: Piece) -> str:
    """Return a shaft in words: maker, name and what is printed on it."""
    model = rack.shafts[piece.model]
    words = " ".join(part for part in (model.maker, model.name, model.paper_label) if part)
    mark = f" ({piece.label})" if piece.label and piece.label != model.name else ""
    return words + mark


def weight_words(piece: Piece, model: ShaftModel, show: Show) -> tuple[str, str]:
    """Return a shaft's weight and where it comes from: weighed here, or printed."""
    if piece.mass is not None:
        printed = model.paper_mass
        # In a narrow column a figure never parts from its unit.
        whole = "" if printed is None else show.mass(printed).replace(" ", "\N{NO-BREAK SPACE}")
        beside = f", printed {whole}" if whole else ""
        return show.mass(piece.mass, 1), f"weighed{beside}"
    if model.paper_mass is not None:
        return show.mass(model.paper_mass), "printed"
    return NONE, "not weighed"


def state_words(piece: Piece) -> str:
    """Return why a piece may not be handed over; empty if it may."""
    if piece.state is State.READY:
        return ""
    return f"{piece.state.value}: {piece.reason}"


def shaft_mass(rack: Rack, piece: Piece) -> float | None:
    """Return a shaft's weight, weighed or else printed [kg]."""
    return piece.mass if piece.mass is not None else rack.shafts[piece.model].paper_mass


def sleeve_row(rack: Rack, sleeve: str) -> SleeveRow:
    """Return a sleeve's row."""
    one = rack.sleeves[sleeve]
    return SleeveRow(
        id=one.id,
        name=one.name,
        system=one.system,
        settings=", ".join(setting.name for setting in one.settings),
    )


def _in_clubs(rack: Rack, piece: Piece) -> str:
    number = sum(piece.id in {club.head, club.shaft} for club in rack.assemblies.values())
    return count(number, "club") if number else "in no club"

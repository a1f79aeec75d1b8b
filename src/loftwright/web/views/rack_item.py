"""One item of the rack as its page shows it, with what its form holds."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from loftwright.domain.piece_code import code_of
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, Piece, Rack, RackItem, Sleeve, State
from loftwright.errors import NotFoundError
from loftwright.report.screen_numbers import Show
from loftwright.web.views.rack_lineage import family_path, line_words, model_choices, model_values
from loftwright.web.views.rack_rows import (
    Choice,
    bench_words,
    head_words,
    own_parts,
    shaft_words,
    state_words,
    weight_words,
)
from loftwright.web.views.sleeve_words import settings_text


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """The page of one item.

    Attributes
    ----------
    kind : {"head", "shaft", "club", "sleeve"}
    standing : str
        What stands now, in a line.
    values : dict of str to str
        What the form holds.
    held : str
        Why it may not be handed over; empty if it may, or where that has no meaning.
    retired : bool
    heads, shafts, sleeves : tuple of Choice
        For a club: what it may be put together from; for a shaft: its sleeves.
    used_in : tuple of Choice
        Clubs that this piece is part of: id and words.
    models : tuple of Choice
        For a head or shaft: models that its own may have replaced.
    code : str
        On the label of a head or shaft.
    model : str
        Id of the model of a head or shaft.
    line : str
        Whom its model replaces, and by whom it was replaced.
    family : str
        Address of its family's page; empty without one.
    """

    id: str
    kind: str
    sentence: str
    lead: str
    standing: str
    values: dict[str, str]
    held: str = ""
    retired: bool = False
    heads: tuple[Choice, ...] = ()
    shafts: tuple[Choice, ...] = ()
    sleeves: tuple[Choice, ...] = ()
    used_in: tuple[Choice, ...] = ()
    models: tuple[Choice, ...] = ()
    code: str = ""
    model: str = ""
    line: str = ""
    family: str = ""


def item_view(
    rack: Rack,
    item: RackItem,
    show: Show,
    measured: Mapping[str, MeasuredProfile] = MappingProxyType({}),
) -> ItemView:
    """Return the page of one item of the shop's rack.

    Parameters
    ----------
    rack : Rack
    item : RackItem
    show : Show
    measured : mapping of str to MeasuredProfile
        The profile that stands, by its shaft.

    Raises
    ------
    NotFoundError
        For a model, which is changed with its samples, and for parts of a golfer's own club.
    """
    owned = isinstance(item, Assembly) and item.owner is not None
    if owned or item.id in own_parts(rack):
        raise NotFoundError(
            "a golfer's own club is no part of the shop's rack",
            place=item.id,
            mend="Change it on the golfer's page.",
        )
    match item:
        case Piece() if item.model in rack.heads:
            return _head(rack, item, show)
        case Piece():
            return _shaft(rack, item, show, bench_words(item.id, measured))
        case Assembly():
            return _club(rack, item, show)
        case Sleeve():
            return _sleeve(rack, item, show)
    raise NotFoundError(
        "a model is changed with one of its samples", place=item.id, mend="Open a sample."
    )


def _head(rack: Rack, piece: Piece, show: Show) -> ItemView:
    model = rack.heads[piece.model]
    words = head_words(rack, piece, show)
    return ItemView(
        id=piece.id,
        kind="head",
        sentence=_piece_sentence(words, piece),
        lead=_samples(rack, piece),
        standing=words,
        values={
            "name": model.name,
            "maker": model.maker,
            "loft": show.typed("angle", model.loft),
            "lie": show.typed("angle", model.lie),
            "face": show.typed("angle", model.face),
            "hand": model.hand.value,
            "system": model.system,
            "generation": model.generation,
            **model_values(model, show),
            **_piece_values(piece, show),
        },
        held=state_words(piece),
        retired=piece.state is State.RETIRED,
        used_in=_used_in(rack, piece, show),
        models=model_choices(rack, rack.heads, besides=model.id),
        code=code_of(piece.id),
        model=model.id,
        line=line_words(rack.heads, model),
        family=family_path(model),
    )


def _shaft(rack: Rack, piece: Piece, show: Show, bench: str) -> ItemView:
    model = rack.shafts[piece.model]
    words = shaft_words(rack, piece)
    weight, weight_from = weight_words(piece, model, show)
    return ItemView(
        id=piece.id,
        kind="shaft",
        sentence=_piece_sentence(words, piece),
        lead=f"{weight} {weight_from}, {bench}. {_samples(rack, piece)}",
        standing=f"{words}, {weight} {weight_from}",
        values={
            "name": model.name,
            "maker": model.maker,
            "paper_mass": show.typed("mass", model.paper_mass),
            "paper_label": model.paper_label,
            "generation": model.generation,
            **model_values(model, show),
            "sleeve": piece.sleeve or "",
            **_piece_values(piece, show),
        },
        held=state_words(piece),
        retired=piece.state is State.RETIRED,
        sleeves=sleeve_choices(rack),
        used_in=_used_in(rack, piece, show),
        models=model_choices(rack, rack.shafts, besides=model.id),
        code=code_of(piece.id),
        model=model.id,
        line=line_words(rack.shafts, model),
        family=family_path(model),
    )


def _club(rack: Rack, club: Assembly, show: Show) -> ItemView:
    own = own_parts(rack)
    head, shaft = rack.pieces[club.head], rack.pieces[club.shaft]
    words = f"{head_words(rack, head, show)} on {shaft_words(rack, shaft)}"
    held = "; ".join(state_words(one) for one in (head, shaft) if state_words(one))
    setting = f", {club.setting}" if club.setting else ""
    return ItemView(
        id=club.id,
        kind="club",
        sentence=f"{words}, {show.length(club.length)}.",
        lead="Fittings that it was hit in keep it as it was then.",
        standing=f"{words}, {show.length(club.length)}{setting}",
        values={
            "head": club.head,
            "shaft": club.shaft,
            "length": show.typed("length", club.length),
            "setting": club.setting,
            "grip": club.grip,
            "price": "" if club.price is None else show.money(club.price, ""),
        },
        held=held,
        heads=tuple(
            Choice(value=one.id, text=head_words(rack, one, show))
            for one in rack.pieces.values()
            if one.model in rack.heads and one.id not in own
        ),
        shafts=tuple(
            Choice(value=one.id, text=shaft_words(rack, one))
            for one in rack.pieces.values()
            if one.model in rack.shafts and one.id not in own
        ),
    )


def _sleeve(rack: Rack, sleeve: Sleeve, show: Show) -> ItemView:
    on = sum(piece.sleeve == sleeve.id for piece in rack.pieces.values())
    names = ", ".join(one.name for one in sleeve.settings)
    return ItemView(
        id=sleeve.id,
        kind="sleeve",
        sentence=f"{sleeve.name} fits {sleeve.system} heads and sits on {on} shafts.",
        lead=f"It goes in as {names}.",
        standing=f"{sleeve.name} for {sleeve.system}: {names}",
        values={
            "name": sleeve.name,
            "system": sleeve.system,
            "settings": settings_text(sleeve, show),
        },
    )


def sleeve_choices(rack: Rack) -> tuple[Choice, ...]:
    """Return every sleeve to choose from."""
    return tuple(
        Choice(value=one.id, text=f"{one.name} ({one.system})") for one in rack.sleeves.values()
    )


def _piece_values(piece: Piece, show: Show) -> dict[str, str]:
    return {
        "mass": show.typed("mass", piece.mass),
        "piece_label": piece.label,
        "place": piece.place,
        "check_after": "" if piece.check_after is None else str(piece.check_after),
    }


def _piece_sentence(words: str, piece: Piece) -> str:
    if piece.state is State.READY:
        return f"{words} is ready to be handed over."
    return f"{words} is {piece.state.value}: {piece.reason}."


def _samples(rack: Rack, piece: Piece) -> str:
    others = sum(one.model == piece.model for one in rack.pieces.values()) - 1
    if not others:
        return "It is the only sample of its model here."
    more = "another sample" if others == 1 else f"{others} other samples"
    return f"What is printed is changed for {more} of its model too."


def _used_in(rack: Rack, piece: Piece, show: Show) -> tuple[Choice, ...]:
    return tuple(
        Choice(
            value=club.id,
            text=f"{head_words(rack, rack.pieces[club.head], show)} on "
            f"{shaft_words(rack, rack.pieces[club.shaft])}, {show.length(club.length)}",
        )
        for club in rack.assemblies.values()
        if piece.id in {club.head, club.shaft}
    )

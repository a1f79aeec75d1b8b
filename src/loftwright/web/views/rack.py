"""The rack as its page shows it: whole clubs, shafts, heads and sleeves, sorted and chosen."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, Piece, Rack, State
from loftwright.report.numbers import count
from loftwright.report.rack_picture import HungShaft, rack_picture
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.web.views.rack_rows import (
    Choice,
    ClubRow,
    HeadRow,
    ShaftRow,
    SleeveRow,
    club_row,
    head_row,
    head_words,
    own_parts,
    shaft_mass,
    shaft_name,
    shaft_row,
    shaft_words,
    sleeve_row,
)
from loftwright.web.views.rack_search import (
    Wanted,
    club_fits,
    club_key,
    head_fits,
    shaft_fits,
    shaft_key,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RackView:
    """The rack's page.

    Attributes
    ----------
    hidden : str
        How much the filter leaves out; empty if nothing.
    head_choices, shaft_choices, sleeve_choices, model_choices : tuple of Choice
        For the forms that add.
    """

    sentence: str
    lead: str
    picture: str
    clubs: tuple[ClubRow, ...]
    shafts: tuple[ShaftRow, ...]
    heads: tuple[HeadRow, ...]
    sleeves: tuple[SleeveRow, ...]
    hidden: str
    empty: bool
    head_choices: tuple[Choice, ...]
    shaft_choices: tuple[Choice, ...]
    sleeve_choices: tuple[Choice, ...]
    model_choices: tuple[Choice, ...]


def rack_view(
    rack: Rack,
    wanted: Wanted,
    show: Show,
    currency: str = "",
    measured: Mapping[str, MeasuredProfile] = MappingProxyType({}),
) -> RackView:
    """Return the rack's page; golfers' own clubs are no part of the shop's rack.

    Parameters
    ----------
    rack : Rack
    wanted : Wanted
    show : Show
    currency : str
    measured : mapping of str to MeasuredProfile
        The profile that stands, by its shaft.
    """
    own = own_parts(rack)
    clubs = [club for club in rack.assemblies.values() if club.owner is None]
    shafts = [
        one for one in rack.pieces.values() if one.model in rack.shafts and one.id not in own
    ]
    heads = [one for one in rack.pieces.values() if one.model in rack.heads and one.id not in own]
    kept_clubs = [club for club in clubs if club_fits(rack, club, wanted)]
    kept_shafts = [piece for piece in shafts if shaft_fits(rack, piece, wanted)]
    kept_heads = [piece for piece in heads if head_fits(rack, piece, wanted)]
    hidden = len(clubs) - len(kept_clubs) + len(shafts) - len(kept_shafts)
    hidden += len(heads) - len(kept_heads)
    return RackView(
        sentence=_sentence(heads, shafts, clubs, sum(one.id in measured for one in shafts)),
        lead=_lead(heads, shafts, clubs),
        picture=for_screen(rack_picture(_hung(rack, kept_shafts))),
        clubs=tuple(
            club_row(rack, one, show, currency, measured)
            for one in sorted(kept_clubs, key=club_key(rack, wanted.sort))
        ),
        shafts=tuple(
            shaft_row(rack, one, show, measured)
            for one in sorted(kept_shafts, key=shaft_key(rack, wanted.sort))
        ),
        heads=tuple(head_row(rack, one, show) for one in kept_heads),
        sleeves=tuple(sleeve_row(rack, sleeve_id) for sleeve_id in rack.sleeves),
        hidden=f"{count(hidden, 'row')} left out by what you look for" if hidden else "",
        empty=not (heads or shafts or clubs),
        head_choices=tuple(
            Choice(value=one.id, text=head_words(rack, one, show)) for one in heads
        ),
        shaft_choices=tuple(Choice(value=one.id, text=shaft_words(rack, one)) for one in shafts),
        sleeve_choices=tuple(
            Choice(value=one.id, text=f"{one.name} ({one.system})")
            for one in rack.sleeves.values()
        ),
        model_choices=_model_choices(rack, shafts),
    )


def _sentence(
    heads: list[Piece], shafts: list[Piece], clubs: list[Assembly], measured: int
) -> str:
    if not (heads or shafts):
        return "The rack is empty: one head and one shaft make its first club."
    parts = f"{count(len(heads), 'head')} and {count(len(shafts), 'shaft')}"
    if not clubs:
        missing = "a shaft" if heads else "a head"
        wanting = f"add {missing}" if not (heads and shafts) else "put two of them together"
        return f"{parts}, and no club yet: {wanting}."
    makes = "makes" if len(heads) + len(shafts) == 1 else "make"
    bench = f"{measured} of the shafts measured" if measured else "no shaft is measured yet"
    return f"{parts} {makes} {count(len(clubs), 'club')}; {bench}."


def _lead(heads: list[Piece], shafts: list[Piece], clubs: list[Assembly]) -> str:
    if not (heads or shafts or clubs):
        return "Weight, length and the label on the paper are enough for a first plan."
    barred = sum(piece.state is not State.READY for piece in (*heads, *shafts))
    held = f" {count(barred, 'part')} locked or retired." if barred else ""
    return f"A label is what is printed, not what a shaft does.{held}"


def _hung(rack: Rack, shafts: Iterable[Piece]) -> list[HungShaft]:
    """Return shafts that have a weight."""
    weights = ((piece, shaft_mass(rack, piece)) for piece in shafts)
    return [
        HungShaft(name=shaft_name(rack, piece), mass=mass, weighed=piece.mass is not None)
        for piece, mass in weights
        if mass is not None and piece.state is not State.RETIRED
    ]


def _model_choices(rack: Rack, shafts: list[Piece]) -> tuple[Choice, ...]:
    models = dict.fromkeys(piece.model for piece in shafts)
    return tuple(
        Choice(
            value=model,
            text=" ".join(
                part for part in (rack.shafts[model].maker, rack.shafts[model].name) if part
            ),
        )
        for model in models
    )

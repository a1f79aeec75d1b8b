"""What is known of the head and shaft that were hit: by card, bench, scale, fitting or print."""

from collections.abc import Mapping
from dataclasses import replace

from loftwright.domain.measured_card import MeasuredCard
from loftwright.domain.order import ClubSpec
from loftwright.domain.parts_acts import Part
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Rack
from loftwright.workshop.held import ANGLES, Figure, HitPiece, Known, Source


def tested_parts(
    spec: ClubSpec,
    rack: Rack,
    cards: Mapping[str, MeasuredCard],
    profiles: Mapping[str, MeasuredProfile],
) -> dict[Part, HitPiece]:
    """Return what is known of the tested head and shaft, the best source of each figure."""
    head: dict[Figure, Known] = {
        figure: Known(value=getattr(spec, figure.value), source=Source.JOINED) for figure in ANGLES
    }
    piece = rack.pieces.get(spec.head_piece)
    if piece is not None and piece.mass is not None:
        head[Figure.MASS] = Known(value=piece.mass, source=Source.RACK)
    head |= _of_card(cards.get(spec.assembly), ANGLES, Source.CLUB_CARD)
    head |= _of_card(cards.get(spec.head_piece), ANGLES | {Figure.MASS}, Source.CARD)
    shaft: dict[Figure, Known] = {}
    sample = rack.pieces.get(spec.shaft_piece)
    model = None if sample is None else rack.shafts.get(sample.model)
    if model is not None and model.paper_mass is not None:
        shaft[Figure.MASS] = Known(value=model.paper_mass, source=Source.PRINTED)
    card, profile = cards.get(spec.shaft_piece), profiles.get(spec.shaft_piece)
    held = frozenset({Figure.MASS, Figure.BALANCE, Figure.FREQUENCY})
    carded = _of_card(card, held, Source.CARD)
    length = None if card is None else card.figures.length
    if profile is not None and not carded.keys() & {Figure.MASS, Figure.BALANCE}:
        shaft |= _of_profile(profile)
        length = float(profile.station[-1])
    known = HitPiece(known=shaft | carded, length=length)
    if card is not None:
        known = replace(known, clamp=card.figures.clamp, tip_mass=card.figures.tip_mass)
    return {Part.HEAD: HitPiece(known=head), Part.SHAFT: known}


def _of_profile(profile: MeasuredProfile) -> dict[Figure, Known]:
    """Return weight and balance point from the tip of a shaft that was on the bench."""
    told = {}
    if profile.mass is not None:
        told[Figure.MASS] = Known(value=profile.mass, source=Source.BENCH)
    if profile.balance is not None:
        from_tip = float(profile.station[-1]) - profile.balance
        told[Figure.BALANCE] = Known(value=from_tip, source=Source.BENCH)
    return told


def _of_card(
    card: MeasuredCard | None, figures: frozenset[Figure], source: Source
) -> dict[Figure, Known]:
    if card is None:
        return {}
    told = {figure: getattr(card.figures, figure.value) for figure in figures}
    return {
        figure: Known(value=value, source=source)
        for figure, value in told.items()
        if value is not None
    }

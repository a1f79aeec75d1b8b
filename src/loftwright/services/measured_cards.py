"""Measured cards of the rack's pieces and clubs: kept, read, and looked at for contradictions."""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import GRAM, KILOGRAM_SQUARE_CENTIMETRE, MILLIMETRE
from loftwright.domain.built import (
    TOUCHED,
    Checked,
    Contradicted,
    Sheet,
    contradictions,
    swingweight_from,
)
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.rack import Assembly, Piece, Rack
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Reading
from loftwright.errors import NotFoundError
from loftwright.physics.build.swingweight import (
    SwingweightScale,
)
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms

CLUB_DOUBTS: Final = {
    Checked.MASS: 1.0 * GRAM,
    Checked.BALANCE: 2.0 * MILLIMETRE,
    Checked.SWINGWEIGHT: 0.5,
    Checked.INERTIA: 20.0 * KILOGRAM_SQUARE_CENTIMETRE,
}
"""Half the range that holds a reading of a whole club 95 times in 100 (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredNow:
    """What was measured of an item of the rack, the newest first.

    Attributes
    ----------
    kind : {"head", "shaft", "club"}
    cards : tuple of MeasuredCard
    swingweight : Reading or None
        In points: as it was read, else from weight and balance point; None where neither can
        be told.
    derived : bool
        Whether it comes from weight and balance point.
    contradicted : tuple of Contradicted
        Which readings of the newest card cannot all be right.
    calibrated : bool
        Whether the shop's own scale was set by a club.
    """

    kind: str
    cards: tuple[MeasuredCard, ...]
    swingweight: Reading | None
    derived: bool
    contradicted: tuple[Contradicted, ...]
    calibrated: bool

    @property
    def card(self) -> MeasuredCard | None:
        """The card that stands."""
        return self.cards[0] if self.cards else None


def kind_of_item(rack: Rack, item: str) -> str:
    """Return what an item with a measured card is: head, shaft or club.

    Raises
    ------
    NotFoundError
        If it is neither a piece nor a whole club.
    """
    piece = rack.pieces.get(item)
    if piece is not None:
        return "head" if piece.model in rack.heads else "shaft"
    if item in rack.assemblies:
        return "club"
    raise NotFoundError(
        "only a head, a shaft or a whole club has a measured card",
        place=item,
        mend="Open one of them from the rack.",
    )


def measured_now(studio: Studio, item: str) -> MeasuredNow:
    """Return what was measured of a piece or a club.

    Raises
    ------
    NotFoundError
        If the rack has no such piece or club.
    """
    kind = kind_of_item(studio.store.rack(), item)
    cards = tuple(reversed(studio.store.cards().get(item, ())))
    scale = read_terms(studio).terms.scale
    figures = cards[0].figures if cards else PartFigures()
    readings = readings_of(figures) if kind == "club" else {}
    found = contradictions(
        readings, Sheet(targets={}, predicted={}, tolerances=Tolerances(), scale=scale)
    )
    touched = {one for contradiction in found for one in TOUCHED[contradiction.what]}
    read = readings.get(Checked.SWINGWEIGHT)
    derived = _derived(readings, scale) if read is None else None
    told = read or derived
    return MeasuredNow(
        kind=kind,
        cards=cards,
        swingweight=None if Checked.SWINGWEIGHT in touched else told,
        derived=derived is not None,
        contradicted=found,
        calibrated=scale.calibrated,
    )


def keep_measured(studio: Studio, item: str, figures: PartFigures, *, by: str = "") -> MeasuredNow:
    """Keep what was measured of a piece or a club today and return what stands.

    Raises
    ------
    NotFoundError
        If the rack has no such piece or club.
    """
    kind_of_item(studio.store.rack(), item)
    studio.store.keep_card(MeasuredCard(item=item, day=studio.today(), by=by, figures=figures))
    return measured_now(studio, item)


def readings_of(figures: PartFigures) -> dict[Checked, Reading]:
    """Return what was measured of a whole club as readings with their usual doubts."""
    return {
        checked: Reading(value=value, half_width=doubt)
        for checked, doubt in CLUB_DOUBTS.items()
        for value in (getattr(figures, checked.value),)
        if value is not None
    }


def item_words(rack: Rack, item: Piece | Assembly) -> str:
    """Return the names of a piece's model, or of a club's head and shaft."""
    if isinstance(item, Assembly):
        return f"{rack.head_of(item).name} on {rack.shaft_of(item).name}"
    head = rack.heads.get(item.model)
    return rack.shafts[item.model].name if head is None else head.name


def _derived(readings: dict[Checked, Reading], scale: SwingweightScale) -> Reading | None:
    mass, balance = readings.get(Checked.MASS), readings.get(Checked.BALANCE)
    if mass is None or balance is None:
        return None
    return swingweight_from(mass, balance, scale)

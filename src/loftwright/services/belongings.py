"""To what a club's parts belong in the shop record, by the rack."""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.golfer import Golfer
from loftwright.domain.rack import Rack, ShaftModel
from loftwright.shop.levels import Belongs

SPEEDS: Final = ((85.0 * MILE_PER_HOUR, "slow"), (100.0 * MILE_PER_HOUR, "middle"))
"""Head speeds below which a golfer is called so; above them fast (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferKind:
    """What kind of golfer hits a club, as the record names it; empty where nobody said."""

    speed: str = ""
    loading: str = ""
    ability: str = ""


ANY_GOLFER: Final = GolferKind()


def speed_word(speed: float | None) -> str:
    """Return how fast a head speed [m/s] is, in a word; empty where nobody knows it."""
    if speed is None:
        return ""
    return next((name for limit, name in SPEEDS if speed < limit), "fast")


def golfer_kind(golfer: Golfer, speed: str) -> GolferKind:
    """Return what kind of golfer it is, the head speed being named already."""
    return GolferKind(
        speed=speed,
        loading="" if golfer.change is None else golfer.change.value,
        ability=golfer.ability or "",
    )


def generation_name(model: ShaftModel) -> str:
    """Return the name under which the shop record keeps a model's generation; empty without."""
    return f"{model.family} {model.generation}".strip() if model.generation else ""


def belongs_of(
    rack: Rack, head_piece: str, shaft_piece: str, kind: GolferKind = ANY_GOLFER
) -> Belongs:
    """Return to what a club's parts belong, and who hits it.

    Parameters
    ----------
    rack : Rack
    head_piece, shaft_piece : str
        A piece that the rack does not have belongs to nothing.
    kind : GolferKind
    """
    head, shaft = rack.pieces.get(head_piece), rack.pieces.get(shaft_piece)
    model = None if shaft is None else rack.shafts.get(shaft.model)
    return Belongs(
        head="" if head is None else head.model,
        family="" if model is None else model.family,
        generation="" if model is None else generation_name(model),
        model="" if model is None else model.id,
        piece="" if shaft is None else shaft.id,
        speed=kind.speed,
        loading=kind.loading,
        ability=kind.ability,
    )

"""Where the record contradicts what is said of shafts, worked out once a version and rack."""

from typing import Final

from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.shop_contradictions import contradictions_of
from loftwright.services.studio import Studio
from loftwright.shop.contradictions import Contradiction
from loftwright.shop.learned import ShopLearned

_KEPT: Final = KeptByStudio[tuple[Contradiction, ...]]()


def said_against(studio: Studio, learned: ShopLearned) -> tuple[Contradiction, ...]:
    """Return where what was learned contradicts labels, bench or sisters of the rack's shafts."""
    rack = studio.store.rack()
    models = tuple(
        (one.id, one.family, one.generation, one.paper_label) for one in rack.shafts.values()
    )
    pieces = tuple((one.id, one.model) for one in rack.pieces.values())
    key = (learned.version, models, pieces)
    return _KEPT.of(studio, key, lambda: contradictions_of(studio, learned))


def of_shaft(
    found: tuple[Contradiction, ...], piece: str, model: str
) -> tuple[Contradiction, ...]:
    """Return those of a sample or its model."""
    named = {("piece", piece), ("model", model)}
    return tuple(one for one in found if (one.level, one.member) in named)

"""What the shop record says of one shaft, in a line each."""

from collections.abc import Iterable
from typing import Final

from loftwright.domain.rack import Rack
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_words import golfers_like, known_words
from loftwright.services.shop_newest import Learned
from loftwright.services.shop_told import ANYBODY, Kind, shaft_known, whom_of

NOTHING_LEARNED: Final = "Nothing has been learned yet."
_CHANGES: Final = {"quick": "quick change", "smooth": "smooth change"}
_ABILITIES: Final = {
    "tour": "tour player",
    "low": "low handicap",
    "mid": "middle handicap",
    "high": "high handicap",
}


def shaft_words(found: Learned, rack: Rack, piece: str, show: Show, kind: Kind = ANYBODY) -> str:
    """Return what the record says of a sample of a shaft, for one kind of golfers.

    Parameters
    ----------
    found : Learned
    rack : Rack
    piece : str
    show : Show
    kind : Kind
        Over all golfers without it, and where the record holds nothing of that kind.
    """
    if found.why_not:
        return found.why_not
    if found.learned is None:
        return NOTHING_LEARNED
    known = shaft_known(found.learned, rack, piece, kind)
    whom = kind_words(whom_of(found.learned, rack, piece, kind))
    return known_words(known, show, golfers_like(*whom))


def kind_words(kind: Kind) -> tuple[str, str, str]:
    """Return a kind of golfers in words; empty where nobody said."""
    return (
        kind.speed,
        _CHANGES.get(kind.loading, kind.loading),
        _ABILITIES.get(kind.ability, kind.ability),
    )


def words_by_shaft(
    found: Learned, rack: Rack, pieces: Iterable[str], show: Show, kind: Kind
) -> dict[str, str]:
    """Return what the record says of each of some shafts; nothing before it was learned from.

    Parameters
    ----------
    found : Learned
    rack : Rack
    pieces : iterable of str
    show : Show
    kind : Kind
    """
    if found.learned is None:
        return {}
    return {one: shaft_words(found, rack, one, show, kind) for one in set(pieces)}

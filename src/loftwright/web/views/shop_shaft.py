"""What the shop record says of one shaft, in a line each."""

from collections.abc import Iterable
from typing import Final

from loftwright.domain.rack import Rack
from loftwright.report.contradiction_words import contradiction_words
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_words import golfers_like, known_words
from loftwright.services.belongings import ANY_GOLFER, GolferKind
from loftwright.services.shop_against import of_shaft
from loftwright.services.shop_names import member
from loftwright.services.shop_newest import Learned
from loftwright.services.shop_told import shaft_known, whom_of
from loftwright.shop.contradictions import Contradiction

NOTHING_LEARNED: Final = "Nothing has been learned yet."
_CHANGES: Final = {"quick": "quick change", "smooth": "smooth change"}
_ABILITIES: Final = {
    "tour": "tour player",
    "low": "low handicap",
    "mid": "middle handicap",
    "high": "high handicap",
}


def shaft_lines(
    found: Learned,
    rack: Rack,
    piece: str,
    show: Show,
    *,
    against: tuple[Contradiction, ...] = (),
    kind: GolferKind = ANY_GOLFER,
) -> tuple[str, ...]:
    """Return what the record says of a sample of a shaft, and what it contradicts.

    Parameters
    ----------
    found : Learned
    rack : Rack
    piece : str
    show : Show
    against : tuple of Contradiction
        Of the whole rack.
    kind : GolferKind
        Over all golfers without it, and where the record holds nothing of that kind.
    """
    if found.why_not:
        return (found.why_not,)
    if found.learned is None:
        return (NOTHING_LEARNED,)
    known = shaft_known(found.learned, rack, piece, kind)
    whom = kind_words(whom_of(found.learned, rack, piece, kind))
    more = of_shaft(against, piece, rack.pieces[piece].model)
    return (
        known_words(known, show, golfers_like(*whom)),
        *(contradicted(one, rack, show) for one in more),
    )


def contradicted(one: Contradiction, rack: Rack, show: Show) -> str:
    """Return one contradiction in words, about a shaft that was named before."""
    return contradiction_words(
        one.kind,
        one.response,
        (one.mean, one.low, one.high),
        one.fittings,
        show,
        claim=one.claim,
        against=member(rack, "model", one.against) if one.against else "",
    )


def kind_words(kind: GolferKind) -> tuple[str, str, str]:
    """Return a kind of golfers in words; empty where nobody said."""
    return (
        kind.speed,
        _CHANGES.get(kind.loading, kind.loading),
        _ABILITIES.get(kind.ability, kind.ability),
    )


def lines_by_shaft(
    found: Learned,
    rack: Rack,
    pieces: Iterable[str],
    show: Show,
    *,
    against: tuple[Contradiction, ...],
    kind: GolferKind,
) -> dict[str, tuple[str, ...]]:
    """Return what the record says of each of some shafts; nothing before it was learned from.

    Parameters
    ----------
    found : Learned
    rack : Rack
    pieces : iterable of str
    show : Show
    against : tuple of Contradiction
    kind : GolferKind
    """
    if found.learned is None:
        return {}
    return {
        one: shaft_lines(found, rack, one, show, against=against, kind=kind) for one in set(pieces)
    }

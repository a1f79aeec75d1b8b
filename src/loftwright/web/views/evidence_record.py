"""What the shop record had said of a fitting's clubs before their first ball."""

from dataclasses import dataclass

from loftwright.report.screen_numbers import Show
from loftwright.services.bay_now import BayNow
from loftwright.services.shop_newest import Learned
from loftwright.shop.contradictions import Contradiction
from loftwright.web.views.shop_shaft import shaft_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubInRecord:
    """A club and what the record said of its shaft, for golfers like this one."""

    club: str
    lines: tuple[str, ...]


def clubs_in_record(
    bay: BayNow, show: Show, against: tuple[Contradiction, ...] = ()
) -> tuple[ClubInRecord, ...]:
    """Return what the record had said of the clubs, by the version that the visit began with.

    Parameters
    ----------
    bay : BayNow
    show : Show
    against : tuple of Contradiction
        Of the whole rack.

    Returns
    -------
    tuple of ClubInRecord
        Empty where physics alone was believed, or the version can no longer be read.
    """
    pinned = bay.evidence.pinned
    rack = pinned.rack
    if pinned.learned is None or rack is None:
        return ()
    found = Learned(learned=pinned.learned)
    return tuple(
        ClubInRecord(
            club=club.name,
            lines=shaft_lines(
                found, rack, club.card.shaft_piece, show, against=against, kind=pinned.kind
            ),
        )
        for club in bay.now.clubs
        if not club.out and club.card.shaft_piece in rack.pieces
    )

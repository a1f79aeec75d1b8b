"""Which measured shafts play like one, or like it with some of its sections otherwise."""

from datetime import datetime
from math import inf

from loftwright.domain.likeness import likeness
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece
from loftwright.domain.sections import Section, seen_share
from loftwright.domain.sought import TWIST, Liked, Near, Sought, far_from
from loftwright.errors import EvidenceError
from loftwright.services.holding import barred
from loftwright.services.shaft_named import name_of
from loftwright.services.shafts_at_hand import FoundShaft, ShaftRack


def like(shaft: FoundShaft, at_hand: ShaftRack, sought: Sought, now: datetime) -> Liked:
    """Return the measured shafts of a rack, nearest first to what is sought.

    Parameters
    ----------
    shaft : FoundShaft
    at_hand : ShaftRack
        Golfers' own shafts are left out.
    sought : Sought
    now : datetime
        For what may be hit.

    Raises
    ------
    EvidenceError
        If a section that is asked about was not seen on the named shaft.
    """
    measured = shaft.measured
    unread = tuple(one for one in Section if not seen_share(measured, one) >= 0.5)
    for section in sought.shares:
        if section in unread or (sought.by == TWIST and measured.twisting is None):
            raise EvidenceError(
                f"{shaft.name} was not read at its {section.value}",
                place=f"--{section.value.replace(' ', '-')}",
                mend="Read that section on the bench first, or leave it out.",
            )
    rack = at_hand.rack
    owned = {club.shaft for club in rack.assemblies.values() if club.owner is not None}
    mine = shaft.piece.id if shaft.piece is not None else None
    near = [
        _near(rack.pieces[piece], name_of(rack, rack.pieces[piece]), profile, shaft, sought, now)
        for piece, profile in at_hand.profiles.items()
        if piece not in {mine, *owned} and rack.pieces[piece].model in rack.shafts
    ]
    told = [one for one in near if one.far < inf]
    return Liked(
        name=shaft.name,
        sought=sought,
        near=tuple(sorted(told, key=lambda one: one.far)),
        untold=tuple(one.name for one in near if one.far == inf),
        unread=unread,
    )


def _near(
    piece: Piece,
    name: str,
    profile: MeasuredProfile,
    shaft: FoundShaft,
    sought: Sought,
    now: datetime,
) -> Near:
    found = likeness(profile, shaft.measured)
    return Near(
        name=name,
        piece=piece,
        measured=profile,
        likeness=found,
        far=far_from(found, sought),
        why_not=barred(piece, now),
    )

"""Parts that may not be hit: never handed over, never planned, told while they are in hand."""

from collections.abc import Sequence
from datetime import datetime

from loftwright.bay.now import FittingNow
from loftwright.domain.acts import Act, ClubJoined, HandedOver, Planned, RunMoved
from loftwright.domain.fitting import ClubCard
from loftwright.domain.names import OWN
from loftwright.domain.rack import Piece, Rack, State
from loftwright.errors import ConflictError
from loftwright.services.studio import Studio


def barred(piece: Piece, now: datetime) -> str:
    """Return why a piece may not be hit at an instant, in its zone; empty if it may."""
    name = piece.label or "a part"
    if piece.state is not State.READY:
        return f"{name} is {piece.state}: {piece.reason}"
    if piece.locked_until is not None and piece.locked_until > now:
        until = f"{piece.locked_until.astimezone(now.tzinfo):%H:%M on %d %B}"
        return f"{name} is not to be hit before {until}: the bond is curing"
    return ""


def local_now(studio: Studio) -> datetime:
    """Return the instant it is in the shop's zone, so that a hold tells the time on its tag."""
    return studio.now().astimezone(studio.zone)


def held(rack: Rack, card: ClubCard, now: datetime) -> str:
    """Return why a club of a fitting may not be hit; empty if it may.

    Parameters
    ----------
    rack : Rack
    card : ClubCard
        A part that the rack does not have, as of a club that was only written down, bars nothing.
    now : datetime
    """
    for piece in (card.head_piece, card.shaft_piece):
        found = rack.pieces.get(piece)
        reason = barred(found, now) if found is not None else ""
        if reason:
            return reason
    return ""


def held_in_hand(studio: Studio, now: FittingNow) -> str:
    """Return why the club in hand may not be hit; empty if it may, or none is in hand."""
    club = now.club(now.in_hand or "")
    return "" if club is None else held(studio.store.rack(), club.card, local_now(studio))


def refuse_held(studio: Studio, now: FittingNow, acts: Sequence[Act]) -> None:
    """Refuse acts that would put a barred club into a golfer's hand, now or by a plan.

    A correction that says which club was hit stays possible: it tells what happened.

    Parameters
    ----------
    studio : Studio
    now : FittingNow
        As it stands before the acts.
    acts : sequence of Act

    Raises
    ------
    ConflictError
        If a part of such a club is locked or retired, or its bond is curing.
    """
    told = {one.club: one.card for one in acts if isinstance(one, ClubJoined)}
    cards = {club.name: club.card for club in now.clubs} | told
    corrects = any(isinstance(one, RunMoved) for one in acts)
    wanted: dict[str, str] = {}
    for one in acts:
        if isinstance(one, HandedOver) and not corrects:
            wanted[one.club] = "handed over"
        elif isinstance(one, Planned):
            wanted |= dict.fromkeys((club for club, _ in one.plan.sets), "planned")
    if not wanted:
        return
    rack = studio.store.rack()
    for club, what in wanted.items():
        reason = held(rack, cards[club], local_now(studio)) if club in cards else ""
        if reason:
            raise ConflictError(
                f"{_named(club)} cannot be {what}: {reason}",
                place=club,
                mend="Go on without it. It may be hit again once it was looked at and put back "
                "on the rack’s page.",
            )


def _named(club: str) -> str:
    return "the golfer’s own club" if club == OWN else club

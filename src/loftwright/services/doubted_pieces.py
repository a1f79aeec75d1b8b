"""Pieces whose balls nobody should learn from, as long as that is so, and since when."""

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.fitting import ClubCard
from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.rack import Piece, State
from loftwright.services.studio import Studio

NAME: Final = "recalls"
"""Of the setting that holds what was recalled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recalled:
    """What was recalled together.

    Attributes
    ----------
    pieces : tuple of str
        Every piece of it, those among them that could not be handed over anyway.
    """

    at: datetime
    reason: str
    pieces: tuple[str, ...]


def recalls(studio: Studio) -> tuple[Recalled, ...]:
    """Return what was recalled and not taken back, the oldest first."""
    told = studio.store.setting(NAME).value
    return tuple(
        Recalled(
            at=datetime.fromisoformat(one["at"]),
            reason=one["reason"],
            pieces=tuple(one["pieces"]),
        )
        for one in json.loads(told or "[]")
    )


def note_recall(studio: Studio, reason: str, pieces: Collection[str]) -> None:
    """Write down that pieces were recalled."""
    fresh = Recalled(at=studio.now(), reason=reason, pieces=tuple(sorted(pieces)))
    _keep(studio, (*recalls(studio), fresh))


def undo_recall(studio: Studio, reason: str, pieces: Collection[str]) -> tuple[str, ...]:
    """Take back the newest recall of these pieces for this reason; return its pieces."""
    known = recalls(studio)
    for place in reversed(range(len(known))):
        if known[place].reason == reason and set(pieces) <= set(known[place].pieces):
            _keep(studio, (*known[:place], *known[place + 1 :]))
            return known[place].pieces
    return ()


def doubted(studio: Studio) -> dict[str, datetime | None]:
    """Return when each piece that is in doubt was last found sound; None if never.

    Notes
    -----
    In doubt is a piece that was last found cracked, one that is locked, and one that was retired
    and was recalled without having been found sound since. A worn one is still handed over.
    """
    looks, called = studio.store.inspections(), recalls(studio)
    found: dict[str, datetime | None] = {}
    for piece in studio.store.rack().pieces.values():
        seen = looks.get(piece.id, ())
        sound = [one.at for one in seen if one.finding is Finding.SOUND]
        if _is_doubted(piece, seen, sound, called):
            found[piece.id] = max(sound, default=None)
    return found


def without_doubted(now: FittingNow, pieces: Mapping[str, datetime | None]) -> FittingNow:
    """Return a fitting without the balls that pieces in doubt hit since they were found sound.

    Every other ball keeps its place among the golfer's swings.
    """
    cards = {club.name: club.card for club in now.clubs}
    swings = tuple(
        replace(one, not_ours=True) if _hit_in_doubt(one, cards, pieces) else one
        for one in now.swings
    )
    return now if swings == now.swings else replace(now, swings=swings)


def _hit_in_doubt(
    swing: Swing, cards: Mapping[str, ClubCard], pieces: Mapping[str, datetime | None]
) -> bool:
    card = cards.get(swing.club or "")
    if card is None:
        return False
    return any(
        piece in pieces and ((sound := pieces[piece]) is None or swing.at > sound)
        for piece in (card.head_piece, card.shaft_piece)
    )


def _is_doubted(
    piece: Piece,
    seen: tuple[Inspection, ...],
    sound: list[datetime],
    called: tuple[Recalled, ...],
) -> bool:
    if piece.state is State.LOCKED or (seen and seen[-1].finding is Finding.CRACKED):
        return True
    return piece.state is State.RETIRED and any(
        piece.id in one.pieces and all(at < one.at for at in sound) for one in called
    )


def _keep(studio: Studio, known: tuple[Recalled, ...]) -> None:
    told = [
        {"at": one.at.isoformat(), "reason": one.reason, "pieces": list(one.pieces)}
        for one in known
    ]
    version = studio.store.setting(NAME).version
    studio.store.set_setting(NAME, json.dumps(told, ensure_ascii=False), version=version)

"""How much each piece has been hit, counted from the fittings' records, and looked at since."""

from collections.abc import Collection
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.domain.fitting import ClubCard
from loftwright.domain.inspection import Finding, Inspection, Wear, wear_of
from loftwright.domain.rack import Piece, State
from loftwright.errors import InputError
from loftwright.services.piece_balls import balls_in, balls_of_nobody
from loftwright.services.rack_changing import set_state
from loftwright.services.shop_leaving import fittings_of_pieces, keep_again, leave_pieces
from loftwright.services.studio import Studio
from loftwright.services.summaries import Added


def balls_by_piece(studio: Studio) -> dict[str, int]:
    """Return how many balls each piece has hit, over all fittings.

    Warm-up balls and balls that were hit and not read count; readings that were not the golfer's
    do not, nor does a fitting of a virtual golfer. Those of golfers who were erased do.
    """
    counted = [one for one in studio.store.outlines() if not one.invented]
    found, _ = _BALLS.over(studio, counted)
    total = balls_of_nobody(studio)
    total.update({piece: balls for piece, (balls,) in found.items()})
    return dict(total)


def count_balls(studio: Studio, most: int) -> int:
    """Count the balls of some fittings that are not counted yet; return how many are left."""
    counted = [one for one in studio.store.outlines() if not one.invented]
    return _BALLS.over(studio, counted, most)[1]


def _balls_in(studio: Studio, fitting: str) -> dict[str, tuple[int]]:
    return {piece: (balls,) for piece, balls in balls_in(studio.standing(fitting)).items()}


_BALLS: Final = Added("balls by piece", _balls_in)


def balls_of(studio: Studio, piece: str) -> int:
    """Return how many balls a piece has hit, replaying only the fittings that it was in."""
    found = studio.store.fittings_with((piece,))
    return balls_of_nobody(studio)[piece] + sum(
        balls_with(studio.standing(one.fitting), (piece,))
        for one in studio.store.outlines()
        if one.fitting in found and not one.invented
    )


def balls_with(now: FittingNow, pieces: Collection[str]) -> int:
    """Return how many balls any of these pieces hit in one fitting, each ball once."""
    mine = {club.name for club in now.clubs if _has(club.card, pieces)}
    return sum(swing.club in mine and not swing.not_ours for swing in now.swings)


def _has(card: ClubCard, pieces: Collection[str]) -> bool:
    return card.head_piece in pieces or card.shaft_piece in pieces


def wear(studio: Studio) -> dict[str, Wear]:
    """Return the wear of every piece of the rack."""
    balls, looks = balls_by_piece(studio), studio.store.inspections()
    return {
        piece.id: wear_of(balls.get(piece.id, 0), looks.get(piece.id, ()), piece.check_after)
        for piece in studio.store.rack().pieces.values()
    }


def inspect(
    studio: Studio, piece: str, finding: Finding, *, words: str = "", by: str = ""
) -> Inspection:
    """Write down a look at a piece; a cracked one is locked before anything else.

    Raises
    ------
    InputError
        If it is no piece, or a fault is not described.
    """
    found = studio.store.item(piece).value
    if not isinstance(found, Piece):
        raise InputError(
            "only a head or a shaft can be looked at",
            place="item",
            mend="Open the head or the shaft of the club.",
        )
    look = Inspection(
        piece=piece,
        at=studio.now(),
        balls=balls_of(studio, piece),
        finding=finding,
        words=words.strip(),
        by=by,
    )
    if finding is Finding.CRACKED and found.state is not State.RETIRED:
        set_state(studio, piece, State.LOCKED, reason=f"cracked: {look.words}")
    studio.store.inspect(look)
    if finding is Finding.CRACKED:
        leave_pieces(studio, [piece])
    elif finding is Finding.SOUND:
        keep_again(studio, fittings_of_pieces(studio, [piece]))
    return look

"""Recall: every club that a piece or a model is part of, and every golfer it went to."""

from dataclasses import dataclass, replace
from datetime import date

from loftwright.bay.now import FittingNow
from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.rack import Assembly, HeadModel, Piece, Rack, ShaftModel, State
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.services.doubted_pieces import note_recall, undo_recall
from loftwright.services.shop_leaving import fittings_of_pieces, keep_again, leave_pieces
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_with


@dataclass(frozen=True, slots=True, kw_only=True)
class Touched:
    """A fitting in which a recalled piece was hit, or was to be.

    Attributes
    ----------
    clubs : tuple of str
        The clubs' names in that fitting.
    balls : int
        Hit with recalled pieces.
    since : bool
        Whether any of it was after the piece's last sound look; all of it without one.
    closed : bool
    """

    fitting: str
    golfer: str
    name: str
    opened: date
    clubs: tuple[str, ...]
    balls: int
    since: bool
    closed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """A golfer whose own club holds a recalled piece."""

    golfer: str
    name: str
    assembly: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Recall:
    """What a recall finds.

    Attributes
    ----------
    model : HeadModel or ShaftModel
        What is recalled, or the model of the sample that is.
    whole : bool
        Whether the whole model is recalled, and not one sample.
    pieces : tuple of Piece
    assemblies : tuple of Assembly
        The shop's clubs with one of the pieces.
    owned : tuple of Owned
    fittings : tuple of Touched
        The newest first.
    """

    model: HeadModel | ShaftModel
    whole: bool
    pieces: tuple[Piece, ...]
    assemblies: tuple[Assembly, ...]
    owned: tuple[Owned, ...]
    fittings: tuple[Touched, ...]

    @property
    def at_large(self) -> tuple[Piece, ...]:
        """The pieces that may still be handed over."""
        return tuple(one for one in self.pieces if one.state is State.READY)


def recall(studio: Studio, item: str) -> Recall:
    """Return where a piece, or every piece of a model, has been.

    Raises
    ------
    NotFoundError
        If the rack has no such piece or model.
    """
    rack = studio.store.rack()
    model, pieces = _recalled(rack, item)
    ids = {one.id for one in pieces}
    clubs = [one for one in rack.assemblies.values() if ids & {one.head, one.shaft}]
    looks = studio.store.inspections()
    joined = studio.store.fittings_with(ids)
    found = []
    for kept in studio.store.fittings():
        fitting = kept.value
        if fitting.invented or fitting.id not in joined:
            continue
        now = studio.standing(fitting.id)
        names = tuple(
            club.name for club in now.clubs if ids & {club.card.head_piece, club.card.shaft_piece}
        )
        if names:
            found.append(
                Touched(
                    fitting=fitting.id,
                    golfer=fitting.golfer,
                    name=studio.store.identity(fitting.golfer).name,
                    opened=fitting.opened,
                    clubs=names,
                    balls=balls_with(now, ids),
                    since=any(_hit_since(now, one, looks.get(one.id, ())) for one in pieces),
                    closed=now.closed,
                )
            )
    return Recall(
        model=model,
        whole=item not in rack.pieces,
        pieces=pieces,
        assemblies=tuple(one for one in clubs if one.owner is None),
        owned=tuple(
            Owned(
                golfer=one.owner,
                name=studio.store.identity(one.owner).name,
                assembly=one.id,
            )
            for one in clubs
            if one.owner is not None
        ),
        fittings=tuple(found),
    )


def lock_all(studio: Studio, item: str, reason: str) -> tuple[str, ...]:
    """Lock every recalled piece that may still be handed over, and return their ids.

    Raises
    ------
    InputError
        If the reason is missing.
    """
    if not reason.strip():
        raise InputError(
            "a recall needs a reason", place="reason", mend="Write what is wrong with it."
        )
    recalled = recall(studio, item)
    found = recalled.at_large
    studio.store.put_together(
        [
            (
                replace(one, state=State.LOCKED, reason=reason.strip()),
                studio.store.item(one.id).version,
            )
            for one in found
        ]
    )
    note_recall(studio, reason.strip(), [one.id for one in recalled.pieces])
    leave_pieces(studio, [one.id for one in recalled.pieces])
    return tuple(one.id for one in found)


def put_all_back(studio: Studio, pieces: tuple[str, ...], reason: str) -> int:
    """Undo a recall's locking: put back the pieces that still stand locked for its reason.

    Returns
    -------
    int
        How many were put back.

    Raises
    ------
    ConflictError
        If one of them was found cracked meanwhile; nothing is changed then.
    """
    looks = studio.store.inspections()
    back = []
    for piece in pieces:
        kept = studio.store.item(piece)
        one = kept.value
        if not isinstance(one, Piece) or one.state is not State.LOCKED or one.reason != reason:
            continue
        if looks.get(piece, ()) and looks[piece][-1].finding is Finding.CRACKED:
            raise ConflictError(
                f"{one.label} was found cracked meanwhile",
                place=piece,
                mend="Put the others back one by one.",
            )
        back.append((replace(one, state=State.READY, reason=""), kept.version))
    studio.store.put_together(back)
    back_again = {*pieces, *undo_recall(studio, reason, pieces)}
    keep_again(studio, fittings_of_pieces(studio, back_again))
    return len(back)


def _recalled(rack: Rack, item: str) -> tuple[HeadModel | ShaftModel, tuple[Piece, ...]]:
    models: dict[str, HeadModel | ShaftModel] = {**rack.heads, **rack.shafts}
    if item in rack.pieces:
        piece = rack.pieces[item]
        return models[piece.model], (piece,)
    if item in models:
        return models[item], tuple(one for one in rack.pieces.values() if one.model == item)
    raise NotFoundError(
        f"the rack has no piece or model {item!r}", place="item", mend="Open it from the rack."
    )


def _hit_since(now: FittingNow, piece: Piece, looks: tuple[Inspection, ...]) -> bool:
    """Return whether a piece was hit in a fitting after it was last found sound."""
    sound = [one.at for one in looks if one.finding is Finding.SOUND]
    cards = {club.name: club.card for club in now.clubs}
    for swing in now.swings:
        card = cards.get(swing.club or "")
        mine = card is not None and piece.id in {card.head_piece, card.shaft_piece}
        if mine and not swing.not_ours and (not sound or swing.at > sound[-1]):
            return True
    return False

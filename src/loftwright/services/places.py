"""The one rack's live places: who has a part since when, and how it goes to another bay."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.piece_code import piece_of
from loftwright.domain.place import AWAY, PlaceMove
from loftwright.domain.rack import Piece, Rack
from loftwright.errors import ConflictError
from loftwright.services.holding import local_now
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.store.topics import RACK

_TRIES: Final = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedOut:
    """Parts that were checked out.

    Attributes
    ----------
    names : tuple of str
    place : str
        Where they are now.
    note : str
        Who had them before; empty where nobody did.
    """

    names: tuple[str, ...]
    place: str
    note: str


def check_out(
    studio: Studio,
    code: str,
    place: str,
    *,
    by: str = "",
    had: str = "",
    golfer: str | None = None,
) -> CheckedOut:
    """Say by its label that a part is at a place now; its club goes with it where it has one.

    Parameters
    ----------
    studio : Studio
    code : str
        As it was scanned or typed.
    place : str
    by : str
        Who says so.
    had : str
        The place that is said to have it until now: without it nothing is taken from another bay
        or from a golfer.
    golfer : str, optional
        Id of the golfer who takes it away.

    Raises
    ------
    InputError
        If it is no label of this shop.
    ConflictError
        With the place "had" if another bay or a golfer has it; it says who, and since when.
    """
    with studio.lock:
        rack = studio.store.rack()
        pieces = goes_together(rack, piece_of(code, rack.pieces))
        return _move(studio, rack, pieces, place, by=by, had=had, golfer=golfer)


def take_here(studio: Studio, pieces: Collection[str], bay: str, *, by: str = "") -> str:
    """Say that parts are in a bay, whoever had them, and return who did; empty if nobody.

    For a label that was scanned there: what is scanned is there. Of two bays that scan at once
    the later one is told what the earlier one wrote.
    """
    for _ in range(_TRIES):
        rack = studio.store.rack()
        known = studio.store.places()
        there = [rack.pieces[one] for one in pieces if one in rack.pieces]
        moved = [one for one in there if one.place != bay or one.id not in known]
        if not moved:
            return ""
        had = "; ".join(
            dict.fromkeys(
                f"{name_of(rack, one)} was {where}"
                for one in moved
                if (where := elsewhere(studio, one, bay))
            )
        )
        try:
            _write(studio, moved, bay, by, None)
        except ConflictError:
            continue
        return had
    raise ConflictError(
        "others move this part faster than it can be read",
        place="label",
        mend="Scan it again.",
    )


def elsewhere(studio: Studio, piece: Piece, bay: str) -> str:
    """Return where a part is that another bay or a golfer has; empty where it can be taken.

    Such as "with Bay 2 since 10:12, Ann Reed".
    """
    if piece.place == bay or not (_is_bay(studio, piece.place) or piece.place == AWAY):
        return ""
    return whereabouts(studio, piece, studio.store.places().get(piece.id))


def whereabouts(studio: Studio, piece: Piece, move: PlaceMove | None) -> str:
    """Return in words where a part is, since when, and who said so.

    Parameters
    ----------
    studio : Studio
    piece : Piece
    move : PlaceMove, optional
        Its newest one.
    """
    if not piece.place:
        return ""
    known = move if move is not None and move.place == piece.place else None
    if piece.place == AWAY:
        told = "away with a golfer"
        if known is not None and known.golfer is not None:
            told = f"away with {studio.store.identity(known.golfer).name}"
    else:
        told = f"{'with' if _is_bay(studio, piece.place) else 'at'} {piece.place}"
    if known is None:
        return told if piece.place == AWAY else f"in {piece.place}"
    now = local_now(studio)
    at = known.at.astimezone(now.tzinfo)
    since = f"{at:%H:%M}" if at.date() == now.date() else f"{at:%-d %B, %H:%M}"
    return f"{told} since {since}" + (f", {known.by}" if known.by else "")


def goes_together(rack: Rack, piece: str) -> tuple[str, ...]:
    """Return a part with the other part of its club, where each is in that club alone."""
    clubs = [one for one in rack.assemblies.values() if piece in (one.head, one.shaft)]
    if len(clubs) != 1:
        return (piece,)
    other = clubs[0].shaft if clubs[0].head == piece else clubs[0].head
    shared = sum(other in (one.head, one.shaft) for one in rack.assemblies.values())
    return (piece, other) if shared == 1 else (piece,)


def name_of(rack: Rack, piece: Piece) -> str:
    """Return what a part is called: its mark, or its model where it has none."""
    model = rack.heads.get(piece.model) or rack.shafts[piece.model]
    if piece.label and model.name not in piece.label:
        return f"{model.name} {piece.label}"
    return piece.label or model.name


def _move(
    studio: Studio,
    rack: Rack,
    pieces: tuple[str, ...],
    place: str,
    *,
    by: str,
    had: str,
    golfer: str | None,
) -> CheckedOut:
    moved = [rack.pieces[one] for one in pieces if rack.pieces[one].place != place]
    names = tuple(name_of(rack, rack.pieces[one]) for one in pieces)
    taken = [one for one in moved if elsewhere(studio, one, place)]
    for one in taken:
        if one.place != had:
            raise _with_another(studio, rack, one, place)
    note = "; ".join(f"it was {elsewhere(studio, one, place)}" for one in taken[:1])
    try:
        if moved:
            _write(studio, moved, place, by, golfer)
    except ConflictError as error:
        now = studio.store.rack()
        raise _with_another(studio, now, now.pieces[pieces[0]], place) from error
    return CheckedOut(names=names, place=place, note=note)


def _write(studio: Studio, moved: list[Piece], place: str, by: str, golfer: str | None) -> None:
    move = PlaceMove(piece="", was="", place=place, at=studio.now(), by=by, golfer=golfer)
    number = studio.store.check_out([replace(move, piece=one.id, was=one.place) for one in moved])
    studio.hub.publish(RACK, number)


def _with_another(studio: Studio, rack: Rack, piece: Piece, place: str) -> ConflictError:
    where = elsewhere(studio, piece, place) or f"at {piece.place or 'no place'} by now"
    return ConflictError(
        f"{name_of(rack, piece)} is {where}",
        place="had",
        mend=f"If it is here, say so: {piece.place or 'the other place'} then has it no more.",
    )


def _is_bay(studio: Studio, place: str) -> bool:
    bays = read_settings(studio).settings.bays
    return place in bays or place.lower().startswith("bay")

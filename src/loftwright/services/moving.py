"""Where a part is: moved in one go from a list, and back again."""

from loftwright.domain.place import PlaceMove
from loftwright.domain.rack import Piece, Rack
from loftwright.errors import ConflictError, InputError
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.store.topics import RACK

LONGEST = 80
"""Letters of a place."""


def move(studio: Studio, piece: str, place: str, *, was: str, by: str = "") -> str:
    """Say where a part is now, and return the place as it is written elsewhere.

    Parameters
    ----------
    studio : Studio
    piece : str
    place : str
        A bay, a drawer, who has it; empty if nobody knows. One that differs from a known place by
        capitals alone is that place.
    was : str
        Where the page that moves it showed it.
    by : str
        Who moves it.

    Raises
    ------
    InputError
        If it is no head or shaft, or the place is too long.
    ConflictError
        If somebody else moved it since.
    """
    told = " ".join(place.split())
    if len(told) > LONGEST:
        raise InputError(
            f"{len(told)} letters are too many for a place",
            place="place",
            mend=f"Write {LONGEST} at most.",
        )
    with studio.lock:
        kept = studio.store.item(piece)
        if not isinstance(kept.value, Piece):
            raise InputError(
                "only a head or a shaft has a place",
                place="place",
                mend="Move the head or the shaft of the club.",
            )
        if kept.value.place != was:
            raise _moved(kept.value)
        spelt = {known.casefold(): known for known in known_places(studio, studio.store.rack())}
        told = spelt.get(told.casefold(), told)
        if told != was:
            _write(studio, kept.value, told, by)
    return told


def _write(studio: Studio, piece: Piece, place: str, by: str) -> None:
    move = PlaceMove(piece=piece.id, was=piece.place, place=place, at=studio.now(), by=by)
    try:
        number = studio.store.check_out([move])
    except ConflictError as error:
        now = studio.store.rack().pieces[piece.id]
        raise _moved(now) from error
    studio.hub.publish(RACK, number)


def _moved(piece: Piece) -> ConflictError:
    where = f"at {piece.place}" if piece.place else "without a place"
    return ConflictError(
        f"{piece.label or 'it'} is {where} by now: somebody moved it",
        place="place",
        mend="Move it again if it is elsewhere.",
    )


def known_places(studio: Studio, rack: Rack) -> tuple[str, ...]:
    """Return the shop's bays, then every other place that a part is at."""
    bays = read_settings(studio).settings.bays
    others = sorted({piece.place for piece in rack.pieces.values() if piece.place} - set(bays))
    return (*bays, *others)

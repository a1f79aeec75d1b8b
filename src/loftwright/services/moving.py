"""Where a part is: moved in one go from a list, and back again."""

from dataclasses import replace

from loftwright.domain.rack import Piece, Rack
from loftwright.errors import ConflictError, InputError
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio

LONGEST = 80
"""Letters of a place."""


def move(studio: Studio, piece: str, place: str, *, was: str) -> str:
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
            where = f"at {kept.value.place}" if kept.value.place else "without a place"
            raise ConflictError(
                f"{kept.value.label or 'it'} is {where} by now: somebody moved it",
                place="place",
                mend="Move it again if it is elsewhere.",
            )
        spelt = {known.casefold(): known for known in known_places(studio, studio.store.rack())}
        told = spelt.get(told.casefold(), told)
        if told != was:
            studio.store.put(replace(kept.value, place=told), version=kept.version)
    return told


def known_places(studio: Studio, rack: Rack) -> tuple[str, ...]:
    """Return the shop's bays, then every other place that a part is at."""
    bays = read_settings(studio).settings.bays
    others = sorted({piece.place for piece in rack.pieces.values() if piece.place} - set(bays))
    return (*bays, *others)

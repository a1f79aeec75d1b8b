"""Which versions of what was learned a shop has kept."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio

LEARNED: Final = "learned"
_UNREADABLE: Final = (
    *(OSError, ValueError, KeyError, TypeError, AttributeError),
    *(ArithmeticError, RecursionError),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptVersion:
    """What a file of what was learned says of itself.

    Attributes
    ----------
    version : int
    program : str
    made : str
        The day, empty in a file that does not say.
    fittings, balls : int
    """

    version: int
    program: str
    made: str
    fittings: int
    balls: int


def kept_versions(studio: Studio) -> tuple[KeptVersion, ...]:
    """Return what was learned in a studio, the newest first.

    Raises
    ------
    StoreError
        If a file cannot be read.
    """
    places = (record_folder(studio) / LEARNED).glob("[0-9]*.json")
    return tuple(_read(place) for place in sorted(places, reverse=True))


def _read(place: Path) -> KeptVersion:
    try:
        told = json.loads(place.read_text(encoding="utf-8"))
        return KeptVersion(
            version=int(told["version"]),
            program=str(told["program"]),
            made=str(told.get("made", "")),
            fittings=int(told["fittings"]),
            balls=int(told["balls"]),
        )
    except _UNREADABLE as error:
        raise StoreError(
            "what was learned cannot be read",
            place=str(place),
            mend="Put the file back from a copy, or move it away and learn again.",
        ) from error

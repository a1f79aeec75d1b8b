"""Places of this machine that a paired device may have watched: those its own screen named.

A device on the network would else have any file of the machine read.
"""

import json
from pathlib import Path
from typing import Final

from loftwright.errors import InputError
from loftwright.services.studio import Studio

NAME: Final = "watched places"
MOST: Final = 12
"""How many are remembered; the one that was named longest ago is forgotten first."""


def watched_places(studio: Studio) -> tuple[str, ...]:
    """Return the places that were named on the studio's own screen, the last one first."""
    return tuple(json.loads(studio.store.setting(NAME).value or "[]"))


def remember_place(studio: Studio, path: str) -> None:
    """Remember a place that was named on the studio's own screen."""
    where = str(Path(path).expanduser())
    kept = studio.store.setting(NAME)
    known = [one for one in json.loads(kept.value or "[]") if one != where]
    told = json.dumps([where, *known][:MOST], ensure_ascii=False)
    if told != kept.value:
        studio.store.set_setting(NAME, told, version=kept.version)


def refuse_new_place(studio: Studio, path: str) -> None:
    """Refuse a place that the studio's own screen never named.

    Raises
    ------
    InputError
        If it did not.
    """
    if str(Path(path).expanduser()) not in watched_places(studio):
        raise InputError(
            "this device may choose only what was watched before from the studio’s own screen",
            place="path",
            mend="Name it once on the main screen; from then on it can be chosen here.",
        )

"""Find a golfer by what a person types: a name, or an id."""

from loftwright.errors import InputError, NotFoundError
from loftwright.services.golfers import KnownGolfer, known_golfer
from loftwright.services.studio import Studio


def golfer_named(studio: Studio, text: str) -> KnownGolfer:
    """Return the golfer who is called so, or whose id it is.

    Raises
    ------
    NotFoundError
        If nobody is.
    InputError
        If several are: their ids are told.
    """
    wanted = _plain(text)
    if text in studio.store.golfer_ids():
        return known_golfer(studio, text)
    found = [one for one, name in studio.store.names().items() if _plain(name) == wanted]
    if not found:
        raise NotFoundError(
            f"no golfer here is called {text!r}",
            place="GOLFER",
            mend="Write the name as the golfer’s page has it, or the golfer’s id.",
        )
    if len(found) > 1:
        ids = ", ".join(found)
        raise InputError(
            f"{len(found)} golfers are called {text!r}",
            place="GOLFER",
            mend=f"Give the id of the one who is meant: {ids}.",
        )
    return known_golfer(studio, found[0])


def _plain(name: str) -> str:
    return " ".join(name.split()).casefold()

"""A club that joins in the middle of a fitting: which ones can, and the joining."""

from loftwright.bay.now import FittingNow
from loftwright.errors import ConflictError, InputError
from loftwright.services.fittings import join_club
from loftwright.services.golfers import known_golfer
from loftwright.services.rack import Candidate, candidates
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio


def clubs_to_add(studio: Studio, fitting: str) -> tuple[Candidate, ...]:
    """Return the shop's clubs that can be hit here now and are not in the fitting, closed or not.

    Parameters
    ----------
    studio : Studio
    fitting : str
    """
    opened = studio.store.fitting(fitting).value
    golfer = known_golfer(studio, opened.golfer).golfer
    convention = read_settings(studio).settings.convention
    here = {club.card.assembly for club in studio.standing(fitting).clubs}
    return tuple(
        one
        for one in candidates(studio, golfer, opened.bay, convention)
        if not one.why_not and one.assembly.id not in here
    )


def add_club(
    studio: Studio, fitting: str, assembly: str, *, by: str = "", key: str = ""
) -> FittingNow:
    """Let a club join that can be put together here; its balls come as the evidence asks.

    Raises
    ------
    ConflictError
        If the fitting is closed.
    InputError
        If the club is in the fitting already or cannot be hit here now.
    """
    if studio.standing(fitting).closed:
        raise ConflictError(
            "this fitting is closed", place="assembly", mend="Undo the closing in the bay first."
        )
    if assembly not in {one.assembly.id for one in clubs_to_add(studio, fitting)}:
        raise InputError(
            "that club cannot be added: it is in this fitting, or cannot be hit here now",
            place="assembly",
            mend="Choose one of the clubs that the page of mends offers.",
        )
    return join_club(studio, fitting, assembly, by=by, key=key)

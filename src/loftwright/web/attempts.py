"""Do what a form asks, and tell at its fields what would not do."""

from collections.abc import Callable, Mapping
from typing import Final

from loftwright.errors import ConflictError, ConvergenceError, InputError
from loftwright.web.forms import Typed

DONE: Final = 303
REFUSED: Final = 422
STALE: Final = 409


def attempt(
    typed: Typed, act: Callable[[], object], places: Mapping[str, str] | None = None
) -> int:
    """Do what a well-filled form asks and return the status of the answer.

    Parameters
    ----------
    typed : Typed
        What is refused is kept in it, at the field that its place stands for.
    act : callable
    places : mapping of str to str, optional
        Fields by the places that errors name; the empty name is the form's own.

    Returns
    -------
    int
        303 where it was done, 409 where something changed since the page was drawn, else 422.
    """
    if not typed.good:
        return REFUSED
    try:
        act()
    except ConflictError as error:
        typed.refused(error, places)
        return STALE
    except (InputError, ConvergenceError) as error:
        typed.refused(error, places)
        return REFUSED
    return DONE

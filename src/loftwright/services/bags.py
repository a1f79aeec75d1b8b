"""A golfer's bag: kept as text under the golfer's key, with the clubs before the last change."""

from dataclasses import dataclass, replace
from functools import cache

from pydantic import TypeAdapter

from loftwright.domain.bag import Bag, BagClub
from loftwright.errors import NotFoundError
from loftwright.services.one_golfer import first_record
from loftwright.services.studio import Studio


@dataclass(frozen=True, slots=True, kw_only=True)
class BagRead:
    """A bag and the version under which it was read."""

    bag: Bag
    version: int


def read_bag(studio: Studio, golfer: str) -> BagRead:
    """Return a golfer's bag, by the record that stands for all; an empty one if none was kept.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    """
    kept = studio.store.bag(first_record(studio, golfer))
    bag = _adapter().validate_json(kept.value) if kept.value else Bag()
    return BagRead(bag=bag, version=kept.version)


def keep_bag(studio: Studio, golfer: str, bag: Bag, *, version: int) -> int:
    """Keep a golfer's bag and return its new version.

    Raises
    ------
    ConflictError
        If somebody else changed it since it was read.
    """
    text = _adapter().dump_json(bag).decode("utf-8")
    return studio.store.set_bag(first_record(studio, golfer), text, version=version)


def with_clubs(bag: Bag, clubs: tuple[BagClub, ...], change: str) -> Bag:
    """Return a bag with other clubs in it, those before kept to be put back.

    Raises
    ------
    InputError
        If two clubs share a name, or more are in play than a round allows.
    """
    return replace(bag, clubs=clubs, before=bag.clubs, change=change)


def with_club(bag: Bag, club: BagClub, before: str = "") -> Bag:
    """Return a bag with a club, in the place of the one that was called so before.

    Parameters
    ----------
    bag : Bag
    club : BagClub
    before : str
        Empty for a new club.

    Raises
    ------
    NotFoundError
        If no club is called so.
    InputError
        If another club is.
    """
    if not before:
        return with_clubs(bag, (*bag.clubs, club), f"adding {club.name}")
    _known(bag, before)
    clubs = tuple(club if one.name == before else one for one in bag.clubs)
    return with_clubs(bag, clubs, f"changing {before}")


def without_club(bag: Bag, name: str) -> Bag:
    """Return a bag without one of its clubs.

    Raises
    ------
    NotFoundError
        If no club is called so.
    """
    _known(bag, name)
    clubs = tuple(one for one in bag.clubs if one.name != name)
    return with_clubs(bag, clubs, f"taking {name} out")


def put_back(bag: Bag) -> Bag:
    """Return a bag as it was before the last change; once more brings the change again.

    Raises
    ------
    NotFoundError
        If nothing was changed.
    """
    if bag.before is None:
        raise NotFoundError("nothing was changed in this bag", place="bag", mend="Look again.")
    return replace(bag, clubs=bag.before, before=bag.clubs)


def _known(bag: Bag, name: str) -> None:
    if bag.club(name) is None:
        raise NotFoundError(
            f"no club of this bag is called {name!r}", place="club", mend="Open the page again."
        )


@cache
def _adapter() -> TypeAdapter[Bag]:
    return TypeAdapter(Bag)

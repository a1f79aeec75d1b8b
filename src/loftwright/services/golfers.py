"""Golfers: who they are, what they want, and what their body allows today."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from datetime import date
from itertools import islice

from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.one_golfer import first_record, records_of
from loftwright.services.shop_leaving import fittings_of_golfers, keep_again, leave_golfer
from loftwright.services.studio import Studio, new_id
from loftwright.store.golfers import ERASED


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownGolfer:
    """A golfer with a name and the version under which the record was read."""

    golfer: Golfer
    identity: Identity
    version: int


def add_golfer(studio: Studio, golfer: Golfer, identity: Identity) -> Golfer:
    """Keep a new golfer under a fresh id and return it."""
    kept = replace(golfer, id=new_id())
    studio.store.add_golfer(kept, identity)
    return kept


def known_golfer(studio: Studio, golfer: str) -> KnownGolfer:
    """Return a golfer by its id, by the record that stands for all of that golfer's.

    Raises
    ------
    NotFoundError
        If there is none.
    """
    first = first_record(studio, golfer)
    kept = studio.store.golfer(first)
    return KnownGolfer(
        golfer=kept.value, identity=studio.store.identity(first), version=kept.version
    )


def golfers_of(
    studio: Studio, golfers: Iterable[str], most: int, without: Collection[str] = ()
) -> tuple[KnownGolfer, ...]:
    """Return the first of some golfers, without some, as those of the house.

    Who was erased is nobody any more.
    """
    found = (
        KnownGolfer(golfer=kept.value, identity=identity, version=kept.version)
        for golfer in golfers
        if golfer not in without
        if (identity := studio.store.identity(golfer)) != ERASED
        for kept in (studio.store.golfer(golfer),)
    )
    return tuple(islice(found, most))


def golfers_called(studio: Studio, text: str, without: Collection[str] = ()) -> dict[str, str]:
    """Return the golfers whose name has every word of a text in it, the newest first.

    Returns
    -------
    dict of str to str
        Names by golfer; all golfers for an empty text.
    """
    words = text.casefold().split()
    return {
        golfer: name
        for golfer, name in studio.store.names().items()
        if golfer not in without and all(word in name.casefold() for word in words)
    }


def change_golfer(studio: Studio, golfer: Golfer, identity: Identity, *, version: int) -> int:
    """Replace what is known of a golfer and return the new version.

    What the golfer agrees to holds for every record of that golfer's.

    Raises
    ------
    ConflictError
        If somebody else changed it since it was read.
    """
    before = studio.store.golfer(golfer.id).value
    changed = studio.store.change_golfer(golfer, version=version)
    records = records_of(studio, golfer.id)
    for second in records[1:]:
        kept = studio.store.golfer(second)
        if kept.value.consents != golfer.consents:
            studio.store.change_golfer(
                replace(kept.value, consents=golfer.consents), version=kept.version
            )
    if before.consents.shop_record and not golfer.consents.shop_record:
        leave_golfer(studio, golfer.id)
    elif golfer != before:
        keep_again(studio, fittings_of_golfers(studio, records))
    if identity != studio.store.identity(golfer.id):
        studio.store.change_identity(golfer.id, identity)
    return changed


def set_limits_today(studio: Studio, golfer: str, limits: str) -> None:
    """Keep what the golfer's body allows today; it goes after the visit."""
    studio.store.set_limits(golfer, studio.today(), limits.strip())


def limits_today(studio: Studio, golfer: str) -> str:
    """Return what the golfer's body allows today; empty if nothing was said."""
    return studio.store.limits(golfer, studio.today())


def forget_old_limits(studio: Studio, today: date) -> int:
    """Remove limits of earlier days and return how many went."""
    return studio.store.forget_limits(today)

"""What becomes of a piece of the rack: locked, retired, put back."""

from dataclasses import dataclass, replace

from loftwright.domain.rack import Assembly, Piece, Rack, RackItem, State
from loftwright.errors import InputError
from loftwright.services.rack import check_assembly
from loftwright.services.rack_adding import rack_with
from loftwright.services.studio import Studio


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownItem:
    """An item of the rack and the version under which it was read."""

    item: RackItem
    version: int


def known_item(studio: Studio, item: str) -> KnownItem:
    """Return an item of the rack.

    Raises
    ------
    NotFoundError
        If there is none.
    """
    kept = studio.store.item(item)
    return KnownItem(item=kept.value, version=kept.version)


def set_state(
    studio: Studio, piece: str, state: State, *, reason: str = "", version: int | None = None
) -> int:
    """Lock a piece, retire it or put it back, and return its new version.

    Parameters
    ----------
    studio : Studio
    piece : str
    state : State
    reason : str
        Needed unless it is put back.
    version : int, optional
        Under which the piece was read; without it whatever stands now is changed.

    Raises
    ------
    InputError
        If it is no piece, or the reason is missing.
    ConflictError
        If somebody else changed it since it was read.
    """
    kept = studio.store.item(piece)
    if not isinstance(kept.value, Piece):
        raise InputError(
            "only a head or a shaft can be locked or retired",
            place="item",
            mend="Lock the head or the shaft of the club.",
        )
    changed = replace(
        kept.value, state=state, reason="" if state is State.READY else reason.strip()
    )
    return studio.store.put(changed, version=kept.version if version is None else version)


def change_together(studio: Studio, items: tuple[tuple[RackItem, int], ...]) -> None:
    """Replace items, each under the version it was read at; what is the same stays.

    Raises
    ------
    InputError
        If a club that stands in the rack could not be put together any more.
    ConflictError
        If somebody else changed one since it was read; nothing is changed then.
    """
    _check_clubs(studio.store.rack(), tuple(item for item, _ in items))
    stale = [item for item, version in items if studio.store.item(item.id).version != version]
    # A stale item is put first, so that the store refuses it before anything is written.
    for item, version in sorted(items, key=lambda pair: pair[0] not in stale):
        if studio.store.item(item.id).value != item:
            studio.store.put(item, version=version)


def _check_clubs(rack: Rack, changed: tuple[RackItem, ...]) -> None:
    after = rack_with(rack, *changed)
    for club in after.assemblies.values():
        try:
            check_assembly(after, club)
        except InputError as error:
            mine = any(club.id == item.id for item in changed)
            if mine or _stands(rack, club):
                raise InputError(
                    error.message
                    if mine
                    else f"a club of the rack would not fit: {error.message}",
                    place=error.place,
                    mend=error.mend if mine else "Change that club first.",
                ) from error


def _stands(rack: Rack, club: Assembly) -> bool:
    """Return whether a club could be put together before the change."""
    try:
        check_assembly(rack, club)
    except InputError:
        return False
    return True

"""What becomes of a piece of the rack: locked, retired, put back."""

from dataclasses import dataclass, replace

from loftwright.domain.inspection import Finding
from loftwright.domain.lineage import check_line
from loftwright.domain.rack import Assembly, HeadModel, Piece, Rack, RackItem, ShaftModel, State
from loftwright.errors import ConflictError, InputError
from loftwright.services.rack import check_assembly
from loftwright.services.rack_adding import rack_with
from loftwright.services.shop_leaving import fittings_of_pieces, keep_again, leave_pieces
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
        If somebody else changed it since it was read, or it was found cracked and would be put
        back without another look.
    """
    kept = studio.store.item(piece)
    if not isinstance(kept.value, Piece):
        raise InputError(
            "only a head or a shaft can be locked or retired",
            place="item",
            mend="Lock the head or the shaft of the club.",
        )
    if state is State.READY:
        _refuse_cracked(studio, kept.value)
    changed = replace(
        kept.value, state=state, reason="" if state is State.READY else reason.strip()
    )
    now = studio.store.put(changed, version=kept.version if version is None else version)
    if state is State.LOCKED:
        leave_pieces(studio, [piece])
    elif state is not kept.value.state:
        keep_again(studio, fittings_of_pieces(studio, [piece]))
    return now


def _refuse_cracked(studio: Studio, piece: Piece) -> None:
    looks = studio.store.inspections().get(piece.id, ())
    if looks and looks[-1].finding is Finding.CRACKED:
        raise ConflictError(
            f"the newest look at {piece.label or 'this part'} found it cracked: {looks[-1].words}",
            place="state",
            mend="If that was wrong, look again and write that it is sound; then put it back.",
        )


def change_together(studio: Studio, items: tuple[tuple[RackItem, int], ...]) -> None:
    """Replace items, each under the version it was read at; what is the same stays.

    Raises
    ------
    InputError
        If a club that stands in the rack could not be put together any more.
    ConflictError
        If somebody else changed one since it was read; nothing is changed then.
    """
    check_change(studio.store.rack(), tuple(item for item, _ in items))
    kept = {item.id: studio.store.item(item.id) for item, _ in items}
    # What is the same is still put where it is stale, so that the store refuses it.
    changed = [
        (item, version)
        for item, version in items
        if kept[item.id].value != item or kept[item.id].version != version
    ]
    studio.store.put_together(changed)


def check_change(rack: Rack, changed: tuple[RackItem, ...]) -> None:
    """Refuse changes after which a line of models would be a circle, or a club would not fit.

    Parameters
    ----------
    rack : Rack
        As it stands.
    changed : tuple of RackItem
        New items and items as they would become.

    Raises
    ------
    InputError
        If a model replaces what is not there, or a club could not be put together any more.
    """
    after = rack_with(rack, *changed)
    for item in changed:
        if isinstance(item, HeadModel):
            check_line(after.heads, item)
        elif isinstance(item, ShaftModel):
            check_line(after.shafts, item)
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

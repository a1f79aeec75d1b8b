"""Which entries of a record are cancelled, and which acts can be undone or done again."""

from collections.abc import Sequence
from typing import Final

from loftwright.bay.now import LastAct
from loftwright.domain.acts import (
    Entry,
    HandedOver,
    NotRead,
    SettingSeen,
    ShotArrived,
    Undone,
    VisitOpened,
)
from loftwright.domain.undoing import uncancelled

_NEVER: Final = (ShotArrived, VisitOpened)
_UNTIL_A_BALL: Final = (HandedOver, SettingSeen)


def standing_entries(record: Sequence[Entry]) -> tuple[Entry, ...]:
    """Return the entries that are not cancelled, without the cancelling acts themselves.

    Parameters
    ----------
    record : sequence of Entry
        In order.

    Returns
    -------
    tuple of Entry
    """
    return uncancelled(record, _cancels)


def undoable(record: Sequence[Entry]) -> LastAct | None:
    """Return the newest act that can be undone, if there is one.

    A hand-over is not undone once a ball was hit: the balls' club is corrected instead.

    Parameters
    ----------
    record : sequence of Entry
        In order.
    """
    standing = standing_entries(record)
    fixed = {entry.group for entry in standing if isinstance(entry.act, _NEVER)}
    ball_later = False
    for entry in reversed(standing):
        if isinstance(entry.act, ShotArrived | NotRead):
            ball_later = True
        held = ball_later and isinstance(entry.act, _UNTIL_A_BALL)
        if entry.group not in fixed and not held:
            return _named(entry, entry.sequence)
    return None


def repeatable(record: Sequence[Entry]) -> LastAct | None:
    """Return the act that was undone last and can be done again, if nothing came since.

    Parameters
    ----------
    record : sequence of Entry
        In order.
    """
    undone = record[-1].act if record else None
    if not isinstance(undone, Undone):
        return None
    target = next((one for one in record if one.sequence == undone.act), None)
    if target is None or isinstance(target.act, Undone):
        return None
    return _named(target, record[-1].sequence)


def _cancels(entry: Entry) -> int | None:
    return entry.act.act if isinstance(entry.act, Undone) else None


def _named(entry: Entry, sequence: int) -> LastAct:
    return LastAct(
        sequence=sequence,
        kind=type(entry.act).__name__,
        club=getattr(entry.act, "club", "") or "",
    )

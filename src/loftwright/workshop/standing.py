"""Which acts of a job stand, which can be undone and which done again."""

from collections.abc import Sequence
from typing import TypeVar

from loftwright.domain.job_acts import JobEntry, JobUndone
from loftwright.domain.undoing import uncancelled

Act = TypeVar("Act")


def standing(record: Sequence[JobEntry]) -> tuple[JobEntry, ...]:
    """Return the entries that are not cancelled, without the cancelling acts themselves.

    Parameters
    ----------
    record : sequence of JobEntry
        In order.
    """
    return uncancelled(record, _cancels)


def undoable(record: Sequence[JobEntry]) -> JobEntry | None:
    """Return the newest entry that stands: later ones rest on earlier ones, so it goes first."""
    stands = standing(record)
    return stands[-1] if stands else None


def repeatable(record: Sequence[JobEntry]) -> JobEntry | None:
    """Return the entry that was undone last, if nothing came since."""
    undone = record[-1].act if record else None
    if not isinstance(undone, JobUndone):
        return None
    target = next((one for one in record if one.sequence == undone.act), None)
    return None if target is None or isinstance(target.act, JobUndone) else target


def newest(entries: Sequence[JobEntry], kind: type[Act]) -> Act | None:
    """Return the newest act of a kind among entries."""
    return next((one.act for one in reversed(entries) if isinstance(one.act, kind)), None)


def _cancels(entry: JobEntry) -> int | None:
    return entry.act.act if isinstance(entry.act, JobUndone) else None

"""What stands of a record in which nothing is removed and acts cancel earlier ones."""

from collections.abc import Callable, Sequence
from typing import Protocol, TypeVar


class Line(Protocol):
    """A line of a record, whatever it tells."""

    @property
    def sequence(self) -> int:
        """Its number, from 1 without gaps."""

    @property
    def group(self) -> int:
        """Sequence of the first line written together with it."""

    @property
    def key(self) -> str:
        """The sender's idempotency key."""


AnyLine = TypeVar("AnyLine", bound=Line)


def uncancelled(
    record: Sequence[AnyLine], cancels: Callable[[AnyLine], int | None]
) -> tuple[AnyLine, ...]:
    """Return the lines that are not cancelled, without the cancelling ones themselves.

    Parameters
    ----------
    record : sequence of Line
        In order.
    cancels : callable
        Returns the sequence that a line cancels; None if it cancels nothing.

    Notes
    -----
    What was written together goes together. A line can be cancelled only by a later one, so one
    pass from the end settles them all.
    """
    group_of = {line.sequence: line.group for line in record}
    cancelled: set[int] = set()
    for line in reversed(record):
        target = cancels(line)
        if target is not None and line.group not in cancelled:
            cancelled.add(group_of.get(target, 0))
    return tuple(line for line in record if line.group not in cancelled and cancels(line) is None)


def written(record: Sequence[Line], key: str) -> bool:
    """Return whether a record was written to under a key; an empty key is none."""
    return bool(key) and any(line.key == key for line in record)

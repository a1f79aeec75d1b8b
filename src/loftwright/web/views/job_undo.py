"""The bar on every page of a job: take back what was done last, or do it again."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.domain.job_acts import JobEntry
from loftwright.report.job_words import act_words
from loftwright.workshop.standing import repeatable, undoable


@dataclass(frozen=True, slots=True, kw_only=True)
class UndoView:
    """What can be taken back and done again.

    Attributes
    ----------
    undo, again : (int, str) or None
        Sequence to post, and what it is called.
    seen : int
        The last entry that the page shows.
    """

    undo: tuple[int, str] | None
    again: tuple[int, str] | None
    seen: int


def undo_view(record: Sequence[JobEntry]) -> UndoView:
    """Return the bar of a job's record."""
    last, again = undoable(record), repeatable(record)
    return UndoView(
        undo=None if last is None else (last.sequence, act_words(last.act)),
        again=None if again is None else (record[-1].sequence, act_words(again.act)),
        seen=record[-1].sequence if record else 0,
    )

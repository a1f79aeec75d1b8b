"""What can happen to a club from the quote to the follow-up, one act after the other.

As in the bay nothing in a record is edited or removed: an act that was wrong is cancelled by
`JobUndone`, the newest first, and what stands is found by reading the record.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import TypeAlias

from loftwright.domain.after_acts import AfterAct
from loftwright.domain.check_acts import CheckAct
from loftwright.domain.order_acts import OrderAct
from loftwright.domain.parts_acts import PartsAct
from loftwright.domain.sheet_acts import SheetAct


@dataclass(frozen=True, slots=True, kw_only=True)
class JobUndone:
    """An earlier act, or an earlier undoing, does not count; written together, gone together."""

    act: int


JobAct: TypeAlias = OrderAct | PartsAct | SheetAct | CheckAct | AfterAct | JobUndone


@dataclass(frozen=True, slots=True, kw_only=True)
class JobEntry:
    """One line of a job's record.

    Attributes
    ----------
    sequence : int
        From 1, without gaps within a fitting's job.
    at : datetime
        When it was written, in UTC.
    by : str
        Who wrote it.
    group : int
        Sequence of the first act written together with this one.
    key : str
        The sender's idempotency key.
    """

    sequence: int
    at: datetime
    by: str
    act: JobAct
    group: int
    key: str = ""

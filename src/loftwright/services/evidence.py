"""What the balls of a fitting say: one comparison a state of its record, never kept warm.

Each state is computed from the record alone, so that a fitting that was repaired and one that
never had the fault come out alike to the last digit.
"""

from collections import OrderedDict
from dataclasses import dataclass, field, replace
from pathlib import Path
from threading import Lock
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.domain.acts import Entry
from loftwright.domain.golfer import Golfer, Hand
from loftwright.evidence.alarms import Alarm, alarms
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, can_be_valued, compare, decide
from loftwright.evidence.device_carry import decide_on_carry
from loftwright.evidence.result import Decision
from loftwright.evidence.visit import Beliefs
from loftwright.physics.sleeve import Convention
from loftwright.services.fitting_table import FittingTable, fitting_table
from loftwright.services.read import Reading

_KEPT: Final = 64


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """A fitting as it stands, and what its balls say.

    Attributes
    ----------
    decision : Decision, optional
        None while no ball can be compared.
    alarms : tuple of Alarm
        Doubts about marks, clubs and settings that the balls raise.
    """

    now: FittingNow
    table: FittingTable
    decision: Decision | None
    alarms: tuple[Alarm, ...]

    def reading(self, hand: Hand) -> Reading | None:
        """Return the same as a file of shots gives, for report and records."""
        if self.decision is None:
            return None
        return Reading(
            path=Path(), table=self.table.table, decision=self.decision, hand=hand.value
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Compared:
    now: FittingNow
    table: FittingTable
    comparison: Comparison | None
    alarms: tuple[Alarm, ...]


@dataclass(slots=True)
class Desk:
    """Keeps the newest comparisons, so that two pages of one state share the work."""

    kept: OrderedDict[tuple[object, ...], _Compared] = field(default_factory=OrderedDict)
    lock: Lock = field(default_factory=Lock)

    def evidence(
        self,
        record: tuple[Entry, ...],
        golfer: Golfer,
        convention: Convention,
        budget: Budget | None = None,
        *,
        fitting: str = "",
    ) -> Evidence:
        """Return what a record's balls say.

        Parameters
        ----------
        record : tuple of Entry
            The whole record.
        golfer : Golfer
        convention : Convention
        budget : Budget, optional
            Balls and minutes left, which decide whether another club is proposed.
        fitting : str
            Under which the comparison is kept.
        """
        key = (fitting, len(record), golfer, convention)
        with self.lock:
            found = self.kept.get(key) if fitting else None
            if found is None:
                found = _compare(record, golfer, convention)
                self.kept[key] = found
                while len(self.kept) > _KEPT:
                    self.kept.popitem(last=False)
        return Evidence(
            now=found.now,
            table=found.table,
            decision=_decide(found, golfer, budget or Budget()),
            alarms=found.alarms,
        )


def beliefs_of(golfer: Golfer, table: FittingTable) -> Beliefs:
    """Return what is believed of a golfer and the clubs before the first ball."""
    usual = Beliefs()
    head = usual.head.mirrored() if golfer.hand is Hand.LEFT else usual.head
    return replace(usual, head=head, ability=golfer.ability, traits=table.traits)


def _compare(record: tuple[Entry, ...], golfer: Golfer, convention: Convention) -> _Compared:
    now = replay(record)
    table = fitting_table(now, golfer.hand, convention)
    balls = table.balls
    comparison = None
    raised: tuple[Alarm, ...] = ()
    if balls is not None and can_be_valued(balls):
        comparison = compare(balls, golfer.home, beliefs_of(golfer, table))
        raised = alarms(comparison.visit.setup)
    return _Compared(now=now, table=table, comparison=comparison, alarms=raised)


def _decide(found: _Compared, golfer: Golfer, budget: Budget) -> Decision | None:
    if found.comparison is not None:
        return decide(found.comparison, budget)
    if found.table.balls is None:
        return None
    return decide_on_carry(found.table.balls, beliefs_of(golfer, found.table), budget)

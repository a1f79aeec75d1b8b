"""What the balls of a fitting say: one comparison a state of its record, never kept warm.

Each state is computed from the record alone, so that a fitting that was repaired and one that
never had the fault come out alike to the last digit.
"""

from collections import OrderedDict
from dataclasses import dataclass, replace
from pathlib import Path
from threading import Lock
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.domain.golfer import Golfer, Hand
from loftwright.evidence.alarms import Alarm, alarms
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, can_be_valued, compare, decide
from loftwright.evidence.device_carry import can_compare_carry, decide_on_carry
from loftwright.evidence.result import Decision
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.spreads import ABILITY_FACTOR
from loftwright.evidence.visit import Beliefs
from loftwright.physics.sleeve import Convention
from loftwright.services.fitting_table import FittingTable, fitting_table
from loftwright.services.hands import handedness
from loftwright.services.pinned import PHYSICS_ALONE, Pinned
from loftwright.services.read import Reading
from loftwright.services.shaft_shifts import NO_SHIFTS, Shifts
from loftwright.store.topics import ERASED

_KEPT: Final = 64


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """A fitting as it stands, and what its balls say.

    Attributes
    ----------
    decision : Decision, optional
        None while no ball can be compared.
    pinned : Pinned
        The version of what the shop has learned by which it is compared.
    """

    now: FittingNow
    table: FittingTable
    decision: Decision | None
    doubts: "Doubts"
    pinned: Pinned = PHYSICS_ALONE

    @property
    def alarms(self) -> tuple[Alarm, ...]:
        """Doubts about marks, clubs and settings that the balls raise."""
        return self.doubts.raised()

    def reading(self, hand: Hand) -> Reading | None:
        """Return the same as a file of shots gives, for report and records."""
        if self.decision is None:
            return None
        return Reading(
            path=Path(), table=self.table.table, decision=self.decision, hand=handedness(hand)
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Compared:
    """A fitting as it stands with its clubs compared, before balls and minutes are counted.

    Attributes
    ----------
    pinned : Pinned
        The version of what the shop has learned.
    shop : ShopBeliefs, optional
        What that says of the clubs that were hit; None where physics alone was believed.
    """

    now: FittingNow
    table: FittingTable
    comparison: Comparison | None
    doubts: "Doubts"
    pinned: Pinned = PHYSICS_ALONE
    shop: ShopBeliefs | None = None


class Doubts:
    """What a comparison's balls make doubtful, looked for when somebody asks and then kept.

    Parameters
    ----------
    comparison : Comparison, optional
        Without it nothing is doubted.
    """

    def __init__(self, comparison: Comparison | None) -> None:
        self._comparison = comparison
        self._lock = Lock()
        self._raised: tuple[Alarm, ...] | None = None

    def raised(self) -> tuple[Alarm, ...]:
        """Return the doubts."""
        with self._lock:
            if self._raised is None:
                found = self._comparison
                self._raised = () if found is None else alarms(found.visit.setup)
            return self._raised


class Desk:
    """Keeps the newest comparisons, so that two pages of one state share the work."""

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[object, ...], Compared] = OrderedDict()
        self._lock = Lock()

    def heard(self, topic: str) -> None:
        """Drop every comparison once somebody was erased."""
        if topic == ERASED:
            with self._lock:
                self._kept.clear()

    def compared(
        self,
        fitting: str,
        now: FittingNow,
        golfer: Golfer,
        convention: Convention,
        shifts: Shifts = NO_SHIFTS,
        pinned: Pinned = PHYSICS_ALONE,
    ) -> Compared:
        """Return a fitting's clubs compared as it stands.

        Parameters
        ----------
        fitting : str
        now : FittingNow
            After its whole record.
        golfer : Golfer
        convention : Convention
            How a sleeve's setting turns into loft, lie and face.
        shifts : mapping of str to tuple of float
            What is believed of shafts, by their piece.
        pinned : Pinned
            What the shop had learned when the visit opened.
        """
        told = tuple(sorted(shifts.items()))
        key = (fitting, now.upto, golfer, convention, told, pinned.key)
        with self._lock:
            found = self._kept.get(key)
            if found is None:
                found = compare_clubs(now, golfer, convention, shifts, pinned)
                self._kept[key] = found
                while len(self._kept) > _KEPT:
                    self._kept.popitem(last=False)
        return found


def weigh(found: Compared, golfer: Golfer, budget: Budget) -> Evidence:
    """Return what may be said within the balls and minutes that are left."""
    decision = None
    if found.comparison is not None:
        decision = decide(found.comparison, budget)
    elif found.table.balls is not None and can_compare_carry(found.table.balls):
        beliefs = beliefs_of(golfer, found.table, found.shop)
        decision = decide_on_carry(found.table.balls, beliefs, budget)
    if decision is not None:
        decision = replace(decision, believed=found.pinned.said(found.shop))
    return Evidence(
        now=found.now,
        table=found.table,
        decision=decision,
        doubts=found.doubts,
        pinned=found.pinned,
    )


def beliefs_of(golfer: Golfer, table: FittingTable, shop: ShopBeliefs | None = None) -> Beliefs:
    """Return what is believed of a golfer and the clubs before the first ball."""
    usual = Beliefs()
    head = usual.head.mirrored() if golfer.hand is Hand.LEFT else usual.head
    # Seniors and juniors differ by their caps, not by a spread of their own: balls judge that.
    ability = golfer.ability if golfer.ability in ABILITY_FACTOR else None
    return replace(usual, head=head, ability=ability, traits=table.traits, shop=shop)


def compare_clubs(
    now: FittingNow,
    golfer: Golfer,
    convention: Convention,
    shifts: Shifts = NO_SHIFTS,
    pinned: Pinned = PHYSICS_ALONE,
) -> Compared:
    """Compare the clubs of a fitting, from how it stands and what is believed of its clubs."""
    table = fitting_table(now, golfer.hand, convention, shifts)
    balls = table.balls
    comparison = None
    shop = pinned.beliefs(table.traits)
    if balls is not None and can_be_valued(balls):
        comparison = compare(balls, golfer.home, beliefs_of(golfer, table, shop))
    return Compared(
        now=now,
        table=table,
        comparison=comparison,
        doubts=Doubts(comparison),
        pinned=pinned,
        shop=shop,
    )

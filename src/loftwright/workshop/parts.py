"""Parts as they came, each figure held against that of the tested piece."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import ClubSpec, Kept
from loftwright.domain.parts_acts import Matter, Part, PartCame, PartSettled, Settled
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit
from loftwright.workshop.held import (
    ANGLES,
    USUAL_DOUBTS,
    Doubts,
    Figure,
    Held,
    HitPiece,
    held_against,
)
from loftwright.workshop.standing import standing


class State(StrEnum):
    """How a part stands.

    Attributes
    ----------
    AWAITED
        It has not come.
    WRONG
        It is not what was ordered.
    OUT
        A figure is out of tolerance, and nobody said what is done about it.
    ASKS
        A figure that the build needs is missing.
    CLOSE
        A figure is too close to its tolerance to tell; nobody has to do anything.
    SETTLED
        It was decided what is done.
    FITS
        Every figure that can be held is within its tolerance.
    NOTED
        Written down; there is nothing to hold it to.
    BACK
        It goes back, and another is awaited.
    """

    AWAITED = "awaited"
    WRONG = "wrong"
    OUT = "out"
    ASKS = "asks"
    CLOSE = "close"
    SETTLED = "settled"
    FITS = "fits"
    NOTED = "noted"
    BACK = "back"


READY: Final = frozenset({State.CLOSE, State.SETTLED, State.FITS, State.NOTED})
"""States in which a part may be built with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrived:
    """A part that came last of its kind, and what was decided about it since.

    Attributes
    ----------
    sequence : int
        Of the act.
    settled : mapping of Matter to PartSettled
        Of a head its weight and its angles may both be there.
    """

    came: PartCame
    sequence: int
    settled: Mapping[Matter, PartSettled]

    @property
    def back(self) -> bool:
        """Whether it goes back, so that another is awaited."""
        return any(one.settled is Settled.SEND_BACK for one in self.settled.values())

    @property
    def wrong(self) -> bool:
        """Whether it is not what was ordered."""
        return bool(self.came.named) or self.came.other_hand


@dataclass(frozen=True, slots=True, kw_only=True)
class PartNow:
    """A part as it stands.

    Attributes
    ----------
    came : PartCame or None
    sequence : int
        Of the act; 0 without one.
    held : tuple of Held
    settled : mapping of Matter to PartSettled
        Since it came.
    """

    part: Part
    came: PartCame | None
    sequence: int
    held: tuple[Held, ...]
    settled: Mapping[Matter, PartSettled]
    state: State

    def line(self, figure: Figure) -> Held | None:
        """Return the line of a figure."""
        return next((one for one in self.held if one.figure is figure), None)


def expected(spec: ClubSpec) -> tuple[Part, ...]:
    """Return which parts an order needs, in the order in which they are checked in."""
    if spec.kept is Kept.CLUB:
        return ()
    sleeve = (Part.SLEEVE,) if spec.settings else ()
    head = () if spec.kept.own_head else (Part.HEAD,)
    shaft = () if spec.kept.own_shaft else (Part.SHAFT,)
    return (*head, *shaft, Part.GRIP, *sleeve)


def matter_of(part: Part, figure: Figure) -> Matter:
    """Return under which matter a figure is settled."""
    if part is not Part.HEAD:
        return Matter.WHOLE
    return Matter.ANGLES if figure in ANGLES else Matter.MASS


def arrived(record: Sequence[JobEntry]) -> dict[Part, Arrived]:
    """Return the part that came last of each kind, with what was decided about it since."""
    found: dict[Part, Arrived] = {}
    for entry in standing(record):
        act = entry.act
        if isinstance(act, PartCame):
            found[act.part] = Arrived(came=act, sequence=entry.sequence, settled={})
        elif isinstance(act, PartSettled) and act.part in found:
            known = found[act.part]
            kept = {} if act.matter is Matter.WHOLE else dict(known.settled)
            found[act.part] = replace(known, settled=kept | {act.matter: act})
    return found


def parts_now(
    record: Sequence[JobEntry],
    tested: Mapping[Part, HitPiece],
    tolerances: Tolerances,
    doubts: Doubts = USUAL_DOUBTS,
) -> dict[Part, PartNow]:
    """Return every part as it stands, by its kind.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    tested : mapping of Part to HitPiece
    tolerances : Tolerances
    doubts : Doubts
    """
    there = arrived(record)
    return {
        part: _now(
            part,
            there.get(part),
            tested.get(part, HitPiece()),
            (tolerances, doubts),
        )
        for part in Part
    }


def _now(
    part: Part,
    there: Arrived | None,
    tested: HitPiece,
    held_to: tuple[Tolerances, Doubts],
) -> PartNow:
    if there is None:
        return PartNow(part=part, came=None, sequence=0, held=(), settled={}, state=State.AWAITED)
    held = held_against(there.came, tested, *held_to)
    return PartNow(
        part=part,
        came=there.came,
        sequence=there.sequence,
        held=held,
        settled=there.settled,
        state=_state(there, held),
    )


def _state(there: Arrived, held: Sequence[Held]) -> State:
    settled, part = there.settled, there.came.part
    open_to = {
        one.fit
        for one in held
        if Matter.WHOLE not in settled and matter_of(part, one.figure) not in settled
    }
    reasons = {
        State.BACK: there.back,
        State.WRONG: there.wrong,
        State.OUT: Fit.OUT in open_to,
        State.ASKS: any(one.asked for one in held),
        State.CLOSE: Fit.CANNOT_TELL in open_to,
        State.SETTLED: bool(settled),
        State.FITS: any(one.fit is Fit.IN for one in held),
    }
    return next((one for one, holds in reasons.items() if holds), State.NOTED)

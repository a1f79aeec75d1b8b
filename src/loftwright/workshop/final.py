"""The final check of a job: which receipts stand, and whether the club may be checked now."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Final

from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order_acts import Quoted, Withdrawn
from loftwright.domain.sheet_acts import Bonded, Deviated, SheetIssued, StepDone
from loftwright.workshop.standing import newest, standing


class HandCheck(StrEnum):
    """What is looked at by hand or eye, in order."""

    PARTS = "parts"
    SERIALS = "serials"
    ORIENTATION = "orientation"
    INDEX = "index"
    CURED = "cured"
    TURNS = "turns"
    CREAK = "creak"
    SCREW = "screw"
    RATTLE = "rattle"
    FERRULE = "ferrule"
    SURFACE = "surface"
    STRAIGHT = "straight"


MAY_BE_ABSENT: Final = frozenset(
    {
        HandCheck.SERIALS,
        HandCheck.ORIENTATION,
        HandCheck.INDEX,
        HandCheck.CURED,
        HandCheck.SCREW,
        HandCheck.FERRULE,
    }
)
"""What some clubs do not have: a number, a logo, a sleeve, a new bond, a screw, a ferrule."""


class FinalState(StrEnum):
    """Where a job stands at its final check.

    Attributes
    ----------
    NO_SHEET
        There is nothing to check against.
    OFF
        The order was withdrawn.
    CURING
        The bond has not had its time.
    READY
        The club may be checked: for the first time, or because sheet, bond or parts changed.
    REWORK, ACCEPTED, REJECTED
        How the newest receipt ended.
    """

    NO_SHEET = "no_sheet"
    OFF = "off"
    CURING = "curing"
    READY = "ready"
    REWORK = "rework"
    ACCEPTED = "accepted"
    REJECTED = "rejected"


_ENDED: Final = {
    Outcome.ACCEPT: FinalState.ACCEPTED,
    Outcome.REWORK: FinalState.REWORK,
    Outcome.REJECT: FinalState.REJECTED,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalRound:
    """One receipt, and what came into the record between it and the one before.

    Attributes
    ----------
    number : int
        From 1.
    sequence : int
        Of its entry in the record.
    revision : int
        Of the build sheet it was held against.
    departures : tuple of Deviated
    issued, bonded : bool
        Whether a sheet was issued, or a bond made.
    """

    number: int
    sequence: int
    at: datetime
    by: str
    received: Received
    revision: int
    departures: tuple[Deviated, ...]
    issued: bool
    bonded: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalNow:
    """A job's final check as it stands.

    Attributes
    ----------
    rounds : tuple of FinalRound
        The oldest first.
    bond : Bonded or None
        The newest; None where none is on record.
    builders : tuple of str
        Initials at the steps of the build.
    changed : bool
        Whether sheet, bond or parts changed after the newest receipt.
    """

    state: FinalState
    rounds: tuple[FinalRound, ...]
    bond: Bonded | None
    builders: tuple[str, ...]
    changed: bool


def final_now(record: Sequence[JobEntry], now: datetime) -> FinalNow:
    """Return how the final check of a job stands at an instant.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    now : datetime
        With its zone.
    """
    stands = standing(record)
    rounds = _rounds(stands)
    last = rounds[-1].sequence if rounds else 0
    since = [one.act for one in stands if one.sequence > last]
    bond = newest(stands, Bonded)
    changed = bool(rounds) and any(isinstance(a, SheetIssued | Bonded | Deviated) for a in since)
    steps = [one.act for one in stands if isinstance(one.act, StepDone)]
    return FinalNow(
        state=_state(stands, rounds, bond, now, changed=changed),
        rounds=rounds,
        bond=bond,
        builders=tuple(dict.fromkeys(step.initials for step in steps if step.initials)),
        changed=changed,
    )


def same_person(name: str, builders: Iterable[str]) -> bool:
    """Return whether a name or its initials are those of somebody who built the club."""
    known = {form for one in builders for form in _forms(one)}
    return bool(_forms(name) & known)


def _forms(name: str) -> frozenset[str]:
    """Return a name's letters run together and, of two words or more, its initials."""
    words = "".join(sign if sign.isalnum() else " " for sign in name.casefold()).split()
    found = {"".join(words)}
    if len(words) > 1:
        found.add("".join(word[0] for word in words))
    return frozenset(found - {""})


def _state(
    stands: Sequence[JobEntry],
    rounds: Sequence[FinalRound],
    bond: Bonded | None,
    now: datetime,
    *,
    changed: bool,
) -> FinalState:
    orders = [one.act for one in stands if isinstance(one.act, Quoted | Withdrawn)]
    if orders and isinstance(orders[-1], Withdrawn):
        return FinalState.OFF
    if newest(stands, SheetIssued) is None:
        return FinalState.NO_SHEET
    if bond is not None and bond.not_before > now:
        return FinalState.CURING
    if not rounds or changed:
        return FinalState.READY
    return _ENDED[rounds[-1].received.outcome]


def _rounds(stands: Sequence[JobEntry]) -> tuple[FinalRound, ...]:
    rounds: list[FinalRound] = []
    revision, departures = 0, list[Deviated]()
    issued = bonded = False
    for entry in stands:
        act = entry.act
        if isinstance(act, SheetIssued):
            revision, issued = revision + 1, True
        elif isinstance(act, Deviated):
            departures.append(act)
        elif isinstance(act, Bonded):
            bonded = True
        elif isinstance(act, Received):
            rounds.append(
                FinalRound(
                    number=len(rounds) + 1,
                    sequence=entry.sequence,
                    at=entry.at,
                    by=entry.by,
                    received=act,
                    revision=revision,
                    departures=tuple(departures),
                    issued=issued,
                    bonded=bonded,
                )
            )
            departures, issued, bonded = [], False, False
    return tuple(rounds)

"""What can happen at the final check: a receipt is taken, rework follows, balls are hit."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TypeAlias


class Outcome(StrEnum):
    """How a final check ended."""

    ACCEPT = "accept"
    REWORK = "rework"
    REJECT = "reject"


@dataclass(frozen=True, slots=True, kw_only=True)
class Received:
    """A finished club was measured and looked at by a second person.

    Attributes
    ----------
    measured : str
        Readings as text of a file of measurements, so that any bench can check them again.
    looked : dict of str to bool
        What was looked at by hand or eye, by its name, and whether it stood.
    rework : str
        What is to be done again.
    second : str
        Who looked.
    reason : str
        Why it was accepted although something is out, or rejected.
    day : date or None
        Of the looking; None in a record that does not say.
    alone : bool
        Whether no second person was there, so that the builder looked.
    """

    measured: str
    looked: dict[str, bool]
    outcome: Outcome
    second: str
    rework: str = ""
    reason: str = ""
    day: date | None = None
    alone: bool = False


class Against(StrEnum):
    """Whether the built club plays as the tested one did."""

    CONSISTENT = "consistent"
    NOT = "not"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class PickUpBegun:
    """The built club joined the fitting to be hit against the tested one.

    Attributes
    ----------
    built, tested : str
        Their names in the fitting.
    visit : int
        Number of the visit, from 0.
    complaint : bool
        Whether it is hit again because of a complaint.
    """

    built: str
    tested: str
    visit: int
    complaint: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PickedUp:
    """The golfer took the club, or did not.

    Attributes
    ----------
    against : Against or None
        What the balls said; None where none were hit.
    told : tuple of str
        What the golfer was told: to look at the screw again, to turn nothing in a round.
    """

    against: Against | None
    taken: bool
    told: tuple[str, ...] = ()
    note: str = ""


CheckAct: TypeAlias = Received | PickUpBegun | PickedUp

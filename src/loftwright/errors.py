"""Every error a user can meet, with the place it names and the mend it proposes.

::

    LoftwrightError
    ├── UsageError          the command was called wrongly
    │   └── TooManyError        it was asked for too often
    ├── InputError          a value that cannot be (also a ValueError)
    │   └── MeasurementError    a reading that cannot give the quantity
    ├── IntakeError         a file or feed that cannot be read
    ├── EvidenceError       too little evidence for what was asked
    ├── StoreError          the store refuses
    │   ├── NotFoundError       it holds no such thing
    │   ├── ConflictError       somebody else changed it meanwhile
    │   └── SchemaError         it was made by another version of the program
    └── ConvergenceError    no solution was found

Computing floors raise; only the command line and the web application catch.
"""

from typing import ClassVar, Final

LONGEST: Final = 6000
"""Letters of one part of an error; what was given may be megabytes, and is not told again."""


class LoftwrightError(Exception):
    """Base of every error that is the input's fault, not the program's.

    Parameters
    ----------
    message : str
        What is wrong, with the value and the limit.
    place : str
        Where: a row, a column, a key, an option.
    mend : str
        What to do about it.
    """

    kind: ClassVar[str] = "error"

    def __init__(self, message: str, *, place: str = "", mend: str = "") -> None:
        self.message, self.place, self.mend = map(_shown, (message, place, mend))
        super().__init__(self.message)

    def __str__(self) -> str:
        where = f"{self.place}: " if self.place else ""
        mend = f" {self.mend}" if self.mend else ""
        return f"{where}{self.message}{mend}"


def _shown(text: str) -> str:
    """Return a text as it can be told: not too long, and with no half of a surrogate pair."""
    half = LONGEST // 2
    short = text if len(text) <= LONGEST else f"{text[:half]} … {text[-half:]}"
    return short.encode("utf-8", "backslashreplace").decode("utf-8")


class UsageError(LoftwrightError):
    """The command or function was called in a way that has no meaning."""

    kind = "usage"


class TooManyError(UsageError):
    """Something was tried more often than it may be.

    Parameters
    ----------
    seconds : int
        After which it may be tried again.
    """

    kind = "too_many"

    def __init__(self, message: str, *, seconds: int, place: str = "", mend: str = "") -> None:
        super().__init__(message, place=place, mend=mend)
        self.seconds = seconds


class InputError(LoftwrightError, ValueError):
    """A value given by the caller cannot be."""

    kind = "input"


class MeasurementError(InputError):
    """A reading cannot give the quantity asked of it."""

    kind = "measurement"


class IntakeError(LoftwrightError):
    """A file or feed cannot be read as what it should hold."""

    kind = "intake"


class EvidenceError(LoftwrightError):
    """There is too little evidence for what was asked."""

    kind = "evidence"


class StoreError(LoftwrightError):
    """The store cannot do what was asked."""

    kind = "store"


class NotFoundError(StoreError):
    """The store holds nothing of that name."""

    kind = "not_found"


class ConflictError(StoreError):
    """What was to be changed is no longer as it was read, or may not be changed now."""

    kind = "conflict"


class MovedOnError(ConflictError):
    """A record went on since it was read, so that what was checked against it may not hold."""


class SchemaError(StoreError):
    """The store was made by a version of the program that this one does not know."""

    kind = "schema"


class ConvergenceError(LoftwrightError):
    """A solver found no solution."""

    kind = "no_solution"

"""What a look over a studio finds: where, how bad, and the mend."""

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How bad a finding is."""

    WRONG = "wrong"
    """Something is lost or will be, or somebody sees what they should not."""
    DOUBT = "doubt"
    """Something to look at, which loses nothing by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something that is not as it should be."""

    check: str
    severity: Severity
    place: str
    message: str
    mend: str


def wrong(check: str, place: object, message: str, mend: str) -> Finding:
    """Return a finding by which something is lost or seen."""
    return Finding(
        check=check, severity=Severity.WRONG, place=str(place), message=message, mend=mend
    )


def doubt(check: str, place: object, message: str, mend: str) -> Finding:
    """Return a finding that is to be looked at."""
    return Finding(
        check=check, severity=Severity.DOUBT, place=str(place), message=message, mend=mend
    )

"""What a look over a studio finds: where, how bad, and the mend."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Severity(StrEnum):
    """How bad a finding is."""

    WRONG = "wrong"
    """Something is lost or will be, or somebody sees what they should not."""
    DOUBT = "doubt"
    """Something to look at, which loses nothing by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something that is not as it should be.

    Attributes
    ----------
    says : str
        What it is, as the source has it: what it is filled with stands in braces.
    filled : mapping of str to object
        May hold paths, ids and what an error says.
    """

    check: str
    severity: Severity
    place: str
    says: str
    filled: Mapping[str, object]
    mend: str

    @property
    def message(self) -> str:
        """What it is."""
        return self.says.format_map(self.filled)

    @property
    def without_names(self) -> str:
        """What it is, filled with numbers and days alone, so that nobody's data is in it."""
        shown = {
            name: value if isinstance(value, int | date) else "…"
            for name, value in self.filled.items()
        }
        return self.says.format_map(shown)


def wrong(check: str, place: object, says: str, mend: str, **filled: object) -> Finding:
    """Return a finding by which something is lost or seen."""
    return _found(Severity.WRONG, check, place, says, mend, filled)


def doubt(check: str, place: object, says: str, mend: str, **filled: object) -> Finding:
    """Return a finding that is to be looked at."""
    return _found(Severity.DOUBT, check, place, says, mend, filled)


def _found(
    severity: Severity, check: str, place: object, says: str, mend: str, filled: dict[str, object]
) -> Finding:
    return Finding(
        check=check, severity=severity, place=str(place), says=says, filled=filled, mend=mend
    )

"""Instants in the names of files and folders: to the second, in UTC, in the order of time."""

from datetime import UTC, datetime
from typing import Final

_FORM: Final = "%Y%m%d-%H%M%S"


def name_of_instant(at: datetime) -> str:
    """Return how an instant stands in a name."""
    return at.astimezone(UTC).strftime(_FORM)


def instant_in(text: str) -> datetime | None:
    """Return the instant that stands in a name, or nothing where it is none."""
    try:
        return datetime.strptime(text, _FORM).replace(tzinfo=UTC)
    except ValueError:
        return None

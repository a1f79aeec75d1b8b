"""The build sheet of a job as it stands, with what was built otherwise."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.domain.job_acts import JobEntry
from loftwright.domain.sheet_acts import Deviated, SheetIssued
from loftwright.intake.build_text import Value, with_changes
from loftwright.workshop.standing import standing


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetNow:
    """A build sheet and its departures.

    Attributes
    ----------
    revision : int
        From 1.
    departures : tuple of Deviated
        Since this revision was issued.
    as_built : str
        The build file with what was built otherwise in it; its targets are the sheet's.
    """

    issued: SheetIssued
    revision: int
    departures: tuple[Deviated, ...]
    as_built: str


def sheet_now(record: Sequence[JobEntry]) -> SheetNow | None:
    """Return the build sheet that stands; None before one was issued.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.

    Raises
    ------
    InputError
        If a departure names a part that the sheet does not have.
    """
    issued: SheetIssued | None = None
    revision = 0
    departures: tuple[Deviated, ...] = ()
    for entry in standing(record):
        if isinstance(entry.act, SheetIssued):
            issued, revision, departures = entry.act, revision + 1, ()
        elif isinstance(entry.act, Deviated):
            departures = (*departures, entry.act)
    if issued is None:
        return None
    changes = {one.key: _value(one.built) for one in departures}
    return SheetNow(
        issued=issued,
        revision=revision,
        departures=departures,
        as_built=with_changes(issued.build, changes),
    )


def _value(text: str) -> Value:
    try:
        return float(text)
    except ValueError:
        return text

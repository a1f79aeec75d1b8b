"""The build sheet of a job as it stands, with what was built otherwise."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.domain.job_acts import JobEntry
from loftwright.domain.sheet_acts import Deviated, SheetIssued
from loftwright.domain.sheet_fields import MADE
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
    made : dict of str to float
        What was cut or added otherwise than the sheet solves for: `made.cut_length_inch`,
        `made.head_added_g`, `made.butt_added_g`. No build file has them.
    """

    issued: SheetIssued
    revision: int
    departures: tuple[Deviated, ...]
    as_built: str
    made: dict[str, float]


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
    changes = {one.key: _value(one.built) for one in departures if one.key not in MADE}
    return SheetNow(
        issued=issued,
        revision=revision,
        departures=departures,
        as_built=with_changes(issued.build, changes),
        made={one.key: float(one.built) for one in departures if one.key in MADE},
    )


def _value(text: str) -> Value:
    try:
        return float(text)
    except ValueError:
        return text

"""What the workshop has to build: every job with its code and initials, no golfer's name."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final

from loftwright.domain.check_acts import Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order_acts import OrderSent
from loftwright.domain.piece_code import code_of, piece_of
from loftwright.domain.sheet_acts import Step
from loftwright.errors import InputError
from loftwright.services.job_parts import MOST_AT_ONCE, JobParts, job_record
from loftwright.services.sheet_now import sheet_now
from loftwright.services.sheet_text import draft_of
from loftwright.services.studio import Studio
from loftwright.workshop.stages import agreed_quote, stages_done
from loftwright.workshop.standing import newest, standing
from loftwright.workshop.steps import progress


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkshopJob:
    """A job as the workshop's list has it.

    Attributes
    ----------
    club : str
        Head, shaft and length are told by its sheet; here head and shaft.
    promised : date or None
        When the club is to be ready.
    revision : int
        Of the sheet that stands; 0 before one was issued.
    next : Step or None
        None before a sheet, and when all is done.
    stopped : bool
        Whether the order is off or waits for agreement.
    checked : bool
        Whether the final check accepted the club.
    """

    fitting: str
    code: str
    initials: str
    club: str
    promised: date | None
    revision: int
    next: Step | None
    stopped: bool
    checked: bool


MOST_OPEN: Final = 100
MOST_CHECKED: Final = 20
"""Jobs of either sort that the list shows; any other one is found by its sheet."""


class State(StrEnum):
    """How far a job is, as far as the list has to tell them apart."""

    NONE = "none"
    """Neither agreed to nor with a sheet."""
    OPEN = "open"
    STOPPED = "stopped"
    CHECKED = "checked"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkshopList:
    """The workshop's list.

    Attributes
    ----------
    jobs : tuple of WorkshopJob
        Those that are not checked, the earliest promise first; then the last that were.
    going : int
        How many wait to be built, of which only the first are shown.
    not_shown : int
        Jobs that are not in the list.
    unread : int
        Jobs that are still to be read, as after a new version of the program.
    """

    jobs: tuple[WorkshopJob, ...]
    going: int
    not_shown: int
    unread: int


def workshop_jobs(studio: Studio) -> WorkshopList:
    """Return the jobs that were agreed to or have a sheet; each sort's first ones."""
    states, unread = read_states(studio)
    found = sorted((day, one) for one, (state, day) in states.items() if state in _WAITING)
    checked = sorted(
        ((day, one) for one, (state, day) in states.items() if state is State.CHECKED),
        reverse=True,
    )
    shown = [one for _, one in (*found[:MOST_OPEN], *checked[:MOST_CHECKED])]
    return WorkshopList(
        jobs=tuple(job for job in (_job(studio, one) for one in shown) if job is not None),
        going=sum(state is State.OPEN for state, _ in states.values()),
        not_shown=len(found) + len(checked) - len(shown),
        unread=unread,
    )


def read_states(
    studio: Studio, most: int | None = MOST_AT_ONCE
) -> tuple[dict[str, tuple[State, date]], int]:
    """Return how far each job is with its day, and how many jobs are unread.

    Parameters
    ----------
    studio : Studio
    most : int, optional
        How many jobs that went on may be read now; all of them without it.
    """
    return _STATES.over(studio, "workshop", _state_of, most)


def job_of_code(studio: Studio, code: str) -> str:
    """Return the fitting whose sheet bears a code.

    Raises
    ------
    InputError
        If it is no code, or no sheet here bears it.
    """
    try:
        return piece_of(code, studio.store.jobs())
    except InputError as error:
        if error.place == "code" and "bear" in error.message:
            raise InputError(
                f"no job here has the sheet {code.strip().upper()}",
                place="code",
                mend="It may belong to another shop; look for it by its initials.",
            ) from error
        raise


_WAITING: Final = (State.OPEN, State.STOPPED)


def _state_of(record: tuple[JobEntry, ...]) -> tuple[State, date]:
    """Return how far a job is, and its promised day; that of the check where it was checked."""
    sent, stands = newest(standing(record), OrderSent), progress(record)
    promised = date.max if sent is None or sent.promised is None else sent.promised
    if agreed_quote(record) is None and sheet_now(record) is None:
        return State.NONE, promised
    if "build" in stages_done(record):
        checks = (one.at.date() for one in record if isinstance(one.act, Received))
        return State.CHECKED, max(checks)
    stopped = stands.off is not None or not stands.agreed
    return State.STOPPED if stopped else State.OPEN, promised


def _written(value: tuple[State, date]) -> str:
    return f"{value[0]} {value[1].isoformat()}"


def _read(text: str) -> tuple[State, date]:
    state, _, day = text.partition(" ")
    return State(state), date.fromisoformat(day)


_STATES: Final = JobParts(_written, _read)


def _job(studio: Studio, fitting: str) -> WorkshopJob | None:
    """Return a job as its record has it, its sheet not solved; None of an erased golfer."""
    record = job_record(studio, fitting)
    if not record:
        return None
    agreed, sheet, stands = agreed_quote(record), sheet_now(record), progress(record)
    draft = {} if sheet is None else draft_of(sheet.as_built, sheet.issued.fields)
    parts = (draft.get("head"), draft.get("shaft"))
    if agreed is not None and not all(parts):
        parts = (agreed.quote.spec.head, agreed.quote.spec.shaft)
    sent = newest(standing(record), OrderSent)
    golfer = studio.store.fitting(fitting).value.golfer
    return WorkshopJob(
        fitting=fitting,
        code=code_of(fitting),
        initials=studio.store.identity(golfer).initials,
        club=", ".join(one for one in parts if one),
        promised=None if sent is None else sent.promised,
        revision=0 if sheet is None else sheet.revision,
        next=stands.next,
        stopped=stands.off is not None or not stands.agreed,
        checked="build" in stages_done(record),
    )

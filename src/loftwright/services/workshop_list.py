"""What the workshop has to build: every job with its code and initials, no golfer's name."""

from dataclasses import dataclass
from datetime import date

from loftwright.domain.order_acts import OrderSent
from loftwright.domain.piece_code import piece_of
from loftwright.domain.sheet_acts import Step
from loftwright.errors import InputError
from loftwright.services.build_sheets import BuildNow, build_now
from loftwright.services.studio import Studio
from loftwright.workshop.stages import stages_done
from loftwright.workshop.standing import newest, standing


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


def workshop_jobs(studio: Studio) -> tuple[WorkshopJob, ...]:
    """Return the jobs that were agreed to or have a sheet, the earliest promise first."""
    jobs = [
        _job(now)
        for now in (build_now(studio, fitting) for fitting in studio.store.jobs())
        if now.quote is not None or now.sheet is not None
    ]
    return tuple(sorted(jobs, key=lambda one: (one.checked, one.promised or date.max)))


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


def _job(now: BuildNow) -> WorkshopJob:
    sent = newest(standing(now.record), OrderSent)
    spec = now.spec
    parts = (now.draft.get("head"), now.draft.get("shaft"))
    if spec is not None and not all(parts):
        parts = (spec.head, spec.shaft)
    return WorkshopJob(
        fitting=now.fitting,
        code=now.code,
        initials=now.initials,
        club=", ".join(one for one in parts if one),
        promised=None if sent is None else sent.promised,
        revision=0 if now.sheet is None else now.sheet.revision,
        next=now.progress.next,
        stopped=now.progress.off is not None or not now.progress.agreed,
        checked="build" in stages_done(now.record),
    )

"""Append acts to the record of a fitting's job, and take them back, the newest first."""

from collections.abc import Sequence

from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import insist
from loftwright.services.studio import Studio
from loftwright.store.topics import JOB
from loftwright.workshop.standing import repeatable, undoable


def job_act(
    studio: Studio,
    fitting: str,
    acts: Sequence[JobAct],
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write acts of a job together and return its whole record after them.

    Parameters
    ----------
    studio : Studio
    fitting : str
    acts : sequence of JobAct
    by : str
        The person or device that acts.
    key : str
        Idempotency key; the same key writes once.
    seen : int, optional
        Sequence of the last entry that the acting page showed; 0 for none.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    ConflictError
        If the record went on since the page was drawn.
    """
    with studio.lock:
        record = insist(lambda: _append(studio, fitting, acts, by, key, seen))
    studio.hub.publish(f"{JOB}{fitting}", record[-1].sequence if record else 0)
    return record


def _append(
    studio: Studio, fitting: str, acts: Sequence[JobAct], by: str, key: str, seen: int | None
) -> tuple[JobEntry, ...]:
    record = studio.store.job_record(fitting)
    if written(record, key):
        return record
    stands = record[-1].sequence if record else 0
    if seen is not None and seen != stands:
        raise ConflictError(
            f"{record[-1].by or 'another screen'} wrote something in the meantime"
            if record
            else "the record of this job is not what the page showed",
            place="seen",
            mend="The page shows what stands now; act again if it is still wrong.",
        )
    at = studio.now()
    appended = studio.store.append_job(fitting, acts, at=at, by=by, key=key, end=stands)
    return (*record, *appended.entries)


def undo_job(
    studio: Studio,
    fitting: str,
    sequence: int,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Take back the newest act of a job that stands, or do again what was taken back last.

    Raises
    ------
    InputError
        If it is not the newest one: what came later rests on it.
    ConflictError
        If the record went on since the page was drawn.
    """
    record = studio.store.job_record(fitting)
    last, again = undoable(record), repeatable(record)
    known = {one.sequence for one in (last,) if one is not None}
    if again is not None:
        known.add(record[-1].sequence)
    if sequence not in known:
        raise InputError(
            f"{sequence} is not what was done last",
            place="act",
            mend="Take back what came after it first.",
        )
    return job_act(studio, fitting, [JobUndone(act=sequence)], by=by, key=key, seen=seen)

"""How work on the shop record stands, in words."""

from dataclasses import dataclass
from datetime import datetime, tzinfo

from loftwright.report.numbers import count
from loftwright.services.shop_work import Stage, Task, Work


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkView:
    """How work on the record stands.

    Attributes
    ----------
    state : {"idle", "running", "done", "failed"}
    learns : bool
        Whether there is something in the record to learn from.
    words : str
    mend : str
    """

    state: str
    learns: bool
    words: str = ""
    mend: str = ""


def work_view(work: Work, zone: tzinfo | None, *, learns: bool) -> WorkView:
    """Return how work on the record stands, in words."""
    if work.stage is Stage.IDLE or work.task is None:
        return WorkView(state=Stage.IDLE.value, learns=learns)
    doing = {
        Task.RECORD: "Bringing the record up to date",
        Task.LEARN: "Learning from the record",
    }[work.task]
    if work.stage is Stage.RUNNING:
        return WorkView(
            state=work.stage.value,
            learns=learns,
            words=f"{doing} since {_clock(work.began, zone)}{_so_far(work)}. Bays go on as usual, "
            "and this page may be left.",
        )
    if work.stage is Stage.FAILED:
        words = f"{doing} failed at {_clock(work.ended, zone)}: {work.message}."
        return WorkView(state=work.stage.value, learns=learns, words=words, mend=work.mend)
    return WorkView(state=work.stage.value, learns=learns, words=_done(work, zone))


def _so_far(work: Work) -> str:
    return f": {work.done} of {count(work.of, 'fitting')}" if work.of else ""


def _done(work: Work, zone: tzinfo | None) -> str:
    at = _clock(work.ended, zone)
    if work.kept is not None:
        return (
            f"Up to date at {at}: {count(work.kept.fittings, 'fitting')} in the record, "
            f"{work.kept.left_out} left out."
        )
    return (
        f"Learned at {at}: version {work.version}. Visits that open from now on start from it; "
        "those under way keep theirs."
    )


def _clock(at: datetime | None, zone: tzinfo | None) -> str:
    return "" if at is None else f"{at.astimezone(zone):%H:%M}"

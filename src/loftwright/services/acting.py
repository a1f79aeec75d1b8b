"""Append acts to a fitting's record: checked by replaying them, written, then told to pages."""

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Final, TypeVar

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.bay.targets import touched_since
from loftwright.domain.acts import Act, Closed, Entry, ShotArrived, Undone
from loftwright.domain.fitting import Fitting
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError, MovedOnError
from loftwright.services.holding import refuse_held
from loftwright.services.studio import Studio
from loftwright.store.interface import Appended
from loftwright.store.topics import FITTING

_TRIES: Final = 20
Written = TypeVar("Written")


def act(
    studio: Studio,
    fitting: str,
    acts: Sequence[Act],
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
    at_end: int | None = None,
) -> FittingNow:
    """Write acts together and return the fitting as it stands after them.

    Parameters
    ----------
    studio : Studio
    fitting : str
    acts : sequence of Act
    by : str
        The person or device that acts.
    key : str
        Idempotency key; the same key writes once.
    seen : int, optional
        Sequence of the last entry that the acting page showed.
    at_end : int, optional
        Sequence of the record's last entry, where acts name entries that they write themselves.

    Raises
    ------
    InputError
        If the acts name what the record does not hold.
    ConflictError
        If somebody else changed the same thing since the page was drawn, the fitting is closed
        and a ball was sent, or a club would be handed over or planned that may not be hit.
    """
    opened = studio.store.fitting(fitting).value
    with studio.lock:
        appended = insist(lambda: _append(studio, opened, acts, by, key, seen, at_end))
        now = studio.standing(fitting)
    if not appended.repeated:
        if any(isinstance(one, Closed) for one in acts):
            forget_limits_of_visit(studio, opened.golfer, studio.record(fitting))
        studio.hub.publish(topic(fitting), now.upto)
    return now


def _append(
    studio: Studio,
    opened: Fitting,
    acts: Sequence[Act],
    by: str,
    key: str,
    seen: int | None,
    at_end: int | None,
) -> Appended:
    """Write acts behind the record that they were checked against."""
    record, at = studio.record(opened.id), studio.now()
    end = record[-1].sequence if record else 0
    if written(record, key):
        return studio.store.append(opened.id, acts, at=at, by=by, key=key)
    _check_end(record, at_end)
    _check(studio, opened, record, acts, by, seen)
    tried = (*record, *_entries(record, acts, at, by, key))
    after = replay(tried)
    appended = studio.store.append(opened.id, acts, at=at, by=by, key=key, end=end)
    studio.wrote(opened.id, appended.entries, tried, after)
    return appended


def insist(write: Callable[[], Written]) -> Written:
    """Do what was checked against a record again where another process wrote in between.

    Raises
    ------
    MovedOnError
        If others write faster than this can read.
    """
    for _ in range(_TRIES):
        try:
            return write()
        except MovedOnError:
            continue
    return write()


def forget_limits_of_visit(studio: Studio, golfer: str, record: tuple[Entry, ...]) -> None:
    """Forget what the golfer's body allowed on every day of a record, and today.

    A visit may go past midnight, and a clock may be set back while it lasts.
    """
    days = {one.at.astimezone(studio.zone).date() for one in record}
    for day in sorted(days | {studio.today()}):
        if studio.store.limits(golfer, day):
            studio.store.set_limits(golfer, day, "")


def topic(fitting: str) -> str:
    """Return the topic under which changes of a fitting are told."""
    return f"{FITTING}{fitting}"


def undo(
    studio: Studio, fitting: str, sequence: int, *, by: str = "", key: str = "", seen: int | None
) -> FittingNow:
    """Cancel an act, or do a cancelled one again.

    Raises
    ------
    InputError
        If the record has no such act, or it is a ball.
    """
    target = next((one for one in studio.record(fitting) if one.sequence == sequence), None)
    if target is None or isinstance(target.act, ShotArrived):
        raise InputError(
            f"{sequence} is no act that can be undone",
            place="act",
            mend="A ball stays in the record; say that it is not ours instead.",
        )
    return act(studio, fitting, [Undone(act=sequence)], by=by, key=key, seen=seen)


def _check_end(record: tuple[Entry, ...], at_end: int | None) -> None:
    if at_end is not None and at_end != (record[-1].sequence if record else 0):
        raise ConflictError(
            "something was written in the meantime",
            place="record",
            mend="Look at what stands now and act again.",
        )


def _check(
    studio: Studio,
    opened: Fitting,
    record: tuple[Entry, ...],
    acts: Sequence[Act],
    by: str,
    seen: int | None,
) -> None:
    if seen is not None:
        touched = touched_since(record, seen, acts, by)
        if touched is not None:
            entry, (what, which) = touched
            raise ConflictError(
                f"{entry.by or 'another screen'} changed {what} {which} in the meantime",
                place="seen",
                mend="The page shows what stands now; act again if it is still wrong.",
            )
    now = studio.standing(opened.id)
    refuse_held(studio, now, acts)
    if now.closed and any(isinstance(one, ShotArrived) for one in acts):
        raise ConflictError(
            "this fitting is closed and takes no balls",
            place=opened.id,
            mend="Undo the closing, or open another fitting.",
        )


def _entries(
    record: tuple[Entry, ...], acts: Sequence[Act], at: datetime, by: str, key: str
) -> tuple[Entry, ...]:
    """Return the entries that acts become behind a record."""
    first = (record[-1].sequence if record else 0) + 1
    return tuple(
        Entry(sequence=first + place, at=at, by=by, act=one, group=first, key=key)
        for place, one in enumerate(acts)
    )

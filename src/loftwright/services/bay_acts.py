"""What a fitter does in the bay that is more than one act: type a ball, switch golfers, go on."""

from dataclasses import replace

from loftwright.bay.now import FittingNow
from loftwright.domain.acts import Closed, Marked
from loftwright.errors import ConflictError, InputError
from loftwright.intake.line import ball_from_line
from loftwright.intake.line_order import LineOrder
from loftwright.services.acting import act, topic
from loftwright.services.fittings import open_visit
from loftwright.services.settings import Settings, read_settings
from loftwright.services.shots import switch_golfer, take
from loftwright.services.studio import Studio
from loftwright.services.ways_in import incoming


def type_ball(
    studio: Studio,
    fitting: str,
    line: str,
    *,
    key: str,
    after: int | None = None,
    by: str = "",
) -> FittingNow:
    """Take a ball that was typed on one line, with the mark that stands beside it.

    Parameters
    ----------
    studio : Studio
    fitting : str
    line : str
        Such as ``148.2 12.1 2510 -2 8`` or ``speed 148 spin 2500 mark 5t 3h``.
    key : str
        Idempotency key.
    after : int, optional
        Sequence of the ball it was hit after, where it is typed in later.
    by : str
        Who types.

    Raises
    ------
    IntakeError
        For a word that is not understood.
    """
    opened = studio.store.fitting(fitting).value
    settings = read_settings(studio).settings
    now = studio.standing(fitting)
    typed = ball_from_line(
        line,
        line_order(settings),
        key=key,
        clubs=tuple(club.name for club in now.clubs),
        mark_error=settings.mark_error(opened.fitter),
    )
    taken = take(studio, fitting, incoming(typed.shot, after), source="keyboard", by=by)
    if typed.mark is not None:
        mark = Marked(mark=typed.mark, ball=taken.sequence)
        act(studio, taken.fitting, [mark], by=by, key=f"{key}:mark")
    return studio.standing(fitting)


def line_order(settings: Settings) -> LineOrder:
    """Return what plain numbers of a typed line mean under the shop's units."""
    metric = {"ball speed": "m/s", "head speed": "m/s", "carry": "m", "total": "m"}
    return LineOrder(units=metric if settings.units == "metric" else {})


def switch_to(studio: Studio, fitting: str, wanted: str) -> str:
    """Give the turn to one of two golfers and return that golfer's fitting.

    Raises
    ------
    InputError
        If the wanted fitting is not one of the two.
    """
    opened = studio.store.fitting(fitting).value
    if wanted not in {opened.id, opened.partner}:
        raise InputError(
            "that golfer does not take turns here",
            place="to",
            mend="Name the second golfer on the golfer's page.",
        )
    version = studio.store.hitting(opened.bay).version
    switch_golfer(studio, wanted, version=version)
    for one in (opened.id, opened.partner):
        if one is not None:
            record = studio.record(one)
            studio.hub.publish(topic(one), record[-1].sequence if record else 0)
    return wanted


def another_day(studio: Studio, fitting: str, *, by: str = "", key: str = "") -> FittingNow:
    """Open another visit under the conditions of the last one.

    Raises
    ------
    ConflictError
        If the fitting is closed or was never begun.
    """
    now = studio.standing(fitting)
    if now.closed or now.visit is None:
        raise ConflictError(
            "this fitting is closed" if now.closed else "no visit was opened yet",
            place=fitting,
            mend="Open it again first." if now.closed else "Open the first one from the plan.",
        )
    return open_visit(
        studio,
        fitting,
        device=replace(now.visit.device),
        strip=now.strip,
        by=by,
        key=key,
    )


def closing_of(studio: Studio, fitting: str) -> int | None:
    """Return the sequence of the newest act that closed a fitting."""
    closings = (
        entry.sequence
        for entry in reversed(studio.record(fitting))
        if isinstance(entry.act, Closed)
    )
    return next(closings, None)

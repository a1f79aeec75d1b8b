"""The day as its page shows it: who needs what now, the bays over the hours, the next things."""

from dataclasses import dataclass
from datetime import datetime, time, tzinfo
from math import ceil

from loftwright.bay.now import FittingNow
from loftwright.report.bay_words import BayFacts, bay_sentence
from loftwright.report.day_picture import Booking, Stage, day_picture
from loftwright.report.numbers import count
from loftwright.report.theme_svg import for_screen
from loftwright.services.bay_now import BayNow
from loftwright.services.day import DonePage, FittingDone, FittingToday, Need
from loftwright.services.settings import show_of
from loftwright.web.views.plan import planned_clubs

LAST_MINUTE = time(23, 59)


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """What one golfer needs next, with one thing to do about it."""

    name: str
    where: str
    words: str
    act: str
    path: str
    invented: bool
    lead: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneRow:
    """A closed fitting."""

    name: str
    day: str
    words: str
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayView:
    """The day's page.

    Attributes
    ----------
    rows : tuple of NextRow
        What each golfer needs, the first the one that the sentence speaks of.
    done : tuple of DoneRow
        Fittings of earlier days.
    """

    sentence: str
    lead: str
    day: str
    bays: str
    picture: str
    rows: tuple[NextRow, ...]
    done: tuple[DoneRow, ...]
    empty_rack: bool


def today_view(
    fittings: tuple[FittingToday, ...],
    done: DonePage,
    bays: tuple[str, ...],
    now: datetime,
    *,
    empty_rack: bool,
) -> TodayView:
    """Return the day's page.

    Parameters
    ----------
    fittings : tuple of FittingToday
        Those that need somebody soonest first.
    done : DonePage
    bays : tuple of str
    now : datetime
        In the shop's zone.
    empty_rack : bool
    """
    rows = tuple(_row(one, lead=place == 0) for place, one in enumerate(fittings))
    bookings = [booking for one in fittings if (booking := _booking(one, now)) is not None]
    busy = {one.fitting.bay for one in fittings if one.need is Need.BAY}
    free = sum(bay not in busy for bay in bays)
    return TodayView(
        sentence=_sentence(fittings),
        lead=_lead(fittings, empty_rack=empty_rack),
        day=f"{now:%A}, {now.day} {now:%B}",
        bays=f"{count(free, 'bay')} free." if free else "Every bay is in use.",
        picture=for_screen(day_picture(bookings, bays, now=now.time())),
        rows=rows,
        done=tuple(
            _done_row(one)
            for one in done.fittings
            if one.fitting.id not in {x.fitting.id for x in fittings}
        ),
        empty_rack=empty_rack,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneView:
    """What stands about the list of fittings done before.

    Attributes
    ----------
    words : str
        Where nothing stands in it, why.
    newest : bool
        Whether these are not the newest.
    older : str
        The fitting before which there are older ones; empty where there are none.
    find : bool
        Whether there is enough to look for a name in.
    """

    words: str
    newest: bool
    older: str
    find: bool


def done_view(done: DonePage, *, find: str, before: str) -> DoneView:
    """Return how one goes on from some of the fittings done before."""
    asked = bool(find.strip())
    last = done.fittings[-1].fitting.id if done.fittings else ""
    words = "No fitting done before is of a golfer with this name." if asked else ""
    return DoneView(
        words="" if done.fittings else words,
        newest=bool(before),
        older=last if done.more else "",
        find=bool(asked or before or done.more),
    )


def _done_row(one: FittingDone) -> DoneRow:
    words = f"{count(one.clubs, 'club')}, {count(one.balls, 'ball')}"
    return DoneRow(
        name=one.name,
        day=f"{one.day.day} {one.day:%B %Y}",
        words=words,
        path=f"/fittings/{one.fitting.id}/report",
    )


def first_name(name: str) -> str:
    """Return how a golfer is called in a sentence."""
    return name.split(maxsplit=1)[0]


def _sentence(fittings: tuple[FittingToday, ...]) -> str:
    open_ones = [one for one in fittings if one.need is not Need.DONE]
    if not open_ones:
        if fittings:
            return "Everything of today is done. The bench is yours."
        return "Nothing is booked today. The bench is yours."
    told = [_told(one) for one in open_ones[:2]]
    return f"{'; '.join(told)}."


def _told(one: FittingToday) -> str:
    name = first_name(one.name)
    if one.bay is not None:
        return f"{name} {_left(one.bay)}"
    return {
        Need.START: f"{name} is planned and waits for the first swing",
        Need.PLAN: f"{name} waits for a plan",
        Need.DAY: f"{name}’s fitting is open for another day",
    }[one.need]


def _left(bay: BayNow) -> str:
    balls, seconds = bay.pace.balls_left, bay.pace.seconds_left
    if bay.now.pain:
        return "said that it hurts and swings no more today"
    if not balls:
        return "has hit every planned ball"
    minutes = "" if seconds is None else f"{count(ceil(seconds / 60.0), 'minute')} and "
    return f"has {minutes}{count(balls, 'ball')} left"


def _lead(fittings: tuple[FittingToday, ...], *, empty_rack: bool) -> str:
    if fittings:
        return ""
    if empty_rack:
        return (
            "A first fitting needs a golfer, one shaft in the rack and some way for shots to "
            "come in; a keyboard will do."
        )
    return "A fitting needs a name and a hand to begin."


def _row(one: FittingToday, *, lead: bool) -> NextRow:
    at = f"/fittings/{one.fitting.id}"
    if one.now is None:
        words, act, path = "Closed today. The report is ready.", "Report", f"{at}/report"
    else:
        words, act, path = _next(one, one.now, at)
    return NextRow(
        name=one.name,
        where=_where(one),
        words=words,
        act=act,
        path=path,
        invented=one.fitting.invented,
        lead=lead and one.need is not Need.DONE,
    )


def _next(one: FittingToday, now: FittingNow, at: str) -> tuple[str, str, str]:
    """Return what an open fitting needs, and the one act with its page."""
    if one.bay is not None:
        waiting = len(now.waiting)
        marks = "" if not waiting else f" {count(waiting, 'mark')} wait for a ball."
        marks = marks.replace("1 mark wait ", "1 mark waits ")
        return _bay_words(one.bay) + marks, "Go to the bay", f"{at}/bay"
    if one.need is Need.PLAN:
        return "Nothing is planned yet: choose clubs from the rack.", "Plan", f"{at}/plan"
    if one.need is Need.START:
        clubs = len(planned_clubs(now.plan.plan)) if now.plan is not None else 0
        balls = now.plan.plan.balls if now.plan is not None else 0
        words = (
            f"{count(clubs, 'club')} and {balls} balls are planned: ask about pain, then start."
        )
        return words, "Start", f"{at}/plan"
    words = f"{count(len(now.balls), 'ball')} so far. Open another visit, or close it."
    return words, "Another day", f"{at}/plan"


def _bay_words(bay: BayNow) -> str:
    facts = BayFacts(
        now=bay.now,
        next=bay.next,
        pace=bay.pace,
        proposed=bay.proposed,
        decision=bay.evidence.decision,
        ask_club=bay.ask_club,
        show=show_of(bay.settings),
    )
    return bay_sentence(facts).say


def _where(one: FittingToday) -> str:
    bay, now = one.fitting.bay, one.now
    if one.bay is not None and now is not None and now.plan is not None:
        hit = len(now.balls) - now.plan.swings_before
        return f"{bay}, {hit} of {now.plan.plan.balls} balls hit"
    if one.need is Need.DAY and now is not None and now.visit is not None:
        day = now.visit.day
        return f"{bay}, last here on {day.day} {day:%B}"
    return bay


def _booking(one: FittingToday, now: datetime) -> Booking | None:
    """Return today's visit over its hours, kept within the day."""
    if one.begins is None:
        return None
    begins = _clock(one.begins, now)
    ends = _clock(one.ends, now) if one.ends is not None else LAST_MINUTE
    if one.need is Need.BAY:
        ends = max(ends, now.time().replace(second=0, microsecond=0))
    if ends <= begins:
        minute = begins.hour * 60 + begins.minute
        if minute >= 23 * 60 + 59:
            return None
        ends = time((minute + 1) // 60, (minute + 1) % 60)
    stage = Stage.DONE if one.need is Need.DONE else Stage.NOW
    return Booking(
        bay=one.fitting.bay, name=first_name(one.name), start=begins, end=ends, stage=stage
    )


def _clock(at: datetime, now: datetime) -> time:
    local = at.astimezone(_zone(now))
    if local.date() != now.date():
        return LAST_MINUTE if local.date() > now.date() else time(0, 0)
    return local.time().replace(second=0, microsecond=0)


def _zone(now: datetime) -> tzinfo | None:
    return now.tzinfo

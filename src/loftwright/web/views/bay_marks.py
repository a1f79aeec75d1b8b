"""The face with its marks, and the marks that wait for a ball."""

from dataclasses import dataclass
from typing import Final

from loftwright.bay.mends import joinable
from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.device import Origin
from loftwright.domain.names import OWN
from loftwright.report.face_picture import FaceMark, face_picture, face_words, strike_words
from loftwright.report.marks import Mark, deal_marks
from loftwright.report.numbers import count
from loftwright.report.theme_svg import for_screen
from loftwright.services.bay_now import BayNow
from loftwright.services.last_ball import last_ball
from loftwright.web.views.bay_taps import Tap, bar_view

SET_OF_MARKS: Final = 3
MOST_MARKS: Final = 80
"""Marks drawn on the face, the newest; what is said of it counts them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceView:
    """The face to tap.

    Attributes
    ----------
    last : str
        Where the newest mark is.
    svg : str
        Drawn by this program.
    set_balls : str
        The balls of a set whose marks are tapped in unknown order, newest last.
    """

    last: str
    svg: str
    words: str
    set_balls: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingMark:
    """A mark in the tray."""

    club: str
    words: str
    drop: Tap


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitView:
    """The tray.

    Attributes
    ----------
    head : str
    note : str
    """

    head: str
    note: str
    marks: tuple[WaitingMark, ...]
    taps: tuple[Tap, ...]


def face_view(bay: BayNow, *, turned: bool) -> FaceView:
    """Return the face of a fitting's bay.

    Parameters
    ----------
    bay : BayNow
    turned : bool
        As the fitter holds the club.
    """
    marks = face_marks(bay.now)
    hand = bay.golfer.hand
    newest = marks[-MOST_MARKS:]
    drawn = face_picture(newest, hand=hand, turned=turned, in_hand=bay.now.in_hand, prefix="face")
    last = marks[-1] if marks else None
    where = "none yet" if last is None else strike_words(last.toe, last.high)
    return FaceView(
        last=f"last: {where}",
        svg=for_screen(drawn),
        words=face_words(marks, hand=hand, turned=turned),
        set_balls=",".join(str(one.sequence) for one in set_balls(bay.now)),
    )


def face_marks(now: FittingNow, *, newest_only: bool = False) -> list[FaceMark]:
    """Return every strike that was marked or measured, then the marks that wait.

    Parameters
    ----------
    now : FittingNow
    newest_only : bool
        Only the last ball's, if it has one.
    """
    shapes = deal_marks([club.name for club in now.clubs], OWN)
    swings = [one for one in now.swings if not one.not_ours and one.club in shapes]
    if newest_only:
        newest = last_ball(now)
        swings = [one for one in swings if newest and one.sequence == newest.sequence]
    marks = [mark for one in swings for mark in _strike(now, one, shapes[one.club or ""])]
    waiting = [
        FaceMark(
            club=one.club,
            shape=shapes[one.club],
            toe=one.mark.toe,
            high=one.mark.high,
            error=one.mark.error,
            waiting=True,
        )
        for one in now.waiting
        if one.club in shapes
    ]
    return marks if newest_only else [*marks, *waiting]


def _strike(now: FittingNow, swing: Swing, shape: Mark) -> list[FaceMark]:
    """Return where a ball was struck if anybody or anything saw it."""
    club = swing.club or ""
    if swing.mark is not None:
        mark = swing.mark
        return [FaceMark(club=club, shape=shape, toe=mark.toe, high=mark.high, error=mark.error)]
    told, device = swing.numbers, now.visits[swing.visit].device
    measured = all(
        device.origins.get(name) is Origin.MEASURED for name in ("strike toe", "strike high")
    )
    if told is None or told.strike_toe is None or told.strike_high is None or not measured:
        return []
    return [
        FaceMark(
            club=club,
            shape=shape,
            toe=told.strike_toe,
            high=told.strike_high,
            error=device.mark_error,
        )
    ]


def set_balls(now: FittingNow) -> tuple[Swing, ...]:
    """Return the newest balls of the club in hand that have no mark, a set at most."""
    found: list[Swing] = []
    here = len(now.visits) - 1
    for one in reversed(now.swings):
        if one.not_ours:
            continue
        bare = one.mark is None and one.mark_set is None
        if one.visit != here or one.club != now.in_hand or not bare:
            break
        found.insert(0, one)
        if len(found) == SET_OF_MARKS:
            break
    return tuple(found)


def short_words(toe: float, high: float) -> str:
    """Return a place on the face [m] in millimetres without saying so: `13 toe, 9 high`."""
    return strike_words(toe, high).replace(" mm", "")


def wait_view(bay: BayNow) -> WaitView:
    """Return the tray of marks that wait, with what mends it."""
    now = bay.now
    waiting = now.waiting
    if not waiting:
        return WaitView(head=_of_last(now), note="", marks=(), taps=())
    balls = joinable(now)
    # The bar has the button too, but for moments when it asks for something else.
    in_bar = any(tap.act == "not-read" for tap in bar_view(bay, None).right)
    taps = [] if in_bar else [Tap(act="not-read", words="Hit, not read", key="n")]
    if len(balls) == len(waiting):
        numbers = ", ".join(str(one.number) for one in balls)
        taps.append(
            Tap(
                act="join",
                words=f"Join to {numbers}",
                fields={
                    "marks": ",".join(str(one.sequence) for one in waiting),
                    "balls": ",".join(str(one.sequence) for one in balls),
                },
                key="j",
            )
        )
    marks = tuple(
        WaitingMark(
            club=one.club or "",
            words=one.mark.words or short_words(one.mark.toe, one.mark.high),
            drop=Tap(act="drop-mark", words="Drop", fields={"mark": str(one.sequence)}),
        )
        for one in waiting
    )
    verb = "waits" if len(waiting) == 1 else "wait"
    return WaitView(
        head=f"{count(len(waiting), 'mark')} {verb} for a ball",
        note="A ball was hit and not read, or a mark was tapped twice.",
        marks=marks,
        taps=tuple(taps),
    )


def _of_last(now: FittingNow) -> str:
    ball = last_ball(now)
    if ball is None:
        return "No mark waits."
    name = f"Ball {ball.number}" if ball.number else "The last ball"
    if ball.mark is None:
        return f"{name} has no mark yet."
    where = ball.mark.words or strike_words(ball.mark.toe, ball.mark.high)
    if ball.mark_set is not None:
        return f"{name} has one of its set's marks, in unknown order."
    return f"{name}: {where}."

"""The last ball: its numbers in words and its flight over the golfer's own hole."""

from dataclasses import dataclass
from math import isfinite
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.outside import rule_of
from loftwright.bay.setups import set_up_of
from loftwright.domain.club_kind import Told
from loftwright.domain.home import Home
from loftwright.domain.names import OWN
from loftwright.evidence.result import Decision
from loftwright.report.ball_flight import ball_flight
from loftwright.report.flown_ball import FlownBall, Outline, flight_words
from loftwright.report.marks import OWN_MARK, deal_marks
from loftwright.report.runs import tied
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.bay_now import BayNow
from loftwright.services.last_ball import (
    FlownSwing,
    earlier_finishes,
    flight_path,
    flown,
    hole_of,
    last_ball,
)

NO_FLIGHT: Final = (
    "No flight is drawn: ball speed, launch and spin are not all known of this ball, or it "
    "cannot have flown."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FlyView:
    """The last ball.

    Attributes
    ----------
    head : str
    figures : str
        What it did, in words.
    svg : str
        Drawn by this program; empty where no flight can be drawn.
    words : str
        What the picture shows, or why there is none.
    ball : int, optional
        Sequence under which it entered the record; None before the first ball.
    """

    head: str
    figures: str
    svg: str
    words: str
    ball: int | None = None


def fly_view(bay: BayNow, show: Show) -> FlyView:
    """Return the last ball of a fitting's bay, with the balls before it.

    Parameters
    ----------
    bay : BayNow
    show : Show
    """
    earlier = earlier_finishes(bay.now, bay.golfer.home)
    return last_flight(
        bay.now,
        bay.golfer.home,
        bay.evidence.decision,
        show,
        earlier=earlier,
        outline=_outline(bay.now, bay.evidence.decision),
    )


def last_flight(
    now: FittingNow,
    home: Home,
    decision: Decision | None,
    show: Show,
    *,
    earlier: tuple[tuple[float, float], ...] = (),
    outline: Outline | None = None,
    named: bool = True,
) -> FlyView:
    """Return the last ball's flight and figures.

    Parameters
    ----------
    now : FittingNow
    home : Home
    decision : Decision, optional
    show : Show
    earlier : tuple of (float, float)
        Finishes of earlier balls, along and to the right [m].
    outline : Outline, optional
        The shared pattern about one club's mean.
    named : bool
        Whether the club is named.
    """
    ball = last_ball(now)
    hole = hole_of(home, decision)
    metres = show.units == "metric"
    if ball is None or ball.numbers is None:
        drawn = ball_flight(None, hole, hole_name=home.name, metres=metres, prefix="flight")
        words = flight_words(None, hole, metres=metres)
        return FlyView(head="No ball yet", figures="", svg=for_screen(drawn), words=words)
    rule = rule_of(now, ball.club, Told.FLIGHT)
    swing = flown(ball.numbers, home) if rule.may else None
    flight = _flown_ball(ball, swing, home, named=named)
    if flight is None:
        return FlyView(
            head=_head(ball, named=named),
            figures=figures(ball, swing, show, as_read=not rule.may),
            svg="",
            words=NO_FLIGHT if rule.may else f"No flight is drawn. {rule.why}",
            ball=ball.sequence,
        )
    drawn = ball_flight(
        flight,
        hole,
        earlier=earlier,
        outline=outline,
        hole_name=home.name,
        metres=metres,
        prefix="flight",
    )
    return FlyView(
        head=_head(ball, named=named),
        figures=figures(ball, swing, show),
        svg=for_screen(drawn),
        words=flight_words(flight, hole, earlier=earlier, metres=metres),
        ball=ball.sequence,
    )


def _flown_ball(
    ball: Swing, swing: FlownSwing | None, home: Home, *, named: bool
) -> FlownBall | None:
    path = flight_path(ball.numbers, home) if swing and ball.numbers else ()
    if swing is None or len(path) < 2:
        return None
    shape = deal_marks([ball.club], OWN)[ball.club] if ball.club and named else OWN_MARK
    return FlownBall(
        club=(ball.club or "no club") if named else "this club",
        shape=shape,
        path=path,
        total=swing.total,
        offline=swing.total_offline,
    )


def figures(ball: Swing, swing: FlownSwing | None, show: Show, *, as_read: bool = False) -> str:
    """Return what a ball did in words, and nothing that was not measured.

    Parameters
    ----------
    ball : Swing
    swing : FlownSwing, optional
        The ball flown at home.
    show : Show
    as_read : bool
        Whether launch and spin are listed in place of a flight at home.
    """
    told = ball.numbers
    if told is None:
        return "hit, not read"
    if swing is None:
        parts = [f"ball speed {show.speed(told.ball_speed)}"] if told.ball_speed else []
        if as_read:
            parts += [f"launch {show.angle(told.launch)}"] if told.launch is not None else []
            parts += [f"spin {show.spin(told.spin)}"] if told.spin is not None else []
        parts += [f"carry {show.yards(told.carry)} as this device shows it"] if told.carry else []
        return tied(" · ".join(parts)) or "no number was read"
    parts = []
    if swing.has_side:
        started, curved = show.sideways(swing.start_offline), show.sideways(swing.curve)
        parts.append(f"started {started}, curved {curved}")
    parts.append(f"{show.height(swing.peak_height)} high")
    carry, run = show.carry_and_run(swing.carry, swing.total)
    unit = show.unit("distance").name
    parts.append(f"carry {carry} {unit}, run {run} {unit}")
    return tied(" · ".join(parts))


def _head(ball: Swing, *, named: bool) -> str:
    what = f"Ball {ball.number}" if ball.number else "Warm-up ball"
    return f"{what} with {ball.club}" if named and ball.club else what


def _outline(now: FittingNow, decision: Decision | None) -> Outline | None:
    ball = last_ball(now)
    if decision is None or decision.pattern is None or ball is None:
        return None
    label = set_up_of(ball, now)
    found = next((one for one in decision.clubs if one.club == label), None)
    if found is None or found.level is None:
        return None
    total, offline = found.level.total, found.level.offline
    if not (isfinite(total) and isfinite(offline)):
        return None
    return Outline(total=total, offline=offline, pattern=decision.pattern)

"""Clubs of a fitting that are no drivers: what the device showed of them, and why no more."""

from dataclasses import dataclass

from loftwright.bay.now import FittingNow
from loftwright.bay.outside import Outside, is_outside, outside_clubs
from loftwright.domain.club_kind import Told, kind_words, may_tell
from loftwright.report.numbers import NONE
from loftwright.report.screen_numbers import Show


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideRow:
    """One club with plain averages of its balls as the device showed them."""

    club: str
    kind: str
    balls: int
    ball_speed: str
    launch: str
    spin: str
    carry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideView:
    """Every club that is no driver, and the reasons why it is not compared."""

    rows: tuple[OutsideRow, ...]
    why: tuple[str, ...]


def outside_view(now: FittingNow, show: Show) -> OutsideView | None:
    """Return the clubs of a fitting that are no drivers; None where all are.

    Parameters
    ----------
    now : FittingNow
    show : Show
    """
    clubs = outside_clubs(now)
    if not clubs:
        return None
    why = dict.fromkeys(
        may_tell(one.kind, told).why for one in clubs for told in (Told.FLIGHT, Told.VALUE)
    )
    return OutsideView(rows=tuple(_row(one, show) for one in clubs), why=tuple(why))


def outside_balls(now: FittingNow) -> frozenset[int]:
    """Return the numbers of the balls that were hit with clubs that are no drivers."""
    clubs = {club.name for club in now.clubs if is_outside(club.card)}
    return frozenset(ball.number for ball in now.balls if ball.club in clubs)


def _row(one: Outside, show: Show) -> OutsideRow:
    return OutsideRow(
        club=one.club,
        kind=kind_words(one.kind),
        balls=one.balls,
        ball_speed=NONE if one.ball_speed is None else show.speed(one.ball_speed),
        launch=NONE if one.launch is None else show.angle(one.launch),
        spin=NONE if one.spin is None else show.spin(one.spin),
        carry=NONE if one.carry is None else show.yards(one.carry),
    )

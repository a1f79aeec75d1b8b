"""Clubs of a fitting of which less may be told than of drivers, and what is told of them.

Their balls are read, kept and counted like any others. What the device shows of them is listed;
they enter no comparison, and no ball of theirs is flown.
"""

from dataclasses import dataclass
from statistics import mean

from loftwright.bay.now import FittingNow
from loftwright.domain.club_kind import (
    Kind,
    Rule,
    Told,
    kind_of_card,
    kind_words,
    may_tell,
)
from loftwright.domain.fitting import ClubCard


@dataclass(frozen=True, slots=True, kw_only=True)
class Outside:
    """A club that is no driver, with plain averages of what the device showed.

    Attributes
    ----------
    club : str
    kind : Kind
    balls : int
        That count, warm-up and balls set aside left out.
    ball_speed, carry : float, optional
        [m s^-1, m]; the carry is the device's own.
    launch, spin : float, optional
        [rad, rad s^-1]
    """

    club: str
    kind: Kind
    balls: int
    ball_speed: float | None
    launch: float | None
    spin: float | None
    carry: float | None


def is_outside(card: ClubCard) -> bool:
    """Return whether a club is one that is not compared at home."""
    return not may_tell(kind_of_card(card), Told.VALUE).may


def rule_of(now: FittingNow, club: str | None, told: Told) -> Rule:
    """Return whether a figure may be told of a ball hit with a club.

    Parameters
    ----------
    now : FittingNow
    club : str, optional
        One that the fitting does not know, or none, counts as a driver.
    told : Told
    """
    found = now.club(club or "")
    return may_tell(Kind.DRIVER if found is None else kind_of_card(found.card), told)


def not_compared(card: ClubCard) -> str:
    """Return why a club's balls enter no comparison, in a few words."""
    return f"{kind_words(kind_of_card(card))} is not compared with drivers"


def outside_clubs(now: FittingNow) -> tuple[Outside, ...]:
    """Return the clubs of a fitting that are no drivers, in the order of their joining."""
    return tuple(
        _outside(now, club.name, kind_of_card(club.card))
        for club in now.clubs
        if not club.out and is_outside(club.card)
    )


def none_compared(now: FittingNow) -> bool:
    """Return whether balls were hit, and all of them with clubs that are no drivers."""
    clubs = {ball.club for ball in now.balls if ball.club is not None}
    known = [club for club in now.clubs if club.name in clubs and not club.out]
    return bool(known) and all(is_outside(club.card) for club in known)


def _outside(now: FittingNow, club: str, kind: Kind) -> Outside:
    told = [
        ball.numbers
        for ball in now.balls
        if ball.club == club and ball.numbers is not None and not ball.odd
    ]

    def average(name: str) -> float | None:
        values = [value for one in told if (value := getattr(one, name)) is not None]
        return mean(values) if values else None

    return Outside(
        club=club,
        kind=kind,
        balls=len(told),
        ball_speed=average("ball_speed"),
        launch=average("launch"),
        spin=average("spin"),
        carry=average("carry"),
    )

"""Conditions besides the club that differ between the balls of a comparison."""

from dataclasses import dataclass
from typing import Final

from loftwright.bay.now import FittingNow, Swing

CONDITIONS: Final = ("ball", "tee", "surface", "place", "treatment")
"""Fields of a strip, those first that move a ball most (common practice, no source)."""

WORDS: Final = {
    "ball": "the ball",
    "tee": "the tee height",
    "surface": "mat or turf",
    "place": "indoors or outdoors",
    "treatment": "what is on the face",
}
RANGE_BALL: Final = "range"
"""A ball whose name holds this is a range ball."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Confounder:
    """A condition that was not the same for every ball that is compared.

    Attributes
    ----------
    condition : str
        Field of the strip.
    values : tuple of (str, tuple of str)
        Each value with the clubs that were hit with it, in the order of play.
    apart : tuple of (str, str)
        Pairs of clubs that have no value in common, so that nobody can tell the club from the
        condition.
    since : int
        Number of the first ball with another value than the first.
    """

    condition: str
    values: tuple[tuple[str, tuple[str, ...]], ...]
    apart: tuple[tuple[str, str], ...]
    since: int

    @property
    def say(self) -> str:
        """What the fitter is told."""
        told = "; ".join(f"{value}: {', '.join(clubs)}" for value, clubs in self.values)
        what = WORDS[self.condition]
        if not self.apart:
            return f"From ball {self.since} on {what} differs ({told})."
        one, other = self.apart[0]
        return (
            f"From ball {self.since} on {what} differs ({told}): "
            f"{one} against {other} may be that and not the club."
        )


def confounders(now: FittingNow) -> tuple[Confounder, ...]:
    """Return every condition that differs between balls of the comparison.

    Parameters
    ----------
    now : FittingNow

    Returns
    -------
    tuple of Confounder
        Empty while everything that was said stayed the same. What nobody said is no doubt.
    """
    balls = [one for one in now.balls if not one.odd and _in(now, one)]
    found = (_differs(condition, balls) for condition in CONDITIONS)
    return tuple(one for one in found if one is not None)


def range_balls(now: FittingNow) -> bool:
    """Return whether a ball of the comparison is a range ball: differences yes, yards no."""
    return any(RANGE_BALL in one.strip.ball.lower() for one in now.balls)


def _in(now: FittingNow, swing: Swing) -> bool:
    club = now.club(swing.club or "")
    return club is not None and not club.out


def _differs(condition: str, balls: list[Swing]) -> Confounder | None:
    told = [(one, getattr(one.strip, condition)) for one in balls]
    told = [(one, value) for one, value in told if value]
    values = list(dict.fromkeys(value for _, value in told))
    if len(values) < 2:
        return None
    of_club: dict[str, set[str]] = {}
    for one, value in told:
        of_club.setdefault(one.club or "", set()).add(value)
    clubs = list(of_club)
    return Confounder(
        condition=condition,
        values=tuple(
            (value, tuple(club for club in clubs if value in of_club[club])) for value in values
        ),
        apart=tuple(
            (a, b)
            for place, a in enumerate(clubs)
            for b in clubs[place + 1 :]
            if not of_club[a] & of_club[b]
        ),
        since=next(one.number for one, value in told if value != values[0]),
    )

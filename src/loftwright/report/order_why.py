"""What an order rests on, one line a choice from the fitting."""

from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.evidence.result import ClubResult, Decision
from loftwright.report.feel_line import place_words
from loftwright.report.not_hit_words import made_words
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.wording import sentence

_MOSTLY = 0.5
"""Share of physics above which an estimate leans more on it than on balls."""


def why_lines(
    decision: Decision | None,
    result: ClubResult | None,
    *,
    balls: int,
    rests: str,
    feel: float | None,
    word: str,
    show: Show,
) -> tuple[str, ...]:
    """Return what an order rests on, in the words and units of the day it is quoted.

    Parameters
    ----------
    decision : Decision or None
        The comparison that the fitting came to.
    result : ClubResult or None
        What was seen of the club, or is told of it without a ball.
    balls : int
        Hit with just this club.
    rests : str
        Why it stands where it stands in the choice.
    feel : float or None
        Its place on the line of feel, 0 to 1.
    word : str
        The golfer's own word for it.
    show : Show
    """
    lines = []
    if decision is not None:
        lines.append(sentence(decision, show))
    if rests:
        told = made_words(rests, show)
        lines.append(f"{told[:1].upper()}{told[1:]}.")
    lines.append(balls_line(balls))
    if result is not None and balls and result.physics_share > _MOSTLY:
        lines.append("What is told of it leans more on physics than on its balls.")
    if feel is not None:
        lines.append(f"Feel: {place_words(feel)}" + (f", “{word}”." if word else "."))
    return tuple(lines)


def balls_line(balls: int) -> str:
    """Return how many balls were hit with just this club, and how many are asked for."""
    if not balls:
        return f"No ball was hit with just this club: {CONFIRMING_BALLS} before an order."
    told = f"{count(balls, 'ball')} hit with just this club"
    return (
        f"{told}; {CONFIRMING_BALLS} before an order." if balls < CONFIRMING_BALLS else f"{told}."
    )

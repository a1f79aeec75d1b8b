"""Words for clubs that were not hit, for keeping the own club and for what would change it."""

from collections.abc import Sequence
from typing import Final

from loftwright.constants import YARD
from loftwright.evidence.build_changes import HALF_INCH
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.evidence.result import Estimate
from loftwright.evidence.run_band import RunBand
from loftwright.evidence.what_changes import WIND, Answer
from loftwright.report.numbers import LIKELY_RANGE, listed, percent
from loftwright.report.screen_numbers import Show
from loftwright.report.wording import hedge

NOT_HIT: Final = "not hit"
HALF: Final = "half an inch"
MORE_WIND: Final = "10 mph"
NOTHING_CHANGES: Final = "Nothing that was looked at changes which club leads."
_NUMBERS: Final = {5: "five"}


def confirm_sentence(label: str, leader: str, p: float, rests: str = "") -> str:
    """Return what is asked before a club that was not hit may lead.

    Parameters
    ----------
    label, leader : str
        The club that was not hit, and the one that leads.
    p : float
        Probability that it is worth more.
    rests : str, optional
        What it rests on.
    """
    hedged = hedge(p)
    words = "perhaps " if hedged is None else hedged
    balls = _NUMBERS[CONFIRMING_BALLS]
    told = f", {rests}," if rests else ""
    return (
        f"{label} was not hit{told} and {words}scores better than {leader}: "
        f"{balls} balls with it before an order."
    )


def made_words(text: str, show: Show) -> str:
    """Return what a club that was not hit is called, or rests on, with its length in this unit."""
    return text if show.units == "trade" else text.replace(HALF, show.length(HALF_INCH))


def told_words(value: Estimate, show: Show) -> str:
    """Return what a club that was not hit is told to be worth, with its range."""
    return f"{show.yards_apart(value.mean)} ({show.yards_range(*value.interval(LIKELY_RANGE))})"


def run_words(run: RunBand, show: Show) -> str:
    """Return how far a drive runs, from soft to firm ground."""
    least, most = show.yards(run.least).split(" ")[0], show.yards(run.most)
    return most if least == most.split(" ")[0] else f"{least} to {most}"


def keep_words(p: float, show: Show) -> str:
    """Return how probably keeping the own club is right."""
    worth = show.yards(YARD) if show.units == "metric" else show.one_length
    return f"Keeping your own is right with {percent(p)}: no other is then worth {worth} more."


def change_lines(answers: Sequence[Answer], show: Show) -> list[str]:
    """Return what would change the answer, one line a change, and what would not.

    Parameters
    ----------
    answers : sequence of Answer
    show : Show

    Returns
    -------
    list of str
        Nothing where nothing was looked at.
    """
    if not answers:
        return []
    lines = []
    for answer in answers:
        if answer.gain is None or answer.p is None:
            continue
        sure = hedge(answer.p)
        close = "; too close to call" if sure is None else ""
        lines.append(
            f"{_named(answer, show).capitalize()}: {answer.after} would {sure or ''}lead, "
            f"{told_words(answer.gain, show)} on {answer.before}{close}."
        )
    same = [_named(answer, show) for answer in answers if not answer.changes]
    if not lines:
        return [NOTHING_CHANGES]
    return [*lines, f"No other leader: {listed(same)}."] if same else lines


def _named(answer: Answer, show: Show) -> str:
    name = answer.change.name
    return name if show.units == "trade" else name.replace(MORE_WIND, show.wind(WIND))

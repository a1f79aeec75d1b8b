"""What is said after a club was taken: who is asked, and what the course says of what we said."""

from datetime import date
from typing import Final

from loftwright.domain.after_acts import FollowedUp, StillPlayed
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.workshop.played import CourseResult, CourseWord

ANSWERS: Final = {
    StillPlayed.KEPT: "plays it",
    StillPlayed.CHANGED: "plays it, with something changed",
    StillPlayed.PUT_AWAY: "put it away",
    StillPlayed.RETURNED: "returned it",
    StillPlayed.NO_ANSWER: "did not answer",
}
"""How a golfer answered, after the name."""

COURSE_WORDS: Final = {
    CourseWord.AS_SAID: "as said",
    CourseWord.LESS: "less than said",
    CourseWord.MORE: "more than said",
    CourseWord.TOO_FEW: "too few to tell",
}

WHY_NOT_THE_CLUB: Final = (
    "Wind: what was said is for the wind of the home course, and most days have another.",
    "Another course: fairways there are wider or narrower, and trouble makes one aim elsewhere.",
    "Run: soft ground in spring, firm in August, and a slope where drives land.",
    "Cold and damp: a cold ball in cold air flies shorter.",
    "The ball: another kind, or an old one.",
    "Which drives were counted: a good one is measured more often than a bad one.",
    "The swing: of a long day, of the first tee, of a card to protect.",
)
"""Why a course may say other than was said, without any fault of the club."""


def day_words(day: date) -> str:
    """Return a day as it is said: `9 January 2027`."""
    return f"{day.day} {day:%B %Y}"


def ask_words(name: str, guardian: str, *, minor: bool) -> str:
    """Return who is asked: the golfer, or a minor's guardian."""
    if not minor:
        return name
    return f"{guardian}, {name}’s guardian" if guardian else f"{name}’s guardian"


def due_words(due: int) -> str:
    """Return how many golfers are to be asked; empty for none."""
    return f"{count(due, 'golfer')} {'is' if due == 1 else 'are'} due to be asked" if due else ""


def growth_words(due: int) -> str:
    """Return how many minors are to be looked at; empty for none."""
    return f"{count(due, 'growth check')} {'is' if due == 1 else 'are'} due" if due else ""


def due_sentence(due: int, not_contacted: int) -> tuple[str, str]:
    """Return the sentence of the list of those to be asked, and the line under it.

    Parameters
    ----------
    due, not_contacted : int
        How many are to be asked, and how many did not agree to it.
    """
    say = f"{due_words(due)} how the club does." if due else "Nobody is due to be asked."
    if not not_contacted:
        return say, ""
    agree = "did not agree to it and is" if not_contacted == 1 else "did not agree to it and are"
    more = "more " if due else ""
    return say, f"{count(not_contacted, f'{more}golfer', f'{more}golfers')} {agree} not contacted."


def asked_words(asked: FollowedUp, name: str) -> str:
    """Return what came of asking."""
    return f"{name} {ANSWERS[asked.answer]}"


def course_sentence(result: CourseResult, rounds: int, show: Show) -> tuple[str, str]:
    """Return what rounds say of what was said, and the line under it.

    Parameters
    ----------
    result : CourseResult
    rounds : int
        How many came in.
    show : Show
    """
    fairways, total = result.fairways, result.total
    parts = []
    if fairways is not None and fairways.word is not None:
        parts.append(("fairways", fairways.word))
    if total is not None and total.word is not None:
        parts.append(("length", total.word))
    under = _seen_words(result, rounds, show)
    if not parts:
        return "The rounds can be held against nothing that was said.", under
    words = {word for _, word in parts}
    if words == {CourseWord.TOO_FEW}:
        return "Too few rounds to tell whether the club does as was said.", under
    if words == {CourseWord.AS_SAID}:
        return "On the course the club does what was said.", under
    told = "; ".join(
        f"{name}: {COURSE_WORDS[word]}" if place else f"{name.capitalize()}: {COURSE_WORDS[word]}"
        for place, (name, word) in enumerate(parts)
    )
    return f"{told}.", under


def _seen_words(result: CourseResult, rounds: int, show: Show) -> str:
    fairways, total = result.fairways, result.total
    parts = []
    if fairways is not None:
        said = "" if fairways.said is None else f", said {show.number(fairways.said, 1)}"
        parts.append(f"{show.number(fairways.seen, 1)} fairways in 14 drives{said}")
    if total is not None:
        said = "" if total.said is None else f", said {show.yards(total.said)}"
        parts.append(f"{show.yards(total.seen)} on average{said}")
    return f"{count(rounds, 'round')}: {'; '.join(parts)}."


def range_words(low: float | None, high: float | None, show: Show, quantity: str) -> str:
    """Return a range as it stands in small type; that one round has none where it has none.

    Parameters
    ----------
    low, high : float or None
        In 14 drives, or [m].
    show : Show
    quantity : {"fairways", "distance"}
    """
    if low is None or high is None:
        return "one round: no range"
    if quantity == "fairways":
        return f"{show.number(low, 1)} to {show.number(high, 1)}"
    return f"{show.figure('distance', low)} to {show.yards(high)}"

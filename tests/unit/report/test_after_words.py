"""What is said after a club was taken, in the shop's units and of a minor's guardian."""

from datetime import date, timedelta

import pytest

from loftwright.constants import YARD
from loftwright.domain.after_acts import FollowedUp, Round, StillPlayed
from loftwright.report.after_words import (
    ANSWERS,
    COURSE_WORDS,
    ask_words,
    asked_words,
    course_sentence,
    due_sentence,
    due_words,
    range_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.workshop.played import CourseWord, course_result
from taken_clubs import PROMISE

METRIC = Show(units="metric", decimal="comma")


def sentence(
    *fairways: int, total: float | None = None, promised: bool = True, show: Show | None = None
) -> tuple[str, str]:
    rounds = tuple(
        Round(
            day=date(2026, 6, 1) + timedelta(days=place),
            course="",
            drives=14,
            fairways=one,
            total=None if total is None else total * YARD,
            measured=0 if total is None else 6,
        )
        for place, one in enumerate(fairways)
    )
    result = course_result(rounds, PROMISE if promised else None)
    return course_sentence(result, len(rounds), show or Show())


def test_every_answer_and_every_word_of_the_course_has_words() -> None:
    assert set(ANSWERS) == set(StillPlayed)
    assert set(COURSE_WORDS) == set(CourseWord)


@pytest.mark.parametrize(
    ("due", "not_contacted", "say", "under"),
    [
        (0, 0, "Nobody is due to be asked.", ""),
        (1, 0, "1 golfer is due to be asked how the club does.", ""),
        (
            2,
            1,
            "2 golfers are due to be asked how the club does.",
            "1 more golfer did not agree to it and is not contacted.",
        ),
        (
            0,
            2,
            "Nobody is due to be asked.",
            "2 golfers did not agree to it and are not contacted.",
        ),
    ],
)
def test_the_list_counts_golfers(due: int, not_contacted: int, say: str, under: str) -> None:
    assert due_sentence(due, not_contacted) == (say, under)


def test_nobody_due_is_not_told_on_today() -> None:
    assert due_words(0) == ""
    assert due_words(2) == "2 golfers are due to be asked"


def test_of_a_minor_the_guardian_is_named() -> None:
    assert ask_words("Ida", "Hedda", minor=False) == "Ida"
    assert ask_words("Ida", "Hedda", minor=True) == "Hedda, Ida’s guardian"
    assert ask_words("Ida", "", minor=True) == "Ida’s guardian"


def test_an_answer_follows_the_name() -> None:
    asked = FollowedUp(day=date(2026, 6, 1), answer=StillPlayed.PUT_AWAY)
    assert asked_words(asked, "Ida") == "Ida put it away"


def test_the_course_agrees_in_one_sentence() -> None:
    say, under = sentence(*(8, 7, 9, 8) * 3, total=240.0)
    assert say == "On the course the club does what was said."
    assert under == (
        "12 rounds: 8.0 fairways in 14 drives, said 8.0; 240 yd on average, said 240 yd."
    )


def test_the_course_disagrees_figure_by_figure() -> None:
    say, _ = sentence(*(3, 4, 3, 4) * 3, total=240.0)
    assert say == "Fairways: less than said; length: as said."
    assert len(say) <= 90


def test_too_few_rounds_are_said_to_be() -> None:
    say, under = sentence(8)
    assert say == "Too few rounds to tell whether the club does as was said."
    assert under == "1 round: 8.0 fairways in 14 drives, said 8.0."


def test_without_anything_said_rounds_are_told_alone() -> None:
    say, under = sentence(8, 7, promised=False, total=240.0)
    assert say == "The rounds can be held against nothing that was said."
    assert "said" not in under


def test_figures_follow_the_shop_s_units() -> None:
    _, under = sentence(*(8, 7, 9, 8) * 3, total=240.0, show=METRIC)
    assert under == (
        "12 rounds: 8,0 fairways in 14 drives, said 8,0; 219 m on average, said 219 m."
    )
    assert range_words(7.1, 8.9, METRIC, "fairways") == "7,1 to 8,9"
    assert range_words(210.0, 219.0, METRIC, "distance") == "210 to 219 m"
    assert range_words(None, None, METRIC, "distance") == "one round: no range"

"""A complaint in words: every finding, reason and ending has some, and none blames."""

from itertools import product

import pytest

from loftwright.constants import YARD
from loftwright.domain.after_acts import Ending, Found, Look
from loftwright.domain.check_acts import Against
from loftwright.domain.verdict import Fit
from loftwright.report.complaint_words import (
    BALLS_SAID,
    ENDINGS,
    FOUND_WORDS,
    LOOK_ASKS,
    LOOK_NAMES,
    NEXT_WORDS,
    SHEET_WORDS,
    SINCE_WORDS,
    WHAT_THEN,
    ended_words,
    part_words,
    place_words,
    suggested_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.workshop.complaint import Suggested, Why, suggested

JARGON = (
    "gauge",
    "tolerance",
    "u95",
    "swingweight",
    "sigma",
    "moment",
    "guilty",
    "fault of yours",
)


def test_everything_that_can_stand_on_the_page_has_words() -> None:
    for words in (LOOK_NAMES, LOOK_ASKS, NEXT_WORDS, FOUND_WORDS):
        assert set(words) == set(Look)
    assert all(set(words) == set(Found) for words in FOUND_WORDS.values())
    assert set(ENDINGS) == set(WHAT_THEN) == set(Ending)
    assert set(SINCE_WORDS) == set(SHEET_WORDS) == set(Fit)
    assert set(BALLS_SAID) == set(Against)
    assert len({ended_words(one) for one in Ending}) == len(Ending)


def test_every_reason_is_a_short_sentence_without_jargon() -> None:
    seen = set()
    for told in product((None, *Found), repeat=len(Look)):
        found = {look: one for look, one in zip(Look, told, strict=True) if one is not None}
        next_look = next((look for look in Look if look not in found), None)
        result = suggested(found)
        say, under = suggested_words(result, next_look, len(found))
        seen.add(result.why)
        assert say.endswith(".")
        assert len(say) <= 90
        assert not [word for word in JARGON if word in f"{say} {under}".lower()]
    assert seen == set(Why)


def test_the_next_look_is_named_while_nothing_is_settled() -> None:
    told = Suggested(ending=None, why=Why.LOOK_ON)
    assert suggested_words(told, Look.MEASURED, 0)[0] == (
        "Nothing was looked at yet: measure the club next."
    )
    assert suggested_words(told, Look.BALL, 1, "It was cold.") == (
        "Nothing is settled yet: compare the ball next.",
        "It was cold.",
    )


@pytest.mark.parametrize(
    ("together", "short", "words"),
    [
        (-6.0, 15.0, "Place and weather explain about 6 yd of the 15 yd."),
        (-17.0, 14.0, "Place and weather explain all of the 14 yd: they take about 17 yd."),
        (-6.0, None, "By place and weather the same drive is about 6 yd shorter."),
        (4.0, 15.0, "By place and weather the same drive would go about 4 yd further."),
        (0.2, 15.0, "By place and weather the same drive would go as far, to a yard."),
    ],
)
def test_what_a_place_explains(together: float, short: float | None, words: str) -> None:
    told = place_words(together * YARD, None if short is None else short * YARD, Show())
    assert told == words


def test_a_place_is_told_in_metres_where_the_shop_measures_in_them() -> None:
    show = Show(units="metric", decimal="comma")
    assert place_words(-6.0, 15.0, show) == "Place and weather explain about 6 m of the 15 m."
    parts = (("temperature", -4.25), ("turf", -2.0))
    assert (
        part_words(parts, show) == "Each by itself: the temperature −4,2 m and the ground −2,0 m."
    )
    assert part_words((), show) == "Nothing about it differs."

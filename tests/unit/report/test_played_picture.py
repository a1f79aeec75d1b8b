"""Said and seen as ranges over one rule."""

import re
from dataclasses import replace

from loftwright.constants import YARD
from loftwright.report.played_picture import (
    fairways_picture,
    fairways_words,
    total_picture,
    total_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.workshop.played import Compared, CourseWord

FAIRWAYS = Compared(
    said=8.0,
    seen=6.1,
    low=4.9,
    high=7.3,
    doubt=1.0,
    rounds=9,
    balls=117,
    word=CourseWord.TOO_FEW,
)
TOTAL = replace(
    FAIRWAYS, said=240.0 * YARD, seen=231.0 * YARD, low=226.0 * YARD, high=236.0 * YARD
)
METRIC = Show(units="metric", decimal="comma")


def letters(svg: str) -> list[str]:
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


def test_said_is_hollow_and_seen_is_filled_over_one_rule() -> None:
    svg = fairways_picture(FAIRWAYS, Show())
    circles = re.findall(r"<circle[^>]*>", svg)
    assert len(circles) == 2
    assert len({re.search(r'fill="([^"]*)"', one)[1] for one in circles}) == 2  # type: ignore[index]
    told = letters(svg)
    assert told[:4] == ["Said, and how well", "8.0", "Seen in 9 rounds", "6.1"]


def test_totals_are_drawn_in_the_shop_s_unit() -> None:
    trade, metric = total_picture(TOTAL, Show()), total_picture(TOTAL, METRIC)
    assert "240 yd" in letters(trade)
    assert "219 m" in letters(metric)
    assert "said and seen, m<" in metric


def test_what_was_never_said_is_not_drawn() -> None:
    svg = fairways_picture(replace(FAIRWAYS, said=None), Show())
    assert "Said, and how well" not in letters(svg)
    assert fairways_words(replace(FAIRWAYS, said=None), Show()).startswith("Seen 6.1, 4.9 to 7.3")


def test_one_round_has_no_picture() -> None:
    assert fairways_picture(replace(FAIRWAYS, low=None, high=None), Show()) == ""
    assert total_words(replace(TOTAL, low=None, high=None), Show()) == "Said 240 yd. Seen 231 yd."


def test_no_more_fairways_are_said_than_there_are() -> None:
    svg = fairways_picture(replace(FAIRWAYS, said=13.6, seen=13.0, low=12.5, high=13.8), Show())
    numerals = [float(one) for one in letters(svg) if re.fullmatch(r"\d+(\.\d+)?", one)]
    assert max(numerals) <= 14.0


def test_the_words_say_what_the_picture_shows() -> None:
    assert total_words(TOTAL, METRIC) == (
        "Said 219 m. Seen 211 m, 207 m to 216 m nine times in ten."
    )


def test_every_colour_has_a_token_of_the_theme() -> None:
    assert 'stroke="#' not in for_screen(total_picture(TOTAL, Show()))

"""The pages on feed, paper and sleeve say what the tables behind them hold."""

import json
import re
from math import degrees, radians

import pytest

from loftwright.domain.coarse_marks import WORDS, coarse_mark
from loftwright.intake.feed import shot_from_record
from loftwright.intake.feed_keys import EXAMPLE, KEYS, LONGEST_LINE, NUMBER_KEYS, TEXT_KEYS
from loftwright.intake.folder import TABLES
from loftwright.intake.line_order import WORDS as LINE_WORDS
from loftwright.intake.line_order import LineOrder
from loftwright.intake.sheet_rows import balls_from_sheet
from loftwright.physics.sleeve import Bore, Convention, turned
from pages import ROOT

DOCS = ROOT / "docs"


def page(name: str) -> str:
    return (DOCS / name).read_text(encoding="utf-8")


def rows(text: str) -> list[list[str]]:
    """Return the cells of every table row of a page."""
    lines = [line for line in text.splitlines() if line.startswith("| ")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def block(text: str, language: str) -> str:
    return text.partition(f"```{language}\n")[2].partition("```")[0]


def test_the_feed_page_has_every_key_with_its_limits() -> None:
    cells = rows(page("reference/feed.md"))
    listed = {row[0].strip("`"): row[1:] for row in cells if row[0].startswith("`")}
    assert [*listed] == [*TEXT_KEYS, *NUMBER_KEYS]
    assert {*listed, "read"} == set(KEYS)
    for name, key in NUMBER_KEYS.items():
        low, high, says = listed[name]
        assert (low.replace("−", "-"), high) == (f"{key.low:g}", f"{key.high:g}")
        assert says == key.says
    for name, text in TEXT_KEYS.items():
        assert listed[name] == [str(text.longest), text.says]
    assert TEXT_KEYS["line"].longest == LONGEST_LINE


def test_the_ball_on_the_feed_page_is_the_one_of_the_schema() -> None:
    shown = json.loads(block(page("reference/feed.md"), "json"))
    assert shown == dict(EXAMPLE)


def test_the_ball_that_is_posted_on_the_page_is_read() -> None:
    text = page("howto/feed-by-http.md")
    posted = json.loads(re.findall(r"--json '(.*?)'", text, re.DOTALL)[0])
    assert shot_from_record(posted).numbers.spin is not None


def test_the_refusal_on_the_page_is_what_is_said() -> None:
    said = json.loads(block(page("howto/feed-by-http.md"), "json"))["error"]
    with pytest.raises(Exception, match="mph cannot be") as caught:
        shot_from_record({"key": "1", "ball_speed_mph": 500})
    for name in ("kind", "message", "place", "mend"):
        assert getattr(caught.value, name) == said[name]


def test_the_sheet_on_the_page_is_read_in_its_true_order() -> None:
    text = block(page("howto/paper-sheet.md"), "text")
    found = balls_from_sheet(text, LineOrder(), sheet="page", clubs=("Elm", "Birch"))
    assert [(ball.number, ball.after) for ball in found] == [
        (18, 17),
        (19, 17),
        (20, 17),
        (21, 23),
    ]


def test_the_paper_page_has_every_word_for_a_mark() -> None:
    listed = {row[0]: row[1:] for row in rows(page("howto/paper-sheet.md")) if row[0] in WORDS}
    assert [*listed] == [*WORDS]
    for word, (where, error) in listed.items():
        mark = coarse_mark(word)
        size = 1000.0 * max(abs(mark.toe), abs(mark.high))
        sides = {"toe": mark.toe > 0, "heel": mark.toe < 0, "high": mark.high > 0}
        sides["low"] = mark.high < 0
        side = next((name for name, there in sides.items() if there), "")
        assert where == f"{size:.0f} {side}".strip()
        assert error == f"{1000.0 * mark.error:.0f}"


def test_the_paper_page_names_every_word_before_a_number() -> None:
    named = page("howto/paper-sheet.md").partition("Names of numbers:")[2].partition("Spin")[0]
    assert re.findall(r"`(\w+)`", named) == [*LINE_WORDS]


def test_the_folder_page_names_every_ending() -> None:
    text = page("howto/watch-a-folder.md")
    assert set(re.findall(r"`(\.\w+)`", text)) == TABLES


def test_the_sleeve_page_has_the_figures_that_are_computed() -> None:
    table = [row for row in rows(page("explanation/sleeve.md")) if row[0].isdigit()]
    assert len(table) == 6
    for azimuth, *told in table:
        bore = Bore(angle=radians(1.5), azimuth=radians(float(azimuth)))
        kept, soled, squared = (
            turned(radians(10.5), radians(58.0), 0.0, bore, one) for one in Convention
        )
        made = (kept.loft, kept.face, soled.lie, soled.face, squared.loft)
        figures = [float(cell.replace("−", "-")) for cell in told]
        assert [round(degrees(one), 3) + 0.0 for one in made] == figures

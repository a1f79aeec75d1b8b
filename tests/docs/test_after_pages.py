"""What the pages say of rounds and complaints is what the program does."""

import re
from datetime import date

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.after_acts import Look, Where
from loftwright.domain.home import Home, Turf
from loftwright.domain.order import Promise
from loftwright.domain.terms import Terms
from loftwright.services.complaint import FELT, place_effect
from loftwright.services.rounds_in import HEADINGS, MOST_ROUNDS, read_rounds
from loftwright.workshop.played import FAIRWAY_DOUBT, FEWEST_ROUNDS, TOTAL_DOUBT
from pages import ROOT

DOCS = ROOT / "docs"
COURSE = (DOCS / "explanation" / "what-the-course-said.md").read_text(encoding="utf-8")
HOWTO = (DOCS / "howto" / "follow-up.md").read_text(encoding="utf-8")
FILES = (DOCS / "reference" / "files.md").read_text(encoding="utf-8")
ROUNDS = FILES.partition("\n## Rounds\n")[2].partition("\n## ")[0]


def test_the_table_of_rounds_shown_is_read() -> None:
    block = re.search(r"```text\n(.*?)```", ROUNDS, flags=re.DOTALL)
    assert block is not None
    told = read_rounds(block[1], taken=date(2026, 5, 1), today=date(2026, 8, 1))
    assert told.refused == ()
    assert [one.course for one in told.rounds] == ["Mossy Bottom", "Gorse Hill, North"]


def test_every_heading_of_a_table_of_rounds_is_documented_and_no_other() -> None:
    rows = [line for line in ROUNDS.splitlines() if line.startswith("| `")]
    named = {name for row in rows for name in re.findall(r"`([a-z_]+)`", row.split("|")[1])}
    assert named == set(HEADINGS)
    assert f"At most {MOST_ROUNDS} rounds" in ROUNDS


def test_the_judgements_are_those_of_the_program() -> None:
    assert f"is {FAIRWAY_DOUBT:g} fairway in 14 and {TOTAL_DOUBT / YARD:g} yd of total" in COURSE
    assert f"From {FELT / YARD:g} yd on a place counts as different" in COURSE
    assert FEWEST_ROUNDS == 3
    assert "fewer than three rounds" in COURSE
    assert f"All {4 ** len(Look):,} combinations" in COURSE
    assert f"{Terms().follow_up_days} unless you" in " ".join(HOWTO.split())


def test_the_yards_that_a_place_takes_are_those_quoted() -> None:
    promise = Promise(
        home="",
        ball_speed=140.0 * MILE_PER_HOUR,
        launch=12.0 * DEGREE,
        spin=2700.0 * REVOLUTION_PER_MINUTE,
        carry=0.0,
        total=0.0,
        fairways_in_14=None,
        value=None,
    )
    high = Home(altitude=300.0)
    cold = place_effect(promise, Home(), Where(temperature=Home().temperature - 10.0))
    low = place_effect(promise, high, Where(altitude=0.0))
    soft = place_effect(promise, Home(), Where(turf=Turf.SOFT))
    text = " ".join(COURSE.split())
    assert f"loses {-cold.together / YARD:.1f} yd to 10 °C" in text
    assert f"{-low.together / YARD:.1f} yd to 300 m of altitude" in text
    assert f"and {-soft.together / YARD:.0f} yd to soft ground" in text

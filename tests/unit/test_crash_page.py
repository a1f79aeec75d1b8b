"""The page on kills is drawn from what its rounds found, every fault of them with it."""

from dataclasses import replace
from random import Random

import crash
import pytest

from crashes import Kills, Outcome

CLEAN = Outcome(moment="balls", database="SQLite", kills=10, answered=300, kept=304)
FAULTY = Outcome(moment="balls", database="SQLite", kills=2, answered=9, kept=8, half=("3", "4"))


def found(*outcomes: Outcome) -> dict[str, object]:
    """Return the results that some kills add up to."""
    results: dict[str, object] = {"rounds": 1, "done": 0, "day": "2026-11-26", "moments": {}}
    for one in outcomes:
        crash.add(results, one)
    return results


def test_the_written_page_is_the_one_that_its_results_give() -> None:
    assert crash.PAGE.read_text(encoding="utf-8") == crash.page(crash.read())


def test_what_was_lost_or_half_there_stands_in_its_row_and_in_the_total() -> None:
    text = crash.page(found(CLEAN, FAULTY))
    assert "| balls | SQLite | 12 | 309 | 312 | 0 | 0 | 2 |" in text
    assert "12 kills, 309 things answered for: 0 lost, 0 twice, 2 half there" in text


@pytest.mark.parametrize(
    "faulty", [replace(CLEAN, lost=("7",)), replace(CLEAN, doubled=("7",)), FAULTY]
)
def test_a_fault_of_any_kind_is_not_whole(faulty: Outcome) -> None:
    assert CLEAN.whole
    assert not faulty.whole


def test_children_are_killed_after_few_and_after_many_answers() -> None:
    drawn = list(Kills(count=200, most=60).drawn(Random(1)))
    answers = [0 if word == "open" else int(word) - first + 1 for first, word in drawn]
    assert len({first for first, _ in drawn}) == 200
    assert (min(answers), max(answers)) == (0, 60)
    assert sum(answers) > 200 * 24

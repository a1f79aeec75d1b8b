"""`loftwright training play`: ten cases by lines of text, the same lines giving the same balls."""

import io
from collections.abc import Callable
from typing import Any

import pytest

from commands import Cli
from loftwright.services.training_bay import plan_of
from loftwright.training.case import CasePlayer
from loftwright.training.case_files import case_named, known_cases

CASES = [case.name for case in known_cases()]
Says = Callable[..., None]


@pytest.fixture
def says(monkeypatch: pytest.MonkeyPatch) -> Says:
    """Return a function that puts lines on standard input."""

    def lines(*typed: str) -> None:
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in typed)))

    return lines


def by_plan(case: str) -> list[str]:
    """Return the lines that hit a case's whole order of play."""
    return [f"{club} {balls}" for club, balls in plan_of(CasePlayer(case_named(case))).sets]


@pytest.mark.parametrize("case", CASES)
def test_a_case_plays_through(cli: Cli, says: Says, case: str) -> None:
    says(*by_plan(case), "call close")
    outcome = cli("training", "play", case, "--json")
    assert outcome.code == 0, outcome.err
    record = outcome.record
    assert (record["case"], record["seed"]) == (case, case_named(case).seed)
    assert len(record["shots"]) == case_named(case).balls
    assert sum(not ball["read"] for ball in record["shots"]) == len(case_named(case).dropped)
    assert record["answers"] == []
    debrief: dict[str, Any] = record["debrief"]
    assert debrief["kept"] == "Own"
    assert debrief["cost_yd"] == max(club["value_yd"] for club in debrief["clubs"])
    assert debrief["plain_averages"]["pick"] is not None
    assert debrief["comparison"]["pick"] is not None
    assert debrief["lesson"]


def test_the_same_seed_and_lines_give_the_same_answer(cli: Cli, says: Says) -> None:
    lines = ("Own 3", "Ash 3", "Birch 3", "Own", "call Ash")
    outs = []
    for _ in range(2):
        says(*lines)
        outs.append(cli("training", "play", "teasel", "--seed", 5, "--json").out)
    assert outs[0] == outs[1]
    says(*lines)
    assert cli("training", "play", "teasel", "--seed", 6, "--json").out != outs[0]


def test_the_balls_of_a_club_come_in_any_order_of_the_others(cli: Cli, says: Says) -> None:
    """All but what is left of the warm-up, which is a matter of the place in the visit."""
    spins = []
    for lines in (("Own 2", "Ash 3", "Birch 4"), ("Birch 4", "Own 2", "Ash 3")):
        says(*lines, "quit")
        shots = cli("training", "play", "teasel", "--json").record["shots"]
        spins.append([one["direction_deg"] for one in shots if one["club"] == "Ash"])
    assert spins[0] == pytest.approx(spins[1], abs=0.3)


def test_a_case_is_played_in_words(cli: Cli, says: Says) -> None:
    says("own 6", "ash 6", "BIRCH 6", "compare", "call Birch")
    outcome = cli("training", "play", "larkspur")
    assert outcome.code == 0
    assert outcome.out.startswith("Prudence Larkspur (invented): ")
    assert "Order on the sheet: " in outcome.out
    assert "Best with a chance of: " in outcome.out
    assert "\nBirch was best, and you called it.\n" in outcome.out
    assert "Look at the marks before blaming a shaft" in outcome.out
    before, _, _ = outcome.out.partition("\nBirch was best")
    assert "low strikes" not in before.lower()


def test_an_unread_ball_is_said_to_be_one(cli: Cli, says: Says) -> None:
    says("Own 6", "unread", "unread", "Ash 3", "call Own")
    record = cli("training", "play", "campion", "--json").record
    assert record["shots"][5] == {"club": "Own", "read": False}
    assert record["answers"] == [
        "Written down: a ball that was hit and not read.",
        "No mark waits for a ball. Every ball was read so far.",
    ]
    assert (record["debrief"]["not_read"], record["debrief"]["said_not_read"]) == (1, 1)


@pytest.mark.parametrize(
    ("line", "answer"),
    [
        ("Oak", "There is no club 'Oak'. There are Own, Ash and Birch; help tells the rest."),
        ("Own 21", "'Own 21' is nothing that can be done. Type help for what can."),
        ("Own 0", "'Own 0' is nothing that can be done. Type help for what can."),
        ("call Oak", "There is no club 'Oak'. There are Own, Ash and Birch; help tells the rest."),
        ("call", "There is no club 'call'. There are Own, Ash and Birch; help tells the rest."),
        ("call Own", "No ball was hit yet. Let the golfer hit with two clubs."),
        ("compare", "Nothing can be compared yet."),
        ("", ""),
    ],
)
def test_a_line_that_cannot_be_done_loses_nothing(
    cli: Cli, says: Says, line: str, answer: str
) -> None:
    says(line, "Own", "quit")
    record = cli("training", "play", "larkspur", "--json").record
    expected = ([answer] if answer else []) + [
        "You left without a call; what was true stays hidden."
    ]
    assert record["answers"] == expected
    assert len(record["shots"]) == 1
    assert record["debrief"] is None


def test_no_more_balls_are_hit_than_the_case_has(cli: Cli, says: Says) -> None:
    says("Own 20", "Ash 20", "Birch", "quit")
    record = cli("training", "play", "figwort", "--json").record
    assert len(record["shots"]) == 30
    assert "The balls are spent: call a club, or that it is too close." in record["answers"]


def test_the_end_of_the_input_leaves_without_a_call(cli: Cli, says: Says) -> None:
    says("Own 2")
    outcome = cli("training", "play", "sorrel")
    assert outcome.code == 0
    assert outcome.out.endswith("You left without a call; what was true stays hidden.\n")


def test_an_unknown_case_and_a_seed_that_is_none_are_refused(cli: Cli) -> None:
    outcome = cli("training", "play", "larkspure", "--json")
    assert outcome.code == 3
    assert outcome.error["mend"].startswith("The nearest is larkspur")
    assert cli("training", "play", "larkspur", "--seed", -1).code == 3


def test_cases_are_listed_without_what_is_true(cli: Cli) -> None:
    listed = cli("training", "cases").out
    assert listed.startswith("10 cases; ")
    assert all(case in listed for case in CASES)
    record = cli("training", "cases", "--json").record
    assert [one["case"] for one in record["cases"]] == CASES
    for name in CASES:
        assert case_named(name).lesson.split(".")[0] not in listed
        assert not any(club.shaft in listed for club in case_named(name).clubs)

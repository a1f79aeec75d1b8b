"""`loftwright plan`: keys, seeds, minutes and words."""

from itertools import pairwise

import pytest

from commands import Cli

PLAN = ("plan", "--clubs", 5, "--balls", 40)


def test_keys_are_those_promised(cli: Cli) -> None:
    record = cli(*PLAN, "--seed", 3, "--json").record
    assert set(record) >= {
        "clubs",
        "sets",
        "balls",
        "minutes",
        "difference_yd",
        "balls_needed_per_club",
        "seen",
        "given_up",
        "seed",
        "warnings",
    }
    assert record["clubs"] == ["Own", "Ash", "Birch", "Cedar", "Elm"]
    assert record["balls"] == sum(one["balls"] for one in record["sets"]) == 40
    assert record["difference_yd"] == 3.0
    assert record["seed"] == 3
    order = [one["club"] for one in record["sets"]]
    assert order[0] == order[-1] == "Own"
    assert order.count("Own") >= 3
    assert all(a != b for a, b in pairwise(order))
    starts = [one["start_minute"] for one in record["sets"]]
    assert starts == sorted(starts)
    assert starts[0] >= 10.0
    assert record["minutes"] > starts[-1]


def test_balls_needed_follow_the_spread_of_the_golfer(cli: Cli) -> None:
    # n = 2 sd^2 (1.96 + 0.84)^2 / d^2 with the sd the record gives.
    for golfer in ("tour", "mid", "high"):
        record = cli(*PLAN, "--golfer", golfer, "--difference-yd", 5, "--json").record
        spread = record["scatter_yd"]["total"]
        assert record["balls_needed_per_club"] == pytest.approx(
            2.0 * spread**2 * 2.8016**2 / 25.0, abs=1.0
        )


def test_a_seed_is_kept_and_gives_the_same_plan_again(cli: Cli) -> None:
    first = cli(*PLAN, "--blind", "--json").record
    again = cli(*PLAN, "--blind", "--seed", first["seed"], "--json").record
    assert again == first
    assert first["clubs"][0] == "Own"
    other = cli(*PLAN, "--blind", "--json").record
    assert other["seed"] != first["seed"]


def test_too_few_minutes_say_what_is_given_up(cli: Cli) -> None:
    record = cli(*PLAN, "--minutes", 60, "--seed", 1, "--json").record
    assert record["minutes"] <= 60.0
    assert record["given_up"][0] == "3 clubs, not 5"
    assert record["clubs"] == ["Own", "Ash", "Birch"]
    hour = cli(*PLAN, "--minutes", "1 h", "--seed", 1, "--json").record
    assert hour == record


def test_words_lead_with_the_answer_and_hold_the_cautions(cli: Cli) -> None:
    outcome = cli(*PLAN, "--seed", 1)
    assert outcome.out.startswith("5 clubs, 40 balls, 70 minutes: ")
    assert "Pain, dizziness or a drop in speed ends the test." in " ".join(outcome.out.split())
    assert max(len(line) for line in outcome.out.splitlines()) <= 80


@pytest.mark.parametrize(
    ("arguments", "code", "place"),
    [
        (("--clubs", 5), 2, "--balls"),
        (("--clubs", "five", "--balls", 40), 2, "--clubs"),
        (("--clubs", 1, "--balls", 40), 3, "clubs"),
        (("--clubs", 5, "--balls", 4), 3, "balls"),
        (("--clubs", 5, "--balls", 40, "--minutes", 20), 3, "minutes"),
        (("--clubs", 5, "--balls", 40, "--difference-yd", 0), 3, "difference"),
        (("--clubs", 5, "--balls", 40, "--seed", -1), 2, "--seed"),
    ],
)
def test_wrong_options_name_their_place(
    cli: Cli, arguments: tuple[object, ...], code: int, place: str
) -> None:
    outcome = cli("plan", *arguments, "--json")
    assert (outcome.code, outcome.error["place"]) == (code, place)
    assert outcome.error["mend"]

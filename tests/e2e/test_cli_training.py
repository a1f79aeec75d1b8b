"""`loftwright training deal`: the same bytes, a truth that compares key by key."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from commands import Cli

Dealt = Callable[..., Path]
FIGURES = {
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "spin_rpm",
    "axis_deg",
    "carry_yd",
    "total_yd",
    "offline_yd",
}


def truth_of(shots: Path) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(shots.with_suffix(".json").read_text(encoding="utf-8"))
    return made


def test_a_seed_gives_the_same_bytes(dealt: Dealt, tmp_path: Path) -> None:
    shots = dealt()
    first = (shots.read_bytes(), shots.with_suffix(".json").read_bytes())
    shots.rename(tmp_path / "kept.csv")
    again = dealt()
    assert (again.read_bytes(), again.with_suffix(".json").read_bytes()) == first
    assert dealt(seed=8).read_bytes() != first[0]


def test_the_truth_has_every_promised_key(dealt: Dealt) -> None:
    shots = dealt("--ghosts", 2)
    truth = truth_of(shots)
    assert set(truth) >= {"seed", "golfer", "home", "clubs", "best", "balls"}
    assert truth["seed"] == 7
    assert [club["club"] for club in truth["clubs"]] == ["Own", "Ash", "Birch", "Cedar"]
    for club in truth["clubs"]:
        assert set(club["as_you_swing_it"]) == set(club["from_the_same_swing"]) == FIGURES
    assert set(truth["best"]) == {"as_you_swing_it", "from_the_same_swing"}
    assert len(truth["balls"]) == 26
    ghosts = [ball for ball in truth["balls"] if ball["ghost"]]
    assert len(ghosts) == 2
    assert all(ball["strike_toe_mm"] is None for ball in ghosts)
    lines = shots.read_text(encoding="utf-8").splitlines()
    assert [ball["row"] for ball in truth["balls"]] == list(range(2, len(lines) + 1))


def test_truth_and_reading_compare_key_by_key(cli: Cli, dealt: Dealt, tmp_path: Path) -> None:
    home = tmp_path / "home.toml"
    home.write_text(
        'name = "Invented heath"\nwind_along_mph = -4\n[[holes]]\nlength_yd = 380\n',
        encoding="utf-8",
    )
    shots = dealt("--home", home)
    truth = truth_of(shots)
    record = cli("read", shots, "--home", home, "--json").record
    assert record["against"] == truth["against"] == "own"
    assert record["home"] == truth["home"]
    true = {club["club"]: club for club in truth["clubs"]}
    for club in record["clubs"]:
        for figure in ("as_you_swing_it", "from_the_same_swing"):
            assert set(club[figure]) == set(true[club["club"]][figure])
    own = true["Own"]
    assert own["value_yd"] == 0.0
    assert set(own["as_you_swing_it"].values()) == {0.0}


def test_the_best_club_has_the_greatest_value(dealt: Dealt) -> None:
    truth = truth_of(dealt(seed=11))
    best = max(truth["clubs"], key=lambda club: club["value_yd"])
    assert truth["best"]["as_you_swing_it"] == best["club"]


def test_clubs_that_do_not_differ_have_no_truth_to_find(dealt: Dealt) -> None:
    truth = truth_of(dealt("--no-difference"))
    for club in truth["clubs"]:
        assert club["value_yd"] == 0.0
        assert set(club["as_you_swing_it"].values()) == {0.0}


def test_ball_data_alone_have_no_same_swing(dealt: Dealt) -> None:
    truth = truth_of(dealt("--device", "ball-only"))
    assert truth["best"]["from_the_same_swing"] is None
    assert all(club["from_the_same_swing"] is None for club in truth["clubs"])


def test_a_reading_never_needs_the_truth(cli: Cli, dealt: Dealt) -> None:
    shots = dealt()
    beside = cli("read", shots, "--json").record
    shots.with_suffix(".json").unlink()
    assert cli("read", shots, "--json").record == beside


def test_a_left_hander_curves_the_other_way(dealt: Dealt, tmp_path: Path) -> None:
    right = truth_of(dealt())
    kept = tmp_path / "right.csv"
    (tmp_path / "shots-7.csv").rename(kept)
    left = truth_of(dealt("--hand", "left"))
    for a, b in zip(right["clubs"], left["clubs"], strict=True):
        for key in ("direction_deg", "axis_deg", "offline_yd"):
            assert a["as_you_swing_it"][key] == pytest.approx(-b["as_you_swing_it"][key], abs=1e-6)
        assert a["value_yd"] == pytest.approx(b["value_yd"], abs=1e-6)


def test_the_home_of_the_truth_can_be_given(dealt: Dealt, tmp_path: Path) -> None:
    home = tmp_path / "home.toml"
    home.write_text('name = "High invented links"\naltitude_ft = 5000\n', encoding="utf-8")
    truth = truth_of(dealt("--home", home))
    assert truth["home"]["name"] == "High invented links"
    assert truth["home"]["altitude_ft"] == 5000.0


def test_words_and_record_name_the_files(cli: Cli, tmp_path: Path) -> None:
    out = tmp_path / "s.csv"
    words = cli("training", "deal", "--seed", 1, "--out", out)
    assert words.out == f"48 balls with 6 clubs are in {out}.\n"
    record = cli("training", "deal", "--seed", 1, "--out", out, "--json").record
    assert record["clubs"] == ["Own", "Ash", "Birch", "Cedar", "Elm", "Fir"]
    assert record["rows"] == 48
    assert record["truth"] is None


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("--seed", 1), 2),
        (("--seed", -1, "--out", "s.csv"), 3),
        (("--seed", 1, "--out", "s.csv", "--clubs", 1), 3),
        (("--seed", 1, "--out", "s.csv", "--clubs", 6, "--balls", 3), 3),
        (("--seed", 1, "--out", "s.csv", "--golfer", "pro"), 2),
        (("--seed", 1, "--out", "s.csv", "--head-speed", "500 mph"), 3),
        (("--seed", 1, "--out", "no/such/folder/s.csv"), 4),
    ],
)
def test_wrong_options_write_nothing(
    cli: Cli,
    arguments: tuple[object, ...],
    code: int,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    outcome = cli("training", "deal", *arguments, "--json")
    assert outcome.code == code
    assert outcome.error["message"]
    assert list(tmp_path.glob("*.csv")) == []


def test_the_group_alone_shows_its_commands(cli: Cli) -> None:
    outcome = cli("training")
    assert outcome.code == 2
    assert "deal" in outcome.err

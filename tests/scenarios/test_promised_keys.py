"""The keys that scripts rely on, every level of them, for every command."""

from pathlib import Path
from typing import Any

import pytest

from commands import Cli, Dealt

LAUNCH = ("ball_speed_mph", "launch_deg", "direction_deg", "spin_rpm", "axis_deg")
FIGURES = {*LAUNCH, "total_yd", "carry_yd", "offline_yd"}
PARTS = {"odd_balls", "strike", "swing", "warm_up", "club", "left_over"}
READ = {
    "sentence",
    "state",
    "ranked_on",
    "against",
    "clubs",
    "pairs",
    "odd_balls",
    "next_club",
    "next_why",
    "regret_yd",
    "rows",
    "columns",
    "claims",
    "warnings",
}
CLUB = {
    "club",
    "balls",
    "value_yd",
    "value_sd_yd",
    "p_best",
    "as_you_swing_it",
    "from_the_same_swing",
}
DEVICES = ("full", "no-marks", "ball-only", "speed-and-carry")


def keys(record: dict[str, Any], *promised: str) -> bool:
    return set(record) >= set(promised)


@pytest.mark.parametrize("device", DEVICES)
def test_read(cli: Cli, dealt: Dealt, device: str) -> None:
    shots = dealt("--device", device, "--ghosts", 2, seed=5, clubs=5, balls=40)
    record = cli("read", shots, "--json").record
    assert set(record) >= READ
    assert record["state"] in {"strong", "good_enough", "too_close", "too_few"}
    assert record["ranked_on"] in {"as_you_swing_it", "device_carry"}
    assert record["against"] in {"own", "mean"}
    assert set(record["rows"]) == {"read", "used", "odd", "refused", "duplicate"}
    assert record["odd_balls"]
    assert all(keys(ball, "row", "weight", "why") for ball in record["odd_balls"])
    assert all(keys(claim, "say", "may", "why") for claim in record["claims"])
    for column in record["columns"]:
        assert keys(column, "column", "means", "unit", "origin", "from")
        assert column["origin"] in {"measured", "calculated", "absent", "unknown"}
    for club in record["clubs"]:
        assert set(club) >= CLUB
        for figure in ("as_you_swing_it", "from_the_same_swing"):
            if club[figure] is not None:
                assert set(club[figure]) >= FIGURES
                for estimate in club[figure].values():
                    assert estimate is None or set(estimate) == {"mean", "low95", "high95"}
    clubs = [club["club"] for club in record["clubs"]]
    assert len(record["pairs"]) == len(clubs) * (len(clubs) - 1) // 2
    for pair in record["pairs"]:
        assert keys(pair, "a", "b", "p_a_better", "raw_total_yd", "parts")
        assert clubs.index(pair["a"]) < clubs.index(pair["b"])
        assert pair["parts"] is None or set(pair["parts"]) == PARTS


def test_flight(cli: Cli) -> None:
    record = cli("flight", "--ball-speed", 148, "--launch", 13.5, "--spin", 2650, "--json").record
    assert keys(
        record,
        *("carry_yd", "total_yd", "carry_offline_yd", "total_offline_yd", "peak_height_yd"),
        *("flight_time_s", "landing_angle_deg", "landing_speed_mph", "landing_spin_rpm"),
        *("bounces", "warnings"),
    )


def test_impact(cli: Cli) -> None:
    swing = ("--head-speed", 100, "--attack", 0, "--path", 0, "--face", 0, "--loft", 13)
    record = cli("impact", "--head", "reference", *swing, "--json").record
    assert keys(record, *LAUNCH, "speed_ratio", "warnings")


def test_plan(cli: Cli) -> None:
    record = cli("plan", "--clubs", 5, "--balls", 40, "--minutes", 60, "--json").record
    assert keys(
        record,
        *("clubs", "sets", "balls", "minutes", "difference_yd", "balls_needed_per_club"),
        *("seen", "given_up", "seed", "warnings"),
    )
    assert all(keys(one, "set", "club", "balls", "start_minute") for one in record["sets"])
    assert all(keys(one, "balls_per_club", "difference_yd") for one in record["seen"])
    assert record["given_up"]


def test_training_deal(cli: Cli, tmp_path: Path) -> None:
    shots = tmp_path / "s.csv"
    record = cli("training", "deal", "--seed", 7, "--out", shots, "--json").record
    assert keys(record, "seed", "clubs", "rows", "out", "truth")
    header = shots.read_text(encoding="utf-8").splitlines()[0]
    assert header == (
        "ball,time,club,ball_speed_mph,launch_deg,direction_deg,spin_rpm,axis_deg,"
        "head_speed_mph,attack_deg,path_deg,face_deg,strike_toe_mm,strike_high_mm,mark_set,read,"
        "carry_yd"
    )


def test_an_error(cli: Cli, tmp_path: Path) -> None:
    outcome = cli("read", tmp_path / "nowhere.csv", "--json")
    assert set(outcome.error) >= {"kind", "message", "place", "mend"}
    assert outcome.out == ""


def test_the_demo(cli: Cli, tmp_path: Path) -> None:
    outcome = cli("demo", "--out", tmp_path / "demo", "--json")
    assert outcome.code == 0, outcome.err
    assert set(outcome.record) >= READ

"""`loftwright flight`: keys, units, signs and refusals."""

import subprocess
import sys
from pathlib import Path

import pytest

from commands import Cli

DRIVE = ("--ball-speed", 170, "--launch", 11.5, "--spin", 2200)
KEYS = [
    "carry_yd",
    "total_yd",
    "carry_offline_yd",
    "total_offline_yd",
    "peak_height_yd",
    "flight_time_s",
    "landing_angle_deg",
    "landing_speed_mph",
    "landing_spin_rpm",
    "bounces",
    "warnings",
]


def test_defaults_and_keys_are_those_promised(cli: Cli) -> None:
    outcome = cli("flight", *DRIVE, "--json")
    assert outcome.code == 0
    assert outcome.err == ""
    record = outcome.record
    assert list(record) == KEYS
    # Self-consistent reference of the stated equations, high-order integration: 75 degF, 0 ft,
    # 50 %, calm, normal turf, drag 1, lift 1.1.
    assert record["carry_yd"] == pytest.approx(279.919, abs=0.1)
    assert record["total_yd"] == pytest.approx(310.348, abs=0.2)
    assert record["peak_height_yd"] == pytest.approx(33.595, abs=0.05)
    assert record["flight_time_s"] == pytest.approx(6.7051, abs=0.005)
    assert record["landing_angle_deg"] == pytest.approx(36.546, abs=0.05)
    assert record["landing_speed_mph"] == pytest.approx(68.045, abs=0.05)
    assert record["landing_spin_rpm"] == pytest.approx(1720.9, abs=1.0)
    assert record["bounces"] == 12


def test_every_option_reaches_the_flight(cli: Cli) -> None:
    # Self-consistent references: wind at 10 m along and across; thin warm dry air; soft ground.
    windy = cli(
        *("flight", *DRIVE, "--axis", 3, "--wind-along", 15, "--wind-across", 8, "--json")
    ).record
    assert windy["carry_yd"] == pytest.approx(300.741, abs=0.1)
    assert windy["carry_offline_yd"] == pytest.approx(15.722, abs=0.1)
    assert windy["total_offline_yd"] == pytest.approx(21.911, abs=0.1)
    high = cli(
        *("flight", "--ball-speed", 165, "--launch", 11, "--spin", 2700, "--temperature", 90),
        *("--altitude", 5280, "--humidity", 20, "--json"),
    ).record
    assert high["carry_yd"] == pytest.approx(294.232, abs=0.1)
    soft = cli(
        *("flight", "--ball-speed", 130, "--launch", 15, "--spin", 3000, "--temperature", 40),
        *("--humidity", 80, "--turf", "soft", "--json"),
    ).record
    assert soft["total_yd"] == pytest.approx(216.018, abs=0.2)
    firm = cli(
        *("flight", "--ball-speed", 170, "--launch", 12, "--spin", 2300, "--drag-scale", 0.97),
        *("--lift-scale", 1, "--turf", "firm", "--json"),
    ).record
    assert firm["total_yd"] == pytest.approx(321.383, abs=0.2)
    even = cli(
        *("flight", "--ball-speed", 160, "--launch", 12, "--spin", 2500, "--wind-along", -10),
        *("--wind-across", 5, "--roughness", 0, "--json"),
    ).record
    assert even["carry_yd"] == pytest.approx(248.748, abs=0.1)
    left = cli(
        *("flight", "--ball-speed", 140, "--launch", 13, "--spin", 2400, "--axis", -5),
        *("--direction", -3, "--json"),
    ).record
    assert left["carry_offline_yd"] == pytest.approx(-19.017, abs=0.1)


def test_a_unit_may_follow_any_number(cli: Cli) -> None:
    plain = cli("flight", *DRIVE, "--altitude", 5000, "--json").record
    worded = cli(
        *("flight", "--ball-speed", "273.5884800 km/h", "--launch", "0.2007128640 rad"),
        *("--spin", "2200 rpm", "--altitude", "1524 m", "--temperature", "23.8888889 degC"),
        "--json",
    ).record
    assert worded["carry_yd"] == pytest.approx(plain["carry_yd"], abs=1e-4)


def test_a_topped_ball_has_no_total_and_the_reason_is_a_warning(cli: Cli) -> None:
    outcome = cli("flight", "--ball-speed", 120, "--launch", -2, "--spin", 2000, "--json")
    assert outcome.code == 0
    assert outcome.record["total_yd"] is None
    assert any("no total" in warning for warning in outcome.record["warnings"])


def test_words_fit_the_terminal(cli: Cli) -> None:
    outcome = cli("flight", *DRIVE, "--wind-along", 25)
    assert outcome.out.startswith("The ball carries 3")
    assert "Mind:" in outcome.out
    assert max(len(line) for line in outcome.out.splitlines()) <= 80


@pytest.mark.parametrize(
    ("arguments", "code", "kind", "place"),
    [
        (("--launch", 3, "--spin", 3), 2, "usage", "--ball-speed"),
        ((*DRIVE, "--turf", "mud"), 2, "usage", "--turf"),
        ((*DRIVE, "--colour", "red"), 2, "usage", "loftwright flight"),
        ((*DRIVE, "--altitude", "high"), 3, "input", "--altitude"),
        ((*DRIVE, "--altitude", "30 mph"), 3, "input", "--altitude"),
        ((*DRIVE, "--temperature", "nan"), 3, "input", "--temperature"),
        ((*DRIVE, "--wind-along", 60), 3, "input", "wind"),
        ((*DRIVE, "--humidity", 150), 3, "input", "humidity"),
    ],
)
def test_wrong_options_name_their_place(
    cli: Cli, arguments: tuple[object, ...], code: int, kind: str, place: str
) -> None:
    outcome = cli("flight", *arguments, "--json")
    assert outcome.code == code
    assert outcome.out == ""
    assert outcome.error["kind"] == kind
    assert outcome.error["place"] == place
    assert outcome.error["message"]
    assert outcome.error["mend"]


def test_the_installed_command_answers() -> None:
    command = str(Path(sys.executable).with_name("loftwright"))
    asked = subprocess.run([command, "--version"], capture_output=True, text=True, check=False)
    assert asked.returncode == 0
    assert asked.stdout.startswith("loftwright ")
    wrong = subprocess.run([command, "flight"], capture_output=True, text=True, check=False)
    assert wrong.returncode == 2
    assert "--ball-speed" in wrong.stderr

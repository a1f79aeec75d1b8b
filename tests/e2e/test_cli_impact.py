"""`loftwright impact`: keys, units and heads."""

from pathlib import Path

import pytest

from commands import Cli
from loftwright.constants import MILE_PER_HOUR

KEYS = [
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "spin_rpm",
    "axis_deg",
    "speed_ratio",
    "warnings",
]
HEAD = """\
name = "Invented head"
mass_g = 200
cg_mm = [-35, 2, 0]
inertia_gcm2 = [[2600, 0, 0], [0, 4600, 0], [0, 0, 3100]]
bulge_mm = 330
roll_mm = 330
loft_deg = 10.5
lie_deg = 58
face_deg = 0
restitution = 0.82
source = "invented"
"""


def test_keys_and_the_impacts_own_axis(cli: Cli) -> None:
    outcome = cli(
        *("impact", "--head", "reference", "--head-speed", 105, "--attack", 3, "--path", 3),
        *("--face", 1, "--loft", 14, "--strike-toe", 8, "--strike-high", 5, "--json"),
    )
    assert outcome.code == 0
    record = outcome.record
    assert list(record) == KEYS
    # Self-consistent reference of the stated impact equations; the axis lies across the launch.
    assert record["ball_speed_mph"] * MILE_PER_HOUR == pytest.approx(68.3405, abs=1e-3)
    assert record["launch_deg"] == pytest.approx(13.0285, abs=1e-3)
    assert record["direction_deg"] == pytest.approx(3.0098, abs=1e-3)
    assert record["spin_rpm"] == pytest.approx(2270.1772, abs=1e-2)
    assert record["axis_deg"] == pytest.approx(-12.9921, abs=1e-3)
    assert record["speed_ratio"] == pytest.approx(1.4559, abs=1e-4)
    assert record["warnings"] == []


def test_a_unit_may_follow_any_number(cli: Cli) -> None:
    plain = cli("impact", "--head-speed", 100, "--loft", 13, "--strike-toe", 12.7, "--json")
    worded = cli(
        *("impact", "--head-speed", "44.704 m/s", "--loft", "13 deg"),
        *("--strike-toe", "0.5 in", "--json"),
    )
    for key in KEYS[:-1]:
        assert worded.record[key] == pytest.approx(plain.record[key])


def test_a_head_is_named_or_read_from_a_file(cli: Cli, tmp_path: Path) -> None:
    path = tmp_path / "head.toml"
    path.write_text(HEAD, encoding="utf-8")
    results = [
        cli("impact", "--head", head, "--head-speed", 100, "--loft", 13, "--json").record
        for head in ("reference", "published", path)
    ]
    assert len({record["ball_speed_mph"] for record in results}) == 3
    without = cli("impact", "--head", path, "--head-speed", 100, "--json").record
    stated = cli("impact", "--head", path, "--head-speed", 100, "--loft", 10.5, "--json").record
    assert without == stated
    assert path.read_text(encoding="utf-8") == HEAD


def test_lie_turns_the_start_line(cli: Cli) -> None:
    upright = cli("impact", "--head-speed", 100, "--loft", 13, "--lie", 5, "--json").record
    assert upright["direction_deg"] != pytest.approx(0.0, abs=1e-3) or upright[
        "axis_deg"
    ] != pytest.approx(0.0, abs=1e-3)


def test_words_lead_with_the_answer(cli: Cli) -> None:
    outcome = cli("impact", "--head-speed", 140, "--loft", 13)
    assert outcome.out.startswith("The ball leaves at 20")
    assert "Extrapolated: head speed 140 mph lies outside 65 to 130 mph." in outcome.out


@pytest.mark.parametrize(
    ("arguments", "code", "kind", "place"),
    [
        (("--loft", 13), 2, "usage", "--head-speed"),
        (("--head-speed", 0, "--loft", 13), 3, "input", "head speed"),
        (("--head-speed", 100, "--head", "nowhere.toml"), 4, "intake", "--head"),
        (("--head-speed", "100 deg", "--loft", 13), 3, "input", "--head-speed"),
    ],
)
def test_wrong_options_name_their_place(
    cli: Cli, arguments: tuple[object, ...], code: int, kind: str, place: str
) -> None:
    outcome = cli("impact", *arguments, "--json")
    assert (outcome.code, outcome.error["kind"], outcome.error["place"]) == (code, kind, place)


def test_an_unknown_key_of_a_head_names_the_nearest(cli: Cli, tmp_path: Path) -> None:
    path = tmp_path / "head.toml"
    path.write_text(HEAD.replace("mass_g", "mas_g"), encoding="utf-8")
    outcome = cli("impact", "--head", path, "--head-speed", 100, "--json")
    assert outcome.code in {3, 4}
    assert "mass_g" in outcome.err

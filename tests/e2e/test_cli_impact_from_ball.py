"""`loftwright impact --from-ball`: the delivery with its doubt, and honest refusals."""

import pytest

from commands import Cli

BALL = ("--ball-speed", 148, "--launch", 12, "--spin", 2600, "--axis", -3, "--direction", 1)


def test_a_ball_alone_names_no_strike(cli: Cli) -> None:
    words = cli("impact", "--from-ball", *BALL, "--head-speed", 102)
    assert words.code == 0
    assert words.out.startswith("The strike cannot be told from this ball.")
    assert "Strike to the toe" not in words.out
    record = cli("impact", "--from-ball", *BALL, "--head-speed", 102, "--json").record
    assert record["strike_told"] is False
    assert record["strike_toe_mm"] is None
    assert record["strike_high_mm"] is None
    assert record["left"]["toe"] > 0.6
    assert record["warnings"]


def test_a_mark_names_the_strike_and_sharpens_the_face(cli: Cli) -> None:
    bare = cli("impact", "--from-ball", *BALL, "--json").record
    marked = cli(
        "impact", "--from-ball", *BALL, "--strike-toe", 8, "--strike-high", -3, "--json"
    ).record
    assert marked["strike_told"] is True
    assert marked["strike_toe_mm"] == pytest.approx(8.0, abs=1.0)
    assert marked["face_deg_sd"] < 0.5 * bare["face_deg_sd"]
    assert marked["warnings"] == []


def test_what_goes_out_comes_back(cli: Cli) -> None:
    struck = cli(
        *("impact", "--head-speed", 100, "--attack", 2, "--path", 1, "--face", 0, "--loft", 13),
        *("--strike-toe", 5, "--strike-high", 2, "--json"),
    ).record
    back = cli(
        *("impact", "--from-ball", "--ball-speed", struck["ball_speed_mph"]),
        *("--launch", struck["launch_deg"], "--spin", struck["spin_rpm"]),
        *("--direction", struck["direction_deg"], "--axis", struck["axis_deg"]),
        *("--head-speed", 100, "--attack", 2, "--strike-toe", 5, "--strike-high", 2, "--json"),
    ).record
    for key, value in (("path_deg", 1.0), ("face_deg", 0.0), ("loft_deg", 13.0)):
        assert back[key] == pytest.approx(value, abs=0.5), key


@pytest.mark.parametrize(
    ("asked", "place"),
    [
        (("--launch", 12, "--spin", 2600), "--ball-speed"),
        (("--ball-speed", 148, "--spin", 2600), "--launch"),
        (("--ball-speed", 148, "--launch", 12), "--spin"),
        ((*BALL, "--strike-toe", 8), "--strike-high"),
        ((*BALL, "--device", "new"), "--device"),
    ],
)
def test_what_is_missing_is_named(cli: Cli, asked: tuple[object, ...], place: str) -> None:
    outcome = cli("impact", "--from-ball", *asked, "--json")
    assert outcome.code == 2
    assert outcome.error["place"] == place
    assert outcome.error["mend"]

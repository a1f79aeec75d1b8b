"""A left-hander is a right-hander in a mirror: same value, left and right exchanged."""

from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from commands import Cli, Dealt

MIRRORED = ("direction_deg", "axis_deg", "offline_yd")
SAME = ("ball_speed_mph", "launch_deg", "spin_rpm", "carry_yd", "total_yd")
WORDS = ("sentence", "objection", "advice", "state", "against", "next_club", "next_why")


def both(cli: Cli, dealt: Dealt, *more: object, **counts: int) -> list[dict[str, Any]]:
    """Return what is read of the same deal to a right-hander and to a left-hander."""
    found = []
    for hand in ("right", "left"):
        shots = dealt(*more, "--hand", hand, **counts)
        outcome = cli("read", shots, "--hand", hand, "--json")
        assert outcome.code == 0, outcome.err
        found.append(outcome.record)
    return found


@pytest.mark.parametrize("seed", range(1, 5))
@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
def test_a_left_hander_comes_to_the_same_decision(
    cli: Cli, dealt: Dealt, seed: int, device: str
) -> None:
    right, left = both(cli, dealt, "--device", device, seed=seed, clubs=5, balls=40)
    for key in WORDS:
        assert left[key] == right[key], key
    assert left["regret_yd"] == pytest.approx(right["regret_yd"], abs=1e-6)
    assert left["rows"] == right["rows"]
    for a, b in zip(right["clubs"], left["clubs"], strict=True):
        assert a["club"] == b["club"]
        for key in ("value_yd", "value_sd_yd", "p_best"):
            assert b[key] == pytest.approx(a[key], abs=1e-6), key
        for figure in ("as_you_swing_it", "from_the_same_swing"):
            assert (a[figure] is None) == (b[figure] is None)
            for key in SAME if a[figure] else ():
                for end in ("mean", "low95", "high95"):
                    assert b[figure][key][end] == pytest.approx(a[figure][key][end], abs=1e-6)
            for key in MIRRORED if a[figure] else ():
                one, other = a[figure][key], b[figure][key]
                assert other["mean"] == pytest.approx(-one["mean"], abs=1e-6)
                assert other["low95"] == pytest.approx(-one["high95"], abs=1e-6)


@pytest.mark.parametrize("seed", range(1, 4))
def test_marks_of_unknown_order_are_mirrored_too(cli: Cli, dealt: Dealt, seed: int) -> None:
    right, left = both(cli, dealt, "--unordered-marks", 3, seed=seed, clubs=4, balls=30)
    for a, b in zip(right["clubs"], left["clubs"], strict=True):
        assert a["club"] == b["club"]
        assert b["value_yd"] == pytest.approx(a["value_yd"], abs=1e-6)


def test_odd_balls_are_told_by_the_side_where_they_went(cli: Cli, dealt: Dealt) -> None:
    swapped = {"right": "left", "left": "right"}
    sides = 0
    for seed in range(1, 7):
        right, left = both(cli, dealt, "--ghosts", 2, seed=seed, clubs=4, balls=40)
        assert len(right["odd_balls"]) == len(left["odd_balls"]) >= 1
        for a, b in zip(right["odd_balls"], left["odd_balls"], strict=True):
            assert (b["row"], b["weight"]) == (a["row"], pytest.approx(a["weight"], abs=1e-6))
            assert b["why"].split() == [swapped.get(word, word) for word in a["why"].split()]
            sides += a["why"] != b["why"]
    assert sides


def test_the_golfers_page_says_whose_left_it_is(cli: Cli, dealt: Dealt, tmp_path: Path) -> None:
    shots = dealt("--hand", "left")
    out = tmp_path / "left.pdf"
    assert cli("read", shots, "--hand", "left", "--report", out).code == 0
    with pypdfium2.PdfDocument(out) as document:
        page = " ".join(document[0].get_textpage().get_text_range().split())
    assert "You are left-handed: left and right are as you see them." in page


def test_a_left_hander_read_as_right_handed_is_asked_about(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--hand", "left", seed=3, clubs=4, balls=40)
    outcome = cli("read", shots, "--json")
    assert outcome.code == 4
    assert len(outcome.error["doubts"]) == 3
    for doubt in outcome.error["doubts"]:
        assert "may be mirrored" in doubt["question"]
        assert "if not say --hand left" in doubt["question"]
    assert cli("read", shots, "--hand", "left", "--json").code == 0

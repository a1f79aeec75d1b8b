"""A golfer of 75 mph: the same fitting, scaled to the golfer."""

from pathlib import Path
from typing import Any

import pytest

from commands import Cli, Dealt
from dealt_fittings import fitting
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.evidence.compare import compare
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.visit import Beliefs
from loftwright.intake.table import ReadOptions, read_shots
from loftwright.report.clubs_table import clubs_table
from loftwright.services.read import balls_of
from loftwright.services.training import DealOptions

SLOW = [("--golfer", "senior"), ("--golfer", "mid", "--head-speed", 75)]
SEEDS = range(1, 7)


def record_of(cli: Cli, shots: Path) -> dict[str, Any]:
    outcome = cli("read", shots, "--json")
    assert outcome.code == 0, outcome.err
    return outcome.record


@pytest.mark.parametrize("golfer", SLOW, ids=["senior", "75 mph"])
@pytest.mark.parametrize("seed", SEEDS)
def test_the_hole_is_the_own_total_and_170_yd_more(
    cli: Cli, dealt: Dealt, golfer: tuple[object, ...], seed: int
) -> None:
    record = record_of(cli, dealt(*golfer, seed=seed, clubs=5, balls=40))
    own = next(club for club in record["clubs"] if club["club"] == "Own")
    assert record["home"]["name"] == "Standard hole"
    (hole,) = record["home"]["holes"]
    # To the next ten yards.
    assert hole["length_yd"] == pytest.approx(own["level"]["total_yd"] + 170.0, abs=5.0)
    assert hole["length_yd"] < 430.0
    score = next(claim for claim in record["claims"] if "strokes" in claim["say"])
    assert f"{hole['length_yd']:.0f} yd, the own total plus 170 yd" in score["why"]


def test_a_golfer_of_driver_length_has_the_standard_hole(cli: Cli, dealt: Dealt) -> None:
    record = record_of(cli, dealt("--golfer", "tour"))
    assert record["home"]["holes"][0]["length_yd"] == pytest.approx(430.0)
    score = next(claim for claim in record["claims"] if "strokes" in claim["say"])
    assert "one standard hole of 430 yd" in score["why"]
    assert "170" not in score["why"]


@pytest.mark.parametrize("device", ["full", "ball-only"])
def test_slopes_are_those_of_the_golfers_own_speed(dealt: Dealt, device: str) -> None:
    def believed(*golfer: object) -> Slopes:
        shots = dealt(*golfer, "--device", device, clubs=5, balls=40)
        balls = balls_of(read_shots(shots, ReadOptions()), "right", None)
        return compare(balls, Home(), Beliefs()).visit.setup.slopes

    slow, fast = believed("--golfer", "senior"), believed("--golfer", "tour")
    assert slow.delivery[0] / MILE_PER_HOUR == pytest.approx(75.0, abs=3.0)
    assert fast.delivery[0] / MILE_PER_HOUR == pytest.approx(113.0, abs=4.0)
    # The same impact turns spin with speed: what one degree of loft adds goes with head speed.
    loft_to_spin = slow.parts[2, 4] / fast.parts[2, 4]
    assert loft_to_spin == pytest.approx(75.0 / 113.0, rel=0.15)


@pytest.mark.parametrize("golfer", SLOW, ids=["senior", "75 mph"])
@pytest.mark.parametrize("seed", SEEDS)
def test_what_comes_out_is_what_such_a_golfer_hits(
    cli: Cli, dealt: Dealt, golfer: tuple[object, ...], seed: int
) -> None:
    record = record_of(cli, dealt(*golfer, seed=seed, clubs=5, balls=40))
    for club in record["clubs"]:
        level = club["level"]
        # Ball speed per club speed is 1.3 to 1.5 for a driver (common practice, no source).
        assert 75.0 * 1.3 < level["ball_speed_mph"] < 75.0 * 1.5
        assert 100.0 < level["carry_yd"] < level["total_yd"] < 215.0
        assert 0.0 < level["fairways_in_14"] < 14.0
        assert 3.0 < level["strokes_per_round"] / 14.0 < 4.5
        assert abs(club["value_yd"]) < 15.0
        assert club["value_sd_yd"] < 6.0


def test_yards_and_fairways_come_before_strokes(cli: Cli, dealt: Dealt, tmp_path: Path) -> None:
    shots = dealt("--golfer", "senior")
    words = cli("read", shots).out
    assert words.index("Total as you swing it") < words.index("fairways in 14")
    assert words.index("fairways in 14") < words.index("strokes")
    one = fitting(tmp_path, DealOptions(seed=7, clubs=4, balls=24, golfer="senior"))
    heads = [head.replace("\u00a0", " ") for head in clubs_table(one.decision)["heads"]]
    assert (
        heads.index("Total as you swing it, yd")
        < heads.index("Fairways in 14")
        < heads.index("Strokes a round")
    )


def test_the_plan_shows_cap_and_rest_and_the_big_levers_first(cli: Cli) -> None:
    outcome = cli("plan", "--clubs", 5, "--balls", 40, "--golfer", "senior", "--seed", 3)
    words = " ".join(outcome.out.split())
    assert "60 a visit" in words
    assert "Try length, loft, head and weight before shafts" in words
    assert "Pain, dizziness or a drop in speed ends the test" in words
    assert "warm-up of 10 minutes is not shortened" in words

"""Waggles and a neighbour's balls among the golfer's own: set aside, or counted for little."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from commands import Cli, Dealt
from dealt_fittings import ability_of, fittings
from loftwright.constants import YARD
from loftwright.intake.options import ReadOptions
from loftwright.services.read import read_fitting
from loftwright.services.training import DealOptions
from loftwright.training.summary import mean_of
from study_tables import Say

GHOSTS = 3
VISITS = 40
SETTLED = ("sentence", "objection", "advice", "state", "clubs", "pairs", "regret_yd", "claims")
"""Keys of a record that know nothing of the lines of a file."""


def ghosts_of(shots: Path) -> list[int]:
    """Return the rows that a person at the bay saw to be no swing of the golfer.

    A waggle is far slower than the golfer's drives; a neighbour's iron spins far more.
    """
    header, *rows = shots.read_text(encoding="utf-8").splitlines()
    speed, spin = (header.split(",").index(name) for name in ("ball_speed_mph", "spin_rpm"))
    speeds = np.array([float(row.split(",")[speed]) for row in rows])
    spins = np.array([float(row.split(",")[spin]) for row in rows])
    seen = (speeds < 0.5 * np.median(speeds)) | (spins > 1.6 * np.median(spins))
    return [int(row) + 2 for row in np.flatnonzero(seen)]


def without(shots: Path, rows: list[int]) -> Path:
    lines = shots.read_text(encoding="utf-8").splitlines()
    kept = [line for number, line in enumerate(lines, start=1) if number not in rows]
    out = shots.with_name(f"{shots.stem}-clean.csv")
    out.write_text("\n".join((*kept, "")), encoding="utf-8")
    return out


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
@pytest.mark.parametrize("marks", [0, 3])
def test_rows_set_aside_leave_the_fitting_as_if_they_had_never_been(
    cli: Cli, dealt: Dealt, device: str, marks: int
) -> None:
    shots = dealt("--ghosts", GHOSTS, "--device", device, "--unordered-marks", marks)
    ghosts = ghosts_of(shots)
    assert len(ghosts) == GHOSTS
    aside = [word for row in ghosts for word in ("--not-ours", row)]
    told = cli("read", shots, *aside, "--json").record
    clean = cli("read", without(shots, ghosts), "--json").record
    for key in SETTLED:
        assert told[key] == clean[key], key
    assert (told["next_club"], told["next_why"]) == (clean["next_club"], clean["next_why"])
    assert [ball["weight"] for ball in told["odd_balls"]] == [
        ball["weight"] for ball in clean["odd_balls"]
    ]


def test_rows_set_aside_stay_listed_with_their_reason(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--ghosts", GHOSTS)
    ghosts = ghosts_of(shots)
    aside = [word for row in ghosts for word in ("--not-ours", row)]
    record = cli("read", shots, *aside, "--json").record
    assert [row["row"] for row in record["refused_rows"]] == ghosts
    assert all(row["why"] == "not this golfer's ball, as told" for row in record["refused_rows"])
    rows = record["rows"]
    assert rows["refused"] == GHOSTS
    assert rows["read"] == rows["used"] + rows["odd"] + GHOSTS == 24 + GHOSTS
    assert not {ball["row"] for ball in record["odd_balls"]} & set(ghosts)
    words = cli("read", shots, *aside).out
    for row in ghosts:
        assert f"row {row}: not this golfer's ball, as told" in words


def test_setting_aside_can_be_taken_back(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--ghosts", GHOSTS)
    before = cli("read", shots, "--json").out
    cli("read", shots, "--not-ours", ghosts_of(shots)[0], "--json")
    assert cli("read", shots, "--json").out == before


def test_a_row_that_is_no_row_of_shots_cannot_be_set_aside(cli: Cli, dealt: Dealt) -> None:
    for row in (1, 99):
        outcome = cli("read", dealt(), "--not-ours", row, "--json")
        assert outcome.code == 4
        assert f"row {row}" in outcome.error["message"]


@cache
def left_in(device: str) -> tuple[list[float], list[float], list[float]]:
    """Return weights of ghosts left in, mean and greatest moves of value a visit [yd]."""
    weights, moves, greatest = [], [], []
    with TemporaryDirectory() as folder:
        options = DealOptions(seed=0, clubs=5, balls=40, ghosts=GHOSTS, device=device)
        for one in fittings(Path(folder), options, range(1, VISITS + 1)):
            ghosts = [ball.row for ball in one.dealt.truth.balls if ball.ghost]
            odd = {ball.row: ball.weight for ball in one.decision.odd_balls}
            refused = {row.row for row in one.reading.table.refused}
            weights += [0.0 if row in refused else odd.get(row, 1.0) for row in ghosts]
            aside = read_fitting(
                Path(folder) / f"shots-{one.seed}.csv",
                options=ReadOptions(not_ours=tuple(ghosts)),
            )
            kept = {club.club: club.value.mean for club in one.decision.clubs if club.value}
            moved = [
                abs(kept[club.club] - club.value.mean) / YARD
                for club in aside.decision.clubs
                if club.value and club.club != aside.decision.own
            ]
            moves.append(float(np.mean(moved)))
            greatest.append(max(moved))
    return weights, moves, greatest


@pytest.mark.study
@pytest.mark.xdist_group("ghosts")
@pytest.mark.parametrize("device", ["full", "ball-only"])
def test_rows_left_in_count_for_little_and_hardly_move_the_value(device: str, say: Say) -> None:
    weights, moves, greatest = left_in(device)
    mean = mean_of(moves)
    say(
        f"three ghosts left in, {device}: each counts as {np.mean(weights):.3f} of a ball at most "
        f"{max(weights):.2f}; value moves by {mean} yd, at most {max(greatest):.1f}"
    )
    assert max(weights) < 0.5
    assert np.mean(weights) < 0.1
    assert mean.mean < 0.5
    assert max(greatest) < 2.0


def test_seeds_take_the_abilities_by_turns() -> None:
    assert [ability_of(seed) for seed in (1, 2, 3, 4, 5)] == ["tour", "low", "mid", "high", "tour"]

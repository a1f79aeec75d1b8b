"""The truth file against what was read: the same keys, and ranges that hold what was true.

Only these tests look into a truth file; a reading is given the shot table and nothing else.
"""

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import numpy as np
import pytest

from commands import Cli, Dealt
from dealt_fittings import ability_of, fitting
from loftwright.report.records import decision_record
from loftwright.services.training import DealOptions, truth_record
from loftwright.training.summary import Mean, mean_of
from study_tables import Say

DEALS = 40
FIGURES = ("as_you_swing_it", "from_the_same_swing")


def truth_of(shots: Path) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(shots.with_suffix(".json").read_text(encoding="utf-8"))
    return made


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_truth_and_reading_have_the_same_keys_and_signs(
    cli: Cli, dealt: Dealt, device: str, hand: str
) -> None:
    shots = dealt("--device", device, "--hand", hand, clubs=5, balls=60)
    truth = truth_of(shots)
    shots.with_suffix(".json").unlink()
    record = cli("read", shots, "--hand", hand, "--json").record
    assert record["against"] == truth["against"]
    assert set(record["home"]) == set(truth["home"])
    true = {club["club"]: club for club in truth["clubs"]}
    assert {club["club"] for club in record["clubs"]} == set(true)
    for club in record["clubs"]:
        for figure in FIGURES:
            found, hidden = club[figure], true[club["club"]][figure]
            assert (found is None) == (hidden is None)
            if found is not None:
                assert set(found) == set(hidden)
        assert set(true[club["club"]]) <= set(club)
    assert set(truth["best"]) == set(FIGURES)


def test_the_truth_of_rows_is_that_of_the_lines_of_the_file(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--ghosts", 3, "--misreads", 4)
    truth = truth_of(shots)
    lines = shots.read_text(encoding="utf-8").splitlines()
    assert [ball["row"] for ball in truth["balls"]] == list(range(2, len(lines) + 1))
    odd = {ball["row"] for ball in cli("read", shots, "--json").record["odd_balls"]}
    ghosts = {ball["row"] for ball in truth["balls"] if ball["ghost"]}
    assert ghosts <= odd


@cache
def deals() -> list[tuple[dict[str, Any], dict[str, Any]]]:
    found = []
    with TemporaryDirectory() as folder:
        for seed in range(1, DEALS + 1):
            one = fitting(
                Path(folder), DealOptions(seed=seed, clubs=5, balls=40, golfer=ability_of(seed))
            )
            truth: dict[str, Any] = truth_record(one.dealt)
            record: dict[str, Any] = decision_record(one.decision, one.reading.table)
            found.append((record, truth))
    return found


def covered(figure: str, key: str) -> Mean:
    """Return how many differences to the own club lie in their 95 % range, per cent."""
    shares = []
    for record, truth in deals():
        true = {club["club"]: club for club in truth["clubs"]}
        hits = []
        for club in record["clubs"]:
            if club["club"] == record["own"]:
                continue
            if figure == "value":
                low, high = club["value_low95_yd"], club["value_high95_yd"]
                held = true[club["club"]]["value_yd"]
            else:
                low, high = (club[figure][key][end] for end in ("low95", "high95"))
                held = true[club["club"]][figure][key]
            hits.append(low <= held <= high)
        shares.append(100.0 * float(np.mean(hits)))
    return mean_of(shares)


@pytest.mark.study
@pytest.mark.xdist_group("hidden truth")
@pytest.mark.parametrize(
    ("figure", "key"),
    [
        ("value", "value_yd"),
        *((figure, key) for figure in FIGURES for key in ("ball_speed_mph", "spin_rpm")),
        *((figure, key) for figure in FIGURES for key in ("total_yd", "offline_yd")),
    ],
)
def test_the_ranges_of_a_file_hold_what_was_true(figure: str, key: str, say: Say) -> None:
    found = covered(figure, key)
    say(f"{DEALS} files, {key} {figure}: {found} % of differences in their 95 % range")
    assert found.mean >= 90.0


@pytest.mark.study
@pytest.mark.xdist_group("hidden truth")
def test_values_follow_the_truth(say: Say) -> None:
    slopes = []
    for record, truth in deals():
        true = {club["club"]: club["value_yd"] for club in truth["clubs"]}
        pairs = [
            (club["value_yd"], true[club["club"]])
            for club in record["clubs"]
            if club["club"] != record["own"]
        ]
        slopes.append([sum(a * b for a, b in pairs), sum(b * b for _, b in pairs)])
    agreed, whole = np.array(slopes).T
    say(
        f"{DEALS} files: values follow the truth with slope {agreed.sum() / whole.sum():.2f}, "
        "held back towards no difference as they should be"
    )
    assert 0.2 < agreed.sum() / whole.sum() < 1.1

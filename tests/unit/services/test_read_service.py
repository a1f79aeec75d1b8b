"""From a table to balls: what may explain launch, and what may not."""

from pathlib import Path

import numpy as np
import pytest

from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.shot import Shot
from loftwright.services.read import balls_of, read_fitting
from loftwright.training.deal import DealOptions, deal

PARTS = ("ball_speed", "launch", "direction", "spin", "axis")
HEADINGS = "club,ball speed mph,{head},launch rad,direction rad,spin rad/s,axis rad"


def row_of(shot: Shot, head_speed: float) -> str:
    ball_speed, *others = (getattr(shot, part) for part in PARTS)
    speeds = f"{ball_speed / MILE_PER_HOUR:.1f},{head_speed / MILE_PER_HOUR:.1f}"
    return ",".join((shot.club, speeds, *(f"{number:.5f}" for number in others)))


def table(folder: Path, heading: str, *, calculated: bool) -> Path:
    shots = deal(DealOptions(seed=8, clubs=3, balls=24, misreads=0)).shots
    path = folder / "shots.csv"
    rows = [
        row_of(shot, (shot.ball_speed or 0.0) / 1.46 if calculated else shot.head_speed or 0.0)
        for shot in shots
    ]
    path.write_text("\n".join((HEADINGS.format(head=heading), *rows)) + "\n", encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("heading", "calculated"),
    [("head speed mph", True), ("head speed mph (calculated)", False)],
    ids=["by its values", "by its heading"],
)
def test_a_calculated_head_speed_explains_nothing(
    heading: str, calculated: bool, tmp_path: Path
) -> None:
    reading = read_fitting(table(tmp_path, heading, calculated=calculated))
    assert all(club.from_the_same_swing is None for club in reading.decision.clubs)
    assert any("was calculated" in warning for warning in reading.table.warnings)
    assert np.isnan(balls_of(reading.table, "right", None).delivery).all()


def test_a_measured_head_speed_explains_launch(tmp_path: Path) -> None:
    reading = read_fitting(table(tmp_path, "head speed mph", calculated=False))
    assert all(club.from_the_same_swing is not None for club in reading.decision.clubs)
    assert reading.table.warnings == ()

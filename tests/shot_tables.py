"""Invented drives in trade units, and tables of them."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.device import Origin
from loftwright.domain.shot import Shot, ShotTable
from loftwright.intake.own_table import HEADER

Drive = dict[str, float | str]
Rows = list[list[object]]
Writer = Callable[..., Path]


def invent_drives(count: int = 24, seed: int = 1) -> list[Drive]:
    """Return drives whose starts follow face and strike as a driver's do; invented figures."""
    rng = np.random.default_rng(seed)
    clubs = ("Own", "Ash", "Birch")
    drives: list[Drive] = []
    for ball in range(count):
        toe, high = rng.normal(2.0, 9.0), rng.normal(1.0, 6.0)
        path = rng.normal(-1.0, 2.0)
        face = 0.5 * path + rng.normal(0.0, 1.5)
        head = rng.normal(101.0, 1.8)
        speed = head * (1.46 + rng.normal(0.0, 0.01)) - 0.02 * abs(toe)
        launch = rng.normal(12.5, 1.2) + 0.15 * high
        spin = rng.normal(2700.0, 250.0) - 30.0 * high
        axis = 4.0 * (face - path) - 0.4 * toe + rng.normal(0.0, 2.0)
        drives.append(
            {
                "ball": str(ball + 1),
                "club": clubs[ball // 4 % 3],
                "ball speed": round(speed, 1),
                "launch": round(launch, 1),
                "direction": round(0.8 * face + 0.2 * path + 0.12 * toe + rng.normal(0.0, 0.4), 1),
                "spin": round(spin),
                "axis": round(axis, 1),
                "head speed": round(head, 1),
                "attack": round(rng.normal(1.0, 1.2), 1),
                "path": round(path, 1),
                "face": round(face, 1),
                "strike toe": round(toe, 1),
                "strike high": round(high, 1),
                "carry": round(1.62 * speed + rng.normal(0.0, 3.0), 1),
            }
        )
    return drives


OWN_KEYS = (
    "ball speed",
    "launch",
    "direction",
    "spin",
    "axis",
    "head speed",
    "attack",
    "path",
    "face",
    "strike toe",
    "strike high",
)


def own_rows(drives: list[Drive]) -> Rows:
    rows: Rows = [list(HEADER)]
    for drive in drives:
        numbers = [drive[key] for key in OWN_KEYS]
        rows.append([drive["ball"], "", drive["club"], *numbers, "", "yes", drive["carry"]])
    return rows


def number(drive: Drive, key: str) -> float:
    value = drive[key]
    assert isinstance(value, float | int)
    return float(value)


def comma(value: float, digits: int = 1) -> str:
    return f"{value:.{digits}f}".replace(".", ",")


def sided(value: float, positive: str, negative: str) -> str:
    return f"{abs(value)} {positive if value >= 0 else negative}"


def adds_up(table: ShotTable) -> bool:
    return table.read == len(table.shots) + len(table.refused) + len(table.duplicates)


def origin_of(table: ShotTable, means: str) -> Origin:
    (found,) = {column.origin for column in table.columns if column.means == means}
    return found


def assert_same_launch(shots: tuple[Shot, ...], drives: list[Drive], rel: float = 1e-9) -> None:
    assert len(shots) == len(drives)
    for shot, drive in zip(shots, drives, strict=True):
        assert shot.club == drive["club"]
        speed, spin = number(drive, "ball speed"), number(drive, "spin")
        assert shot.ball_speed == pytest.approx(speed * MILE_PER_HOUR, rel=max(rel, 6e-4))
        assert shot.launch == pytest.approx(number(drive, "launch") * DEGREE, rel=rel)
        assert shot.spin == pytest.approx(spin * REVOLUTION_PER_MINUTE, rel=rel)

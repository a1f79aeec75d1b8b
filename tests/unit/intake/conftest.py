"""Invented drives in trade units, and tables written from them."""

from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
import pytest

Drive = dict[str, float | str]
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


@pytest.fixture
def drives() -> list[Drive]:
    return invent_drives()


@pytest.fixture
def write(tmp_path: Path) -> Writer:
    """Write rows of cells as a table and return its path."""

    def writer(
        rows: Sequence[Sequence[object]],
        *,
        delimiter: str = ",",
        encoding: str = "utf-8",
        end: str = "\n",
        name: str = "shots.csv",
    ) -> Path:
        text = "".join(delimiter.join(str(cell) for cell in row) + end for row in rows)
        path = tmp_path / name
        path.write_bytes(text.encode(encoding))
        return path

    return writer

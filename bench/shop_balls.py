"""Invented balls in the open form of the shop record, as many as are asked for."""

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.shop.record import COLUMNS, FILE, VERSION

if TYPE_CHECKING:
    import pyarrow as pa

CLUBS = 4
BALLS = 40
FITTINGS_A_PART = 1000
SHAFTS = 200
DRAWN = 250
"""Parts that are drawn; later ones are the same files under other names. No lot of sums holds two
of one file, so that sums cost what those of different balls do."""


def write_balls(folder: Path, fittings: int) -> int:
    """Write parts of a record until it holds so many fittings; return the bytes written.

    A part that is there stays, so that an interrupted run goes on.
    """
    import pyarrow.parquet as pq

    size = 0
    for number, first in enumerate(range(0, fittings, FITTINGS_A_PART)):
        place = folder / f"part={number:05d}" / FILE
        if not place.exists():
            place.parent.mkdir(parents=True, exist_ok=True)
            draft = place.with_suffix(".new")
            if number < DRAWN:
                table = balls_of(first, min(FITTINGS_A_PART, fittings - first))
                pq.write_table(table, draft, compression="zstd")
            else:
                draft.hardlink_to(folder / f"part={number % DRAWN:05d}" / FILE)
            draft.replace(place)
        size += place.stat().st_size
    return size


def balls_of(first: int, fittings: int) -> "pa.Table":
    """Return the balls of fittings that follow a number, each of 40 balls with four clubs."""
    import pyarrow as pa

    rng = np.random.default_rng(first)
    count = fittings * BALLS
    fitting = np.repeat(np.arange(first, first + fittings), BALLS)
    club = np.tile(np.arange(BALLS) % CLUBS, fittings)
    shaft = rng.integers(0, SHAFTS, (fittings, CLUBS)).repeat(BALLS // CLUBS, axis=0)
    hit = shaft.reshape(fittings, BALLS // CLUBS, CLUBS).reshape(-1)
    marked = rng.random(count) < 0.8
    toe = np.where(marked, rng.normal(2.0, 8.0, count) * MILLIMETRE, np.nan)
    high = np.where(marked, rng.normal(1.0, 6.0, count) * MILLIMETRE, np.nan)
    path, to_path = rng.normal(0.0, 2.0, (2, count))
    zero = np.zeros(count)
    columns = {
        **_texts(fitting, club, hit),
        "visit": zero.astype(np.int64),
        "order": np.tile(np.arange(BALLS), fittings),
        "ball_speed": rng.normal(150.0, 3.0, count) * MILE_PER_HOUR,
        "launch": rng.normal(12.5, 1.2, count) * DEGREE,
        "spin": rng.normal(2600.0, 300.0, count) * REVOLUTION_PER_MINUTE,
        "axis": rng.normal(0.0, 5.0, count) * DEGREE,
        "direction": rng.normal(0.0, 2.0, count) * DEGREE,
        "head_speed": rng.normal(101.0, 1.5, count) * MILE_PER_HOUR,
        "attack": rng.normal(0.0, 1.0, count) * DEGREE,
        "path": path * DEGREE,
        "face": (path + to_path) * DEGREE,
        "strike_toe": toe,
        "strike_high": high,
        "weight": rng.uniform(0.3, 1.0, count),
        **{name: zero for name in COLUMNS if name.startswith("shift_")},
    }
    return pa.table(
        {name: pa.array(columns[name], from_pandas=True) for name in COLUMNS},
        metadata={"form": f"loftwright balls {VERSION}"},
    )


def _texts(fitting: np.ndarray, club: np.ndarray, hit: np.ndarray) -> dict[str, np.ndarray]:
    def told(name: str, numbers: np.ndarray) -> np.ndarray:
        return np.char.add(name, numbers.astype(str)).astype(object)

    same = np.full(len(fitting), "", dtype=object)
    return {
        "fitting": told("fitting-", fitting),
        "golfer": told("golfer-", fitting),
        "bay": told("Bay ", fitting % 3),
        "device": told("Slate ", fitting % 2),
        **dict.fromkeys(("speed", "loading", "ability", "generation"), same),
        "club": told("club-", club),
        "head": told("head-", fitting % 7),
        "family": told("family-", hit % 20),
        "model": told("model-", hit),
        "piece": told("piece-", hit),
    }

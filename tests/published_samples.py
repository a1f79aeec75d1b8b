"""An invented shop's clubs and sums, as a comparison to publish asks for them."""

from pathlib import Path
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.shop.engine import sums_in
from loftwright.shop.publishing import Hit
from loftwright.shop.record import Recorded, keep
from shop_samples import a_fitting, shaft_effects


def a_shop(
    folder: Path, *, fittings: int, shafts: int, seed: int = 0
) -> tuple[list[dict[str, Any]], list[Hit], dict[str, FloatArray]]:
    """Return the sums, the clubs and what shafts truly do, of one golfer a fitting."""
    effects = shaft_effects(seed, shafts)
    recorded = [a_fitting(1000 * seed + one, effects) for one in range(fittings)]
    for one in recorded:
        keep(folder, one)
    rows = [dict(row) for row in sums_in(folder)]
    return rows, [hit for one in recorded for hit in hits_of(one, rows)], effects


def hits_of(recorded: Recorded, rows: list[dict[str, Any]]) -> list[Hit]:
    """Return the clubs of a fitting."""
    balls: dict[str, int] = {}
    for row in rows:
        if row["fitting"] == recorded.fitting and row["marked"]:
            balls[row["club"]] = balls.get(row["club"], 0) + int(row["n"])
    return [
        Hit(
            fitting=recorded.fitting,
            golfer=recorded.golfer,
            club=club,
            head=told.head,
            model=told.model,
            piece=told.piece,
            speed=recorded.speed,
            devices={recorded.devices[0]: balls[club]},
            balls=balls[club],
        )
        for club, told in recorded.belongs.items()
    ]


def a_hit(number: int, model: str, **more: Any) -> Hit:  # noqa: ANN401 - any field of a hit
    """Return a club of the numbered golfer's only fitting."""
    told: dict[str, Any] = {
        "fitting": f"f{number}",
        "golfer": f"g{number}",
        "club": f"club with {model}",
        "head": "H",
        "model": model,
        "piece": f"{model}-1",
        "devices": {"Slate": 10},
        "balls": 10,
    }
    return Hit(**{**told, **more})


def sd_of(covariance: FloatArray) -> FloatArray:
    """Return the standard deviations of a stack of covariances."""
    return np.sqrt(np.diagonal(covariance, axis1=-2, axis2=-1))

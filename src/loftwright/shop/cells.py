"""The sums of one fitting by club and visit, and what its golfer's mean swing was."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.columns import (
    DELIVERY,
    FEATURES,
    PARTS,
    RESPONSES,
    SWING_FEATURES,
    SWING_RESPONSES,
)

LAUNCH_FACTORS: Final = (*FEATURES, *(one.column for one in RESPONSES))
"""What the moments of launch are over, in order."""

SWING_FACTORS: Final = (*SWING_FEATURES, *(one.column for one in SWING_RESPONSES))
"""What the moments of swings are over, in order."""

_LAUNCH_PLACE: Final = LAUNCH_FACTORS.index("launch")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cell:
    """The balls of one club on one visit.

    Attributes
    ----------
    club, head : str
    visit : int
    device, bay : str
    balls : int
    launch : FloatArray, shape (P + R, P + R)
        Weighted sums of products over `LAUNCH_FACTORS`.
    swing : FloatArray, shape (9, 9)
        The same over `SWING_FACTORS`.
    shift : FloatArray, shape (5,)
        What physics and bench expect the club to change in the delivery [mph, deg].
    """

    club: str
    head: str
    visit: int
    device: str
    bay: str
    balls: int
    launch: FloatArray
    swing: FloatArray
    shift: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FittingSums:
    """Everything that is summed of a fitting's marked balls.

    Attributes
    ----------
    fitting, golfer : str
    cells : tuple of Cell
    """

    fitting: str
    golfer: str
    cells: tuple[Cell, ...]

    @property
    def clubs(self) -> tuple[str, ...]:
        """Every club that was hit, in order."""
        return tuple(sorted({cell.club for cell in self.cells}))

    @property
    def visits(self) -> tuple[int, ...]:
        """Every visit there was, in order."""
        return tuple(sorted({cell.visit for cell in self.cells}))

    @property
    def balls(self) -> int:
        """How many were summed."""
        return sum(cell.balls for cell in self.cells)

    @property
    def mean(self) -> FloatArray:
        """Weighted mean of every factor of launch, shape (P + R,)."""
        total = np.sum([cell.launch[0] for cell in self.cells], axis=0)
        return np.asarray(total / total[0])

    @property
    def launch_scatter(self) -> tuple[float, int]:
        """Variance of launch within clubs [rad^2], and its degrees of freedom."""
        square = balls = 0.0
        for cell in self.cells:
            weight, first = cell.launch[0, 0], cell.launch[0, _LAUNCH_PLACE]
            square += cell.launch[_LAUNCH_PLACE, _LAUNCH_PLACE] - first**2 / weight
            balls += cell.balls
        freedom = int(balls) - len(self.cells)
        unit = RESPONSES[1].unit
        return (square / freedom * unit**2, freedom) if freedom > 0 else (0.0, 0)

    @property
    def delivery(self) -> FloatArray:
        """Mean head speed [m/s], attack, path, face, and launch [rad], shape (5,)."""
        told = dict(zip(LAUNCH_FACTORS, self.mean, strict=True))
        read = {one.column: one.origin + told[one.column] * one.unit for one in DELIVERY}
        launch = RESPONSES[1].origin + told["launch"] * RESPONSES[1].unit
        path = read["face"] - read["face_to_path"]
        return np.array([read["head_speed"], read["attack"], path, read["face"], launch])


def fittings_of(rows: Iterable[Mapping[str, Any]]) -> tuple[FittingSums, ...]:
    """Return the sums of every fitting among rows of sums, in the order of their names.

    Parameters
    ----------
    rows : iterable of mappings
        As `sums_of` gives them; only those of marked balls are taken.

    Notes
    -----
    Robust weights are scaled to a mean of one over a fitting, as those of a multivariate t are
    at its maximum of likelihood (Kent, Tyler & Vardi 1994, A curious likelihood identity for the
    multivariate t-distribution, Communications in Statistics - Simulation 23:441, from memory),
    so that what is left is divided by the number of balls, however a record scales its weights.
    """
    by_fitting: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        if row["marked"] and row["weight"] > 0.0:
            by_fitting.setdefault(row["fitting"], []).append(row)
    return tuple(_fitting(name, by_fitting[name]) for name in sorted(by_fitting))


def scaled(fitting: FittingSums, factor: float) -> FittingSums:
    """Return a fitting whose every ball counts a factor as much.

    Parameters
    ----------
    fitting : FittingSums
    factor : float
    """
    return replace(
        fitting,
        cells=tuple(
            replace(
                cell,
                launch=frozen_array(cell.launch * factor),
                swing=frozen_array(cell.swing * factor),
            )
            for cell in fitting.cells
        ),
    )


def _fitting(name: str, rows: list[Mapping[str, Any]]) -> FittingSums:
    rows = sorted(rows, key=lambda row: (int(row["visit"]), str(row["club"]), str(row["head"])))
    made = FittingSums(
        fitting=name,
        golfer=str(rows[0]["golfer"]),
        cells=tuple(_cell(row) for row in rows),
    )
    return scaled(made, sum(int(row["n"]) for row in rows) / sum(row["weight"] for row in rows))


def _cell(row: Mapping[str, Any]) -> Cell:
    return Cell(
        club=str(row["club"]),
        head=str(row["head"] or ""),
        visit=int(row["visit"]),
        device=str(row["device"] or ""),
        bay=str(row["bay"] or ""),
        balls=int(row["n"]),
        launch=_moments(row, LAUNCH_FACTORS),
        swing=_moments(row, SWING_FACTORS),
        shift=frozen_array([row[one.column] / row["weight"] for one in PARTS]),
    )


def _moments(row: Mapping[str, Any], names: tuple[str, ...]) -> FloatArray:
    return frozen_array([[_sum(row, one, other) for other in names] for one in names])


def _sum(row: Mapping[str, Any], one: str, other: str) -> float:
    if one == "one" and other == "one":
        return float(row["weight"])
    if one == "one" or other == "one":
        return float(row[other if one == "one" else one])
    name = f"{one}__{other}"
    return float(row[name] if name in row else row[f"{other}__{one}"])

"""Invented shafts as a bench would have measured them, built from one smooth taper."""

from collections.abc import Callable
from datetime import date

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import GRAM
from loftwright.domain.profile import MeasuredProfile

DAY = date(2026, 11, 25)
STATION = np.array([0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1080, 1168]) * 1e-3
BENDING = np.array([82, 78, 72, 66, 60, 53.5, 47.5, 42, 36, 30, 26, 23.5, 22], dtype=np.float64)
"""A smooth taper (invented) [N m^2]."""


def alike(_: FloatArray) -> FloatArray | float:
    """Return the factor of a shaft that is the reference itself."""
    return 1.0


def times(factor: float) -> Callable[[FloatArray], FloatArray | float]:
    """Return what makes a shaft stiffer throughout by one factor."""

    def everywhere(_: FloatArray) -> float:
        return factor

    return everywhere


def a_profile(
    factor: Callable[[FloatArray], FloatArray | float] = alike,
    *,
    piece: str = "p1",
    noise: float = 0.01,
    blind_from: float = 2.0,
    bench: str = "Bench 1",
    scale: float = 0.0,
    grams: float | None = 60.0,
    name: str = "",
    twist: bool = True,
) -> MeasuredProfile:
    """Return a profile whose bending stiffness is the reference's times a factor by place.

    Where it is blind its error is a fifth of the stiffness.
    """
    bending = BENDING * factor(STATION)
    share = np.where(blind_from <= STATION, 0.2, noise)
    return MeasuredProfile(
        id=name or f"m-{piece}",
        piece=piece,
        day=DAY,
        bench=bench,
        conditions="300 mm span, grip off",
        station=STATION,
        bending=bending,
        bending_error=bending * share,
        twisting=0.45 * bending if twist else None,
        twisting_error=0.45 * bending * share if twist else None,
        scale_error=scale,
        mass=None if grams is None else grams * GRAM,
        mass_error=None if grams is None else 0.05 * GRAM,
        balance=0.577,
        balance_error=0.0005,
    )

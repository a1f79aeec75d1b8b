"""How far a club's average drive runs on softer and firmer ground than the golfer's home."""

from dataclasses import dataclass, replace

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.home import Home, Turf
from loftwright.evidence.flight_map import CARRY, TOTAL, conditions_at, outcomes


@dataclass(frozen=True, slots=True, kw_only=True)
class RunBand:
    """Run of the average drive [m].

    Attributes
    ----------
    least, most : float
        Over soft, normal and firm ground.
    here : float
        On the ground of the golfer's home.
    """

    least: float
    here: float
    most: float


def run_bands(launches: FloatArray, home: Home) -> tuple[RunBand | None, ...]:
    """Return how far average drives run.

    Parameters
    ----------
    launches : FloatArray, shape (S, 5)
        Of each club on average, SI.
    home : Home

    Returns
    -------
    tuple of RunBand
        None for a launch that has no total.

    Notes
    -----
    The run is that of the mean launch. Firm and soft ground are judgements.
    """
    runs = {}
    for turf in Turf:
        flown = outcomes(launches, conditions_at(replace(home, turf=turf)))
        runs[turf] = flown[:, TOTAL] - flown[:, CARRY]
    every = np.array(list(runs.values()))
    return tuple(
        RunBand(least=float(club.min()), here=float(here), most=float(club.max()))
        if np.isfinite(club).all()
        else None
        for club, here in zip(every.T, runs[home.turf], strict=True)
    )

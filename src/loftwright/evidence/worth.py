"""The clubs at home: totals, value, their doubts and the contrasts that are shown."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import BoolArray, FloatArray
from loftwright.domain.home import Home
from loftwright.evidence.figures import Figure
from loftwright.evidence.flight_map import CARRY, OFFLINE, TOTAL, FlightMap
from loftwright.evidence.result import Estimate, Figures, Level
from loftwright.evidence.scales import LAUNCH_NAMES, SHAPE
from loftwright.evidence.value import (
    Drives,
    best_finish,
    fairways_in_14,
    strokes_per_round,
    value,
    value_gradient,
)
from loftwright.physics.flight import Conditions, fly_many


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtHome:
    """One figure flown at home.

    Attributes
    ----------
    outcomes : FloatArray, shape (S, 3)
        Mean carry, total and offline [m].
    gradients : FloatArray, shape (S, 3, 5)
    spread : FloatArray, shape (3,)
        The sd of single balls, one for all clubs.
    """

    figure: Figure
    outcomes: FloatArray
    gradients: FloatArray
    spread: FloatArray

    def drives(self, club: int) -> Drives:
        """Return how a club's drives finish."""
        return Drives(
            total=float(self.outcomes[club, TOTAL]),
            offline=float(self.outcomes[club, OFFLINE]),
            total_sd=float(self.spread[TOTAL]),
            offline_sd=float(self.spread[OFFLINE]),
        )


def at_home(figure: Figure, flights: FlightMap, scatter: FloatArray) -> AtHome:
    """Fly a figure at home through the local map."""
    return AtHome(
        figure=figure,
        outcomes=flights.mean(figure.launches, scatter),
        gradients=flights.gradients(figure.launches),
        spread=flights.spread(scatter),
    )


def values(home: Home, flown: AtHome) -> tuple[FloatArray, FloatArray]:
    """Return every club's value [m] and the covariance of the values.

    Returns
    -------
    value : FloatArray, shape (S,)
    covariance : FloatArray, shape (S, S)
    """
    clubs = len(flown.outcomes)
    level = np.array([value(home, flown.drives(club)) for club in range(clubs)])
    slopes = np.array([value_gradient(home, flown.drives(club)) for club in range(clubs)])
    ways = np.einsum("so,sol->sl", slopes, flown.gradients[:, [TOTAL, OFFLINE]])
    return level, np.einsum("sl,sltm,tm->st", ways, flown.figure.covariance, ways)


def reference(clubs: int, own: int | None, rankable: BoolArray) -> FloatArray:
    """Return the weights of the clubs in what all are compared with, shape (S,).

    The own club if it may be ranked, else the mean of the clubs that may, else of all.
    """
    if own is not None and rankable[own]:
        return np.eye(clubs)[own]
    able = rankable if rankable.any() else np.ones(clubs, dtype=np.bool_)
    return able / able.sum()


def contrast_matrix(weights: FloatArray) -> FloatArray:
    """Return the matrix that takes levels to differences from the reference."""
    return np.eye(len(weights)) - weights


def estimates(mean: FloatArray, covariance: FloatArray, df: float) -> list[Estimate]:
    """Return one estimate per entry."""
    spread = np.sqrt(np.maximum(np.diag(covariance), 0.0))
    return [Estimate(mean=float(m), sd=float(s), df=df) for m, s in zip(mean, spread, strict=True)]


def figures(
    flown: AtHome, contrast: FloatArray, present: tuple[int, ...], df: float
) -> list[Figures]:
    """Return every club's differences in launch and outcome from the reference.

    Parameters
    ----------
    flown : AtHome
    contrast : FloatArray, shape (S, S)
        From `contrast_matrix`.
    present : tuple of int
        Launch numbers that the device gives.
    df : float
        Degrees of freedom of the ranges.
    """
    launches = contrast @ flown.figure.launches
    covariance = flown.figure.covariance
    found: list[dict[str, Estimate]] = [{} for _ in contrast]
    for place in present:
        block = contrast @ covariance[:, place, :, place] @ contrast.T
        for club, estimate in enumerate(estimates(launches[:, place], block, df)):
            found[club][LAUNCH_NAMES[place]] = estimate
    differences = contrast @ flown.outcomes
    shaped = set(present) >= SHAPE
    for name, place in (("carry", CARRY), ("total", TOTAL), ("offline", OFFLINE)):
        if name == "offline" and not shaped:
            continue
        ways = flown.gradients[:, place]
        block = contrast @ np.einsum("sl,sltm,tm->st", ways, covariance, ways) @ contrast.T
        for club, estimate in enumerate(estimates(differences[:, place], block, df)):
            found[club][name] = estimate
    return [Figures(**one) for one in found]


def levels(
    home: Home, flown: AtHome, conditions: Conditions, present: tuple[int, ...]
) -> list[Level]:
    """Return where each club's average drive goes at home.

    Without direction and axis nothing is known of the side: what rests on it is not a number.
    """
    flights = fly_many(flown.figure.launches, conditions)
    shaped = 1.0 if set(present) >= SHAPE else np.nan
    found = []
    for club, launch in enumerate(flown.figure.launches):
        drives = flown.drives(club)
        start = float(flights.carry[club] * np.sin(launch[4]))
        found.append(
            Level(
                **dict(zip(LAUNCH_NAMES, launch.tolist(), strict=True)),
                carry=float(flown.outcomes[club, CARRY]),
                total=drives.total,
                offline=shaped * drives.offline,
                start_offline=shaped * start,
                curve=shaped * (float(flights.carry_offline[club]) - start),
                peak_height=float(flights.peak_height[club]),
                landing_angle=float(flights.landing_angle[club]),
                fairways_in_14=shaped * fairways_in_14(home, drives),
                strokes_per_round=shaped * strokes_per_round(home, drives),
                aim=shaped * (best_finish(home, drives) - drives.offline),
            )
        )
    return found

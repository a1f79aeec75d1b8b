"""Balls that count for less, and what is odd in them."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.model import Fit
from loftwright.evidence.result import OddBall
from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.visit import Setup

ODD_BELOW: Final = 0.5
"""A ball whose t weight is lower is called odd."""
SET_ASIDE: Final = "set aside by the fitter"

_WORDS: Final = {
    "ball_speed": ("ball speed", "much higher", "much lower"),
    "launch": ("launch", "much higher", "much lower"),
    "spin": ("spin", "much more", "much less"),
    "axis": ("spin axis", "much further right", "much further left"),
    "direction": ("start direction", "much further right", "much further left"),
}


def odd_balls(setup: Setup, fit: Fit) -> tuple[OddBall, ...]:
    """Return the balls with a t weight below one half and those set aside, by their rows.

    Parameters
    ----------
    setup : Setup
    fit : Fit
        Of the launch model.

    Returns
    -------
    tuple of OddBall
        With the weight as a share of an ordinary ball's, and the launch number that fits worst
        to the other four, the swing and the club. A ball set aside has no weight.
    """
    balls, data = setup.balls, setup.launch_rows
    tail_df = setup.launch_prior.tail_df
    responses = setup.columns.responses
    residuals = np.nan_to_num(data.responses - fit.fitted(data), nan=0.0)
    found = []
    for ball in np.flatnonzero(fit.weights < ODD_BELOW):
        rows = np.flatnonzero(data.ball == ball)
        row = rows[np.argmax(fit.probability[rows])]
        noise = data.classes[data.noise[row]]
        seen = np.flatnonzero(noise.observed)
        ordinary = (tail_df + len(seen)) / tail_df
        scale = fit.residual[np.ix_(seen, seen)]
        found.append(
            OddBall(
                row=int(balls.row[ball]),
                weight=float(fit.weights[ball] / ordinary),
                why=_worst(residuals[row][seen], scale, seen, responses),
            )
        )
    return tuple(sorted((*found, *set_aside(setup.aside)), key=lambda odd: odd.row))


def set_aside(aside: Balls) -> tuple[OddBall, ...]:
    """Return balls that a fitter set aside as odd balls without weight."""
    return tuple(OddBall(row=int(row), weight=0.0, why=SET_ASIDE) for row in aside.row)


def _worst(
    residual: FloatArray, scale: FloatArray, seen: np.ndarray, responses: tuple[int, ...]
) -> str:
    precision = np.linalg.inv(scale)
    surprise = precision @ residual / np.sqrt(np.diag(precision))
    worst = int(np.argmax(np.abs(surprise)))
    name, more, less = _WORDS[LAUNCH_NAMES[responses[seen[worst]]]]
    way = more if surprise[worst] > 0.0 else less
    return f"{name} {way} than this swing and club make likely"

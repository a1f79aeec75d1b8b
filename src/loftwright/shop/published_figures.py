"""Figures of a comparison as they leave the shop: flown, with ranges, rounded."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.home import Home
from loftwright.evidence.flight_map import conditions_at, flight_map
from loftwright.evidence.slopes import slopes_at
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.shop.cells import FittingSums
from loftwright.shop.columns import RESPONSES
from loftwright.shop.contrasts import Contrasts, as_swung, as_swung_belief, contrasts, same_swing
from loftwright.shop.physics_start import nothing_beyond
from loftwright.shop.population import learn
from loftwright.shop.publishing import Chosen, Question

WAYS: Final = ("same_swing", "as_swung")
"""From the same swing, and as golfers swing it."""
QUANTITIES: Final = (*(one.column for one in RESPONSES), "total")
_UNITS: Final[FloatArray] = frozen_array([one.unit for one in RESPONSES])

_ROUNDS: Final = 12
"""Passes in which slopes are learned: they only have to serve the differences."""

STANDARD_SWINGS: Final[Mapping[str, FloatArray]] = {
    name: frozen_array([speed * MILE_PER_HOUR, 0.0, 0.0, 0.0, loft * DEGREE])
    for name, speed, loft in (
        ("", 93.0, 14.5),
        ("slow", 76.0, 16.5),
        ("middle", 93.0, 14.5),
        ("fast", 108.0, 13.0),
    )
}
"""By speed of golfers: head speed, attack, path, face and dynamic loft at which totals are flown
(judgement)."""

STEPS: Final[Mapping[str, float]] = {
    "ball_speed": 0.1 * MILE_PER_HOUR,
    "launch": 0.1 * DEGREE,
    "spin": 10.0 * REVOLUTION_PER_MINUTE,
    "axis": 0.1 * DEGREE,
    "direction": 0.1 * DEGREE,
    "total": 0.5 * YARD,
}
"""What published figures are rounded to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One difference from the reference, rounded, in SI and the golfer's signs.

    Attributes
    ----------
    model, way, quantity : str
    best : float
    likely, wide : tuple of float
        Ranges of 80 and 95 in 100.
    """

    model: str
    way: str
    quantity: str
    best: float
    likely: tuple[float, float]
    wide: tuple[float, float]

    @property
    def apart(self) -> bool:
        """Whether the model can be told from the reference, 95 in 100."""
        return self.wide[0] > 0.0 or self.wide[1] < 0.0


def figures_of(
    fittings: Sequence[FittingSums],
    chosen: Chosen,
    question: Question,
    others: Sequence[FittingSums] = (),
) -> tuple[Figure, ...]:
    """Return every figure of a comparison, models in the question's order.

    Parameters
    ----------
    fittings : sequence of FittingSums
        The chosen clubs alone.
    chosen : Chosen
        Without refusals.
    question : Question
    others : sequence of FittingSums
        All fittings of golfers who agreed: slopes are learned from these and from physics.
    """
    swing = STANDARD_SWINGS[question.golfers]
    belief = learn(same_swing(others), nothing_beyond(swing), rounds=_ROUNDS)
    swung = as_swung(fittings)
    found = {
        "same_swing": contrasts(same_swing(fittings), chosen, question, belief),
        "as_swung": contrasts(swung, chosen, question, as_swung_belief(swung, belief, swing)),
    }
    return tuple(
        figure
        for place, model in enumerate(found["same_swing"].models)
        for way in WAYS
        for figure in _figures(found[way], place, (model, way), swing)
    )


def rounded(value: float, step: float) -> float:
    """Return a value at the nearest step; nought has no sign."""
    return round(value / step) * step + 0.0


def _figures(
    told: Contrasts, place: int, names: tuple[str, str], swing: FloatArray
) -> tuple[Figure, ...]:
    model, way = names
    mean, covariance = told.means[place], told.covariance[place]
    total, doubt = _flown(mean, covariance, swing)
    best = [*(mean * _UNITS), total]
    sd = [*(np.sqrt(np.diag(covariance)) * _UNITS), doubt]
    likely, wide = _student(told.golfers[place] - 1)
    return tuple(
        Figure(
            model=model,
            way=way,
            quantity=quantity,
            best=rounded(best[one], step),
            likely=(
                rounded(best[one] - likely * sd[one], step),
                rounded(best[one] + likely * sd[one], step),
            ),
            wide=(
                rounded(best[one] - wide * sd[one], step),
                rounded(best[one] + wide * sd[one], step),
            ),
        )
        for one, (quantity, step) in enumerate(STEPS.items())
    )


def _flown(mean: FloatArray, covariance: FloatArray, swing: FloatArray) -> tuple[float, float]:
    """Return by how much a standard drive's total changes, and its doubt [m]."""
    origin = slopes_at(swing, REFERENCE_HEAD).origin
    about = flight_map(origin, [0, 1, 2, 3, 4], conditions_at(Home()))
    calm = np.zeros((5, 5))
    launches = np.array([origin, origin + mean * _UNITS])
    totals = about.mean(launches, calm)[:, 1]
    slope = about.gradients(launches)[1, 1] * _UNITS
    return float(totals[1] - totals[0]), float(np.sqrt(slope @ covariance @ slope))


def _student(freedom: int) -> tuple[float, float]:
    """Return half widths of 80 and 95 in 100, in standard errors over so few golfers."""
    from scipy.stats import t  # noqa: PLC0415 - scipy is slow to import

    return float(t.ppf(0.9, freedom)), float(t.ppf(0.975, freedom))

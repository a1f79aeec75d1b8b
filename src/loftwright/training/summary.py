"""Averages over simulated fittings, with standard errors clustered by fitting."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.training.judging import Outcome
from loftwright.training.truth_study import StudyFitting


@dataclass(frozen=True, slots=True, kw_only=True)
class Mean:
    """A mean over fittings and its standard error."""

    mean: float
    error: float

    def __str__(self) -> str:
        return f"{self.mean:.3f} (s.e. {self.error:.3f})"


def mean_of(per_fitting: Sequence[float] | FloatArray) -> Mean:
    """Return the mean over fittings of one number each."""
    values = np.asarray(per_fitting, dtype=np.float64)
    return Mean(mean=float(values.mean()), error=float(values.std(ddof=1) / np.sqrt(len(values))))


def coverage(fittings: Sequence[StudyFitting], name: str, place: int | None = None) -> Mean:
    """Return a share in range over the budgets of each fitting, in per cent.

    Parameters
    ----------
    fittings : sequence of StudyFitting
    name : str
        Of the outcome's share.
    place : int, optional
        Launch number, for shares that have one each.
    """

    def share(outcome: Outcome) -> float:
        found = getattr(outcome, name)
        return float(found if place is None else found[place])

    return mean_of(
        [100.0 * float(np.mean([share(o) for o in one.model.outcomes])) for one in fittings]
    )


def gain(fittings: Sequence[StudyFitting], model: int, averaged: int) -> Mean:
    """Return how many yards less the model's pick gives up than that of plain averages.

    Parameters
    ----------
    fittings : sequence of StudyFitting
    model, averaged : int
        Budgets, by place, after which the two are taken.
    """
    return mean_of(
        [(one.plain[averaged, 0] - one.model.outcomes[model].regret) / YARD for one in fittings]
    )


def declared_share(fittings: Sequence[StudyFitting]) -> Mean:
    """Return the pairs declared at 0.95, per cent of all pairs."""
    return mean_of(
        [
            100.0
            * sum(o.declared for o in one.model.outcomes)
            / sum(o.pairs for o in one.model.outcomes)
            for one in fittings
        ]
    )

"""Averages over simulated fittings, with standard errors clustered by fitting."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.training.study import Outcome

Say = Callable[[str], None]
"""Adds a line to the figures printed at the end of the run."""

ABILITIES = ("tour", "low", "mid", "high", "senior")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A mean over fittings and its standard error."""

    mean: float
    error: float

    def __str__(self) -> str:
        return f"{self.mean:.3f} (s.e. {self.error:.3f})"


def figure(per_fitting: Sequence[float] | FloatArray) -> Figure:
    values = np.asarray(per_fitting, dtype=np.float64)
    return Figure(
        mean=float(values.mean()), error=float(values.std(ddof=1) / np.sqrt(len(values)))
    )


def coverage(fittings: list[list[Outcome]], name: str, place: int | None = None) -> Figure:
    """Average a share in range over the budgets of each fitting, in per cent."""
    return figure(
        [
            100.0
            * float(
                np.mean(
                    [
                        getattr(outcome, name) if place is None else getattr(outcome, name)[place]
                        for outcome in budgets
                    ]
                )
            )
            for budgets in fittings
        ]
    )


def gain(fittings: list[list[Outcome]], model: int, raw: int) -> Figure:
    """Yards that the model's pick after one budget gives up less than averages after another."""
    return figure([(one[raw].raw_regret - one[model].regret) / YARD for one in fittings])


def declared_share(fittings: list[list[Outcome]]) -> Figure:
    """Pairs declared at 0.95, per cent of all pairs."""
    return figure(
        [100.0 * sum(o.declared for o in one) / sum(o.pairs for o in one) for one in fittings]
    )

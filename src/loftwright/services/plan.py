"""Plan a fitting: draw the seed that shuffles it, and keep the seed."""

import secrets
from dataclasses import dataclass

import numpy as np

from loftwright.errors import UsageError
from loftwright.evidence.plan import Plan, PlanRequest, make_plan
from loftwright.evidence.power import SCATTER

__all__ = ["SCATTER", "PlanRequest", "PlannedFitting", "plan_fitting"]

MOST_SEED = 2**32


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedFitting:
    """A plan and the seed that gives it again."""

    plan: Plan
    seed: int


def plan_fitting(request: PlanRequest, seed: int | None = None) -> PlannedFitting:
    """Return a shuffled plan.

    Parameters
    ----------
    request : PlanRequest
    seed : int, optional
        Gives the same plan again; drawn anew without it, so that no order becomes a habit.

    Returns
    -------
    PlannedFitting
    """
    if seed is not None and seed < 0:
        raise UsageError(f"{seed} cannot be a seed", place="--seed", mend="Give 0 or more.")
    chosen = secrets.randbelow(MOST_SEED) if seed is None else seed
    return PlannedFitting(plan=make_plan(request, np.random.default_rng(chosen)), seed=chosen)

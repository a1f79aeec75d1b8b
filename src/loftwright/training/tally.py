"""What many fittings of the truth study come to: means with standard errors, and bins."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import YARD
from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.training.plain_methods import PLAIN
from loftwright.training.truth_study import BUDGETS

POOLED: Final = (20, 40, 60)
"""Balls over which coverage is pooled."""

BINS: Final = (0.0, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
"""Edges between which the chance said of the leader is compared with how often it was right."""

LINES: Final = ("swung", "same")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """Fittings of one scenario, of one ability or all.

    Attributes
    ----------
    fittings : int
    means, errors : mapping of str to float
        Of each figure over fittings, by its name; not a number where a figure does not exist.
    bins : tuple of (int, float, float)
        States, mean chance said of the leader and share in which it was the best club, between
        the edges of `BINS`.
    wrong, declared : int
        Pairs declared at 60 balls: those of them with the wrong sign, and all.
    """

    fittings: int
    means: Mapping[str, float]
    errors: Mapping[str, float]
    bins: tuple[tuple[int, float, float], ...]
    wrong: int
    declared: int

    def get(self, name: str) -> tuple[float, float]:
        """Return a figure and its standard error."""
        return self.means[name], self.errors[name]


def tally(records: Sequence[Mapping[str, Any]]) -> Tally:
    """Return what fittings come to.

    Parameters
    ----------
    records : sequence of mapping
        From `to_record`; two or more.
    """
    figures = [_figures(record) for record in records]
    names = list(figures[0])
    table = np.array([[one[name] for name in names] for one in figures], dtype=np.float64)
    seen = np.isfinite(table)
    count = seen.sum(axis=0)
    mean = np.where(seen, table, 0.0).sum(axis=0) / np.maximum(count, 1)
    square = np.where(seen, (table - mean) ** 2, 0.0).sum(axis=0) / np.maximum(count - 1, 1)
    error = np.sqrt(square / np.maximum(count, 1))
    none = count == 0
    last = [record["model"]["outcomes"][-1] for record in records]
    return Tally(
        fittings=len(records),
        means=dict(zip(names, np.where(none, np.nan, mean).tolist(), strict=True)),
        errors=dict(zip(names, np.where(none, np.nan, error).tolist(), strict=True)),
        bins=_bins(records),
        wrong=sum(one["wrong"] for one in last),
        declared=sum(one["declared"] for one in last),
    )


def _figures(record: Mapping[str, Any]) -> dict[str, float]:
    """Return one fitting's figures, each averaged within the fitting."""
    model = record["model"]["outcomes"]
    plain = np.array(record["plain"])
    found: dict[str, float] = {}
    for place, balls in enumerate(BUDGETS):
        own = model[place]["regret"] / YARD
        found[f"model {balls}"] = own
        found[f"said {balls}"] = model[place]["said_regret"] / YARD
        found[f"best {balls}"] = 100.0 * model[place]["best"]
        for method, given in zip(PLAIN, plain[place].tolist(), strict=True):
            found[f"{method} {balls}"] = given
        found[f"less {balls}"] = plain[place, 0] - own
        found[f"less than 60 at {balls}"] = plain[-1, 0] - own
    guided = record["guided"]
    for place, balls in enumerate(BUDGETS):
        own = guided["outcomes"][place]["regret"] / YARD if guided else np.nan
        found[f"guided {balls}"] = own
        found[f"guided less than 60 at {balls}"] = plain[-1, 0] - own
        found[f"guided less {balls}"] = found[f"model {balls}"] - own
    pooled = [one for one, balls in zip(model, BUDGETS, strict=True) if balls in POOLED]
    for level in (80, 95):
        found[f"value {level}"] = 100.0 * _mean([one[f"value_{level}"] for one in pooled])
        for line in LINES:
            shares = np.array([one[f"{line}_{level}"] for one in pooled])
            for place, name in enumerate(LAUNCH_NAMES):
                found[f"{line} {name} {level}"] = 100.0 * _mean(shares[:, place])
    played = guided or record["model"]
    found["stopped"] = 100.0 * (played["stop"] <= BUDGETS[-1])
    found["stop"] = played["stop"]
    found["stop regret"] = played["stop_regret"]
    found["declared"] = 100.0 * model[-1]["declared"] / model[-1]["pairs"]
    return found


def _mean(values: Sequence[float] | FloatArray) -> float:
    array = np.asarray(values, dtype=np.float64)
    return float(array.mean()) if np.isfinite(array).all() else float("nan")


def _bins(records: Sequence[Mapping[str, Any]]) -> tuple[tuple[int, float, float], ...]:
    states = [one for record in records for one in record["model"]["outcomes"]]
    said = np.array([one["p_best"] for one in states], dtype=np.float64)
    right = np.array([one["best"] for one in states], dtype=np.float64)
    place = np.clip(np.digitize(said, BINS) - 1, 0, len(BINS) - 2)
    found = []
    for number in range(len(BINS) - 1):
        member = (place == number) & np.isfinite(said)
        count = int(member.sum())
        found.append(
            (count, float(said[member].mean()), float(right[member].mean()))
            if count
            else (0, float("nan"), float("nan"))
        )
    return tuple(found)


def balls_for(given_up: Sequence[float], target: float) -> float:
    """Return after how many balls a method gives up no more than a target.

    Parameters
    ----------
    given_up : sequence of float
        After each of `BUDGETS` [yd].
    target : float
        [yd]

    Returns
    -------
    float
        Interpolated between the budgets; the first budget if it is met there already, infinite
        if it is never met.
    """
    if given_up[0] <= target:
        return float(BUDGETS[0])
    for place in range(1, len(BUDGETS)):
        before, now = given_up[place - 1], given_up[place]
        if now <= target:
            share = (before - target) / (before - now)
            return float(BUDGETS[place - 1] + share * (BUDGETS[place] - BUDGETS[place - 1]))
    return float("inf")

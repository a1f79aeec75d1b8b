"""Tests a table against physics: mirrored marks and faces, columns that were calculated.

A ball starts mostly where the face points, and a driver's bulge sends a toe strike out to the
toe's side [common practice, no source]. A table in which the opposite holds beyond chance has a
sign the other way round. Differences between clubs are taken out first.
"""

import statistics
from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.intake.columns import Plan
from loftwright.intake.doubts import Doubt, quoted_option
from loftwright.intake.options import Handedness

FEWEST_BALLS: Final = 15
T_LIMIT: Final = 2.0
_SPARE: Final = 6
_ROUNDING: Final = 1.3
_START: Final = "start to the toe's side"

Values = Sequence[float | None]


def _table(columns: Sequence[Values], clubs: Sequence[str]) -> tuple[FloatArray, list[int]]:
    """Return the rows in which every column is measured, less their club's mean."""
    places = [
        place
        for place in range(len(clubs))
        if all(column[place] is not None for column in columns)
    ]
    table = np.array([[column[place] or 0.0 for column in columns] for place in places])
    table = table.reshape(len(places), len(columns))
    names = np.array([clubs[place] for place in places])
    for club in set(names.tolist()):
        rows = names == club
        table[rows] -= table[rows].mean(axis=0)
    return table, places


def _slope_t(response: FloatArray, covariates: FloatArray, groups: int) -> float:
    """Return t of the first covariate's slope; 0 where it cannot be told."""
    n, k = covariates.shape
    freedom = n - k - groups
    if freedom < 1 or np.linalg.matrix_rank(covariates) < k:
        return 0.0
    slopes, *_ = np.linalg.lstsq(covariates, response, rcond=None)
    residuals = response - covariates @ slopes
    inverse = np.linalg.inv(covariates.T @ covariates)
    error = float(np.sqrt(residuals @ residuals / freedom * inverse[0, 0]))
    return float(slopes[0] / error) if error > 0.0 else float(np.sign(slopes[0])) * np.inf


def _mirrored_t(
    direction: Values, first: Values, others: Sequence[Values], clubs: Sequence[str]
) -> tuple[float, list[int]]:
    """Return t of direction on the first column and the rows used."""
    table, places = _table([direction, first, *others], clubs)
    groups = len({clubs[place] for place in places})
    if len(places) < FEWEST_BALLS or not np.any(table[:, 1]):
        return 0.0, places
    return _slope_t(table[:, 0], table[:, 1:], groups), places


def _against(left: Values, right: Values, places: Sequence[int]) -> float:
    """Return the share of balls on which two columns have opposite signs."""
    products = [(left[place] or 0.0) * (right[place] or 0.0) for place in places]
    counted = [product for product in products if product != 0.0]
    return sum(product < 0.0 for product in counted) / len(counted) if counted else 0.0


def strike_mirror_doubt(
    values: Mapping[str, Values],
    plans: Mapping[str, Plan],
    clubs: Sequence[str],
    lines: Sequence[int],
    hand: Handedness,
) -> Doubt | None:
    """Return a question where heel marks go with starts to the toe's side for most balls.

    Parameters
    ----------
    values : mapping of str to sequence of float or None
        Columns in SI by their meaning.
    plans : mapping of str to Plan
        What each column is taken for.
    clubs, lines : sequence
        Club and line of the file of every row.
    hand : {"right", "left"}
        The golfer's hand: a left-hander's toe side is the world's left.
    """
    plan = plans.get("strike toe")
    if plan is None or "direction" not in values or (plan.settled and plan.sign):
        return None
    toe_side = 1.0 if hand == "right" else -1.0
    direction = [None if v is None else toe_side * v for v in values["direction"]]
    others = [values[means] for means in ("face", "path") if _measured(values.get(means))]
    t, places = _mirrored_t(direction, values["strike toe"], others, clubs)
    if others and len(places) < FEWEST_BALLS:
        t, places = _mirrored_t(direction, values["strike toe"], [], clubs)
    if t > -T_LIMIT or _against(direction, values["strike toe"], places) <= 0.5:
        return None
    unit = plan.unit.name if plan.unit is not None else "mm"
    return Doubt(
        column=plan.name,
        question=f"{plan.name!r} may be mirrored: most balls marked on the heel side start to the "
        f"toe's side (t = {_signed(t)} over {len(places)} balls, {_handed(hand)})",
        samples=_samples(lines, places, ("strike toe", values["strike toe"]), (_START, direction)),
        options=(
            quoted_option("--column", f"{plan.name}=strike toe[{unit}, heel +]"),
            quoted_option("--column", f"{plan.name}=strike toe[{unit}, toe +]"),
        ),
    )


def _measured(column: Values | None) -> bool:
    if column is None:
        return False
    held = [value for value in column if value is not None]
    return len(held) >= FEWEST_BALLS and statistics.pstdev(held) > 0.0


def _samples(
    lines: Sequence[int],
    places: Sequence[int],
    first: tuple[str, Values],
    second: tuple[str, Values],
) -> tuple[tuple[int, str], ...]:
    """Return three rows in which two columns point to opposite sides."""
    found: list[tuple[int, str]] = []
    for place in places:
        a, b = first[1][place] or 0.0, second[1][place] or 0.0
        if a * b < 0.0 and len(found) < 3:
            found.append((lines[place], f"{_shown(first[0], a)}, {_shown(second[0], b)}"))
    return tuple(found)


def _signed(t: float) -> str:
    return f"{t:.1f}".replace("-", "−")


def _handed(hand: Handedness) -> str:
    other = "left" if hand == "right" else "right"
    return f"golfer {hand}-handed; if not, say --hand {other}"


def _shown(means: str, value: float) -> str:
    if means.startswith("strike"):
        return f"{means} {value * 1000.0:+.1f} mm"
    return f"{means} {np.rad2deg(value):+.1f} deg"


def face_mirror_doubt(
    values: Mapping[str, Values],
    plans: Mapping[str, Plan],
    clubs: Sequence[str],
    lines: Sequence[int],
    hand: Handedness,
) -> Doubt | None:
    """Return a question where balls start away from where the face points.

    The parameters are those of `strike_mirror_doubt`.
    """
    plan = plans.get("face")
    if plan is None or "direction" not in values or (plan.settled and plan.sign):
        return None
    side = 1.0 if hand == "right" else -1.0
    direction = [None if v is None else side * v for v in values["direction"]]
    others = [values["strike toe"]] if _measured(values.get("strike toe")) else []
    t, places = _mirrored_t(direction, values["face"], others, clubs)
    if t > -T_LIMIT:
        return None
    unit = plan.unit.name if plan.unit is not None else "deg"
    return Doubt(
        column=plan.name,
        question=f"{plan.name!r} may have its sign the other way round: balls start away from "
        f"where the face points (t = {_signed(t)} over {len(places)} balls, {_handed(hand)})",
        samples=_samples(lines, places, ("face", values["face"]), (_START, direction)),
        options=tuple(
            quoted_option("--column", f"{plan.name}=face[{unit}, {sign} +]")
            for sign in ("closed", "open", "right")
        ),
    )


def is_combination(
    column: Values, of: Sequence[Values], step: float, of_steps: Sequence[float]
) -> bool:
    """Return whether a column is a sum of multiples of others, to the digits given.

    Parameters
    ----------
    column : sequence of float or None
        The column that may have been calculated.
    of : sequence of sequence of float or None
        The columns it may have been calculated from.
    step, of_steps : float, sequence of float
        The last digit of each, in its unit.

    Notes
    -----
    What is left after the best fit must be no more than the rounding of the digits, and the
    column must vary by far more than its own.
    """
    places = [
        place
        for place in range(len(column))
        if column[place] is not None and all(other[place] is not None for other in of)
    ]
    if len(places) < len(of) + _SPARE:
        return False
    response = np.array([column[place] or 0.0 for place in places])
    covariates = np.array([[1.0, *(other[place] or 0.0 for other in of)] for place in places])
    if np.linalg.matrix_rank(covariates) < covariates.shape[1]:
        return False
    slopes, *_ = np.linalg.lstsq(covariates, response, rcond=None)
    left = float(np.std(response - covariates @ slopes))
    steps = np.array([step, *(slope * s for slope, s in zip(slopes[1:], of_steps, strict=True))])
    rounding = float(np.sqrt(np.sum(steps**2) / 12.0))
    return left <= _ROUNDING * rounding + 1e-12 and float(np.std(response)) > 5.0 * rounding

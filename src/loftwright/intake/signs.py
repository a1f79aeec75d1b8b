"""Tests a table's signs against physics: marks, face, path and axis the wrong way round.

What a driver does with every golfer [common practice, no source]: a ball starts mostly where
the face points; a toe strike starts out to the toe's side, because the face bulges; the axis
tilts with face less path; a higher strike launches higher with less spin. A table in which the
opposite holds beyond chance has a sign the other way round. Differences between clubs are taken
out first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.intake.columns import Plan
from loftwright.intake.doubts import Doubt, quoted_option
from loftwright.intake.options import Handedness
from loftwright.intake.quantities import SIDES

FEWEST_BALLS: Final = 15
T_LIMIT: Final = 2.0
_WORLD: Final = ("direction", "axis")
_STRIKE: Final = ("strike toe", "strike high")
_UNITS: Final = {"strike toe": "mm", "strike high": "mm"}

Values = Sequence[float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Balls:
    """A table's numbers as the golfer sees them: open, in-to-out and toe's side positive.

    Attributes
    ----------
    values : mapping of str to sequence of float or None
        Columns in SI by meaning, direction and axis in the golfer's own sign.
    plans : mapping of str to Plan
        What each column is read from.
    clubs, lines : sequence
        Club and line of the file of every row.
    hand : {"right", "left"}
        The golfer's hand.
    """

    values: Mapping[str, Values]
    plans: Mapping[str, Plan]
    clubs: Sequence[str]
    lines: Sequence[int]
    hand: Handedness

    def measured(self, means: str) -> bool:
        """Whether a column varies over enough balls."""
        held = [value for value in self.values.get(means, ()) if value is not None]
        return len(held) >= FEWEST_BALLS and max(held) > min(held)

    def doubtful(self, means: str) -> bool:
        """Whether a column is there and the user has not told this table's sign."""
        plan = self.plans.get(means)
        return plan is not None and not (plan.told_now and plan.sign) and self.measured(means)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Slopes:
    """Slopes over their standard errors, and the rows they rest on."""

    t: tuple[float, ...]
    places: tuple[int, ...]


def golfers_view(
    values: Mapping[str, Values],
    plans: Mapping[str, Plan],
    clubs: Sequence[str],
    lines: Sequence[int],
    hand: Handedness,
    sets: Sequence[str] = (),
) -> Balls:
    """Return a table's numbers with direction and axis in the golfer's own sign.

    Where marks of a set are in unknown order (`sets` names each row's, empty for none), every
    ball of it has their mean, which is what is expected of each.
    """
    side = 1.0 if hand == "right" else -1.0
    seen = dict(values)
    for means in _WORLD:
        if means in seen:
            seen[means] = [None if value is None else side * value for value in seen[means]]
    for means in _STRIKE:
        if means in seen and any(sets):
            seen[means] = _set_means(seen[means], sets)
    return Balls(values=seen, plans=plans, clubs=clubs, lines=lines, hand=hand)


def _set_means(marks: Values, sets: Sequence[str]) -> Values:
    held: dict[str, list[float]] = {}
    for mark, name in zip(marks, sets, strict=True):
        if name and mark is not None:
            held.setdefault(name, []).append(mark)
    means = {name: fsum(found) / len(found) for name, found in held.items()}
    return [means.get(name) if name else mark for mark, name in zip(marks, sets, strict=True)]


def _table(balls: Balls, names: Sequence[str]) -> tuple[FloatArray, tuple[int, ...]]:
    """Return the rows in which every column is measured, less their club's mean."""
    columns = [balls.values[name] for name in names]
    rows = [
        (place, [cell for column in columns if (cell := column[place]) is not None])
        for place in range(len(balls.clubs))
    ]
    full = [(place, cells) for place, cells in rows if len(cells) == len(names)]
    table = np.array([cells for _, cells in full], dtype=float).reshape(len(full), len(names))
    clubs = np.array([balls.clubs[place] for place, _ in full])
    for club in set(clubs.tolist()):
        own = clubs == club
        table[own] -= table[own].mean(axis=0)
    return table, tuple(place for place, _ in full)


def _slopes(balls: Balls, response: str, covariates: Sequence[str]) -> _Slopes:
    """Return t of every covariate; zeros where it cannot be told."""
    table, places = _table(balls, [response, *covariates])
    silent = _Slopes(t=(0.0,) * len(covariates), places=places)
    groups = len({balls.clubs[place] for place in places})
    freedom = len(places) - groups - len(covariates)
    if len(places) < FEWEST_BALLS or freedom < 1:
        return silent
    spread = table.std(axis=0)
    if not np.all(spread[1:] > 0.0):
        return silent
    scaled = table[:, 1:] / spread[1:]
    if np.linalg.matrix_rank(scaled, tol=1e-6) < len(covariates):
        return silent
    slopes, *_ = np.linalg.lstsq(scaled, table[:, 0], rcond=None)
    residuals = table[:, 0] - scaled @ slopes
    variance = float(residuals @ residuals) / freedom
    errors = np.sqrt(variance * np.diag(np.linalg.inv(scaled.T @ scaled)))
    floor = 1e-12 * max(float(spread[0]), 1e-300)
    return _Slopes(t=tuple((slopes / np.maximum(errors, floor)).tolist()), places=places)


def _opposed(balls: Balls, first: str, second: str, places: Sequence[int]) -> list[int]:
    """Return the rows in which two columns point to opposite sides."""
    found = []
    for place in places:
        a, b = balls.values[first][place], balls.values[second][place]
        if a is not None and b is not None and a * b < 0.0:
            found.append(place)
    return found


def _shown(balls: Balls, means: str, place: int) -> str:
    """Return a cell in the trade's unit and the file's own sign."""
    value = balls.values[means][place] or 0.0
    if means in _WORLD and balls.hand == "left":
        value = -value
    if means.startswith("strike"):
        return f"{means} {1000.0 * value:+.1f} mm"
    return f"{means} {np.rad2deg(value):+.1f} deg"


def _doubt(balls: Balls, means: str, against: str, slopes: _Slopes, t: float, why: str) -> Doubt:
    plan = balls.plans[means]
    side = plan.quantity.positive
    other = "left" if balls.hand == "right" else "right"
    unit = plan.unit.name if plan.unit is not None else _UNITS.get(means, "deg")
    opposed = _opposed(balls, means, against, slopes.places) or list(slopes.places)
    samples = []
    for place in opposed[:3]:
        shown = f"{_shown(balls, means, place)}, {_shown(balls, against, place)}"
        samples.append((balls.lines[place], shown))
    hand = (
        ""
        if means == "strike high"
        else (f"; golfer {balls.hand}-handed, if not say --hand {other}")
    )
    size = f"{t:.1f}".replace("-", "−")
    return Doubt(
        column=plan.name,
        question=f"{plan.name!r} may be mirrored, its sign the other way round: {why} "
        f"(t = {size} over {len(slopes.places)} balls{hand})",
        samples=tuple(samples),
        options=tuple(
            quoted_option("--column", f"{plan.name}={means}[{unit}, {word} +]")
            for word in (SIDES[side], side)
        ),
    )


def _strike_toe(balls: Balls) -> Doubt | None:
    """Ask where heel marks go with starts to the toe's side, for most balls and beyond chance."""
    if not (balls.doubtful("strike toe") and balls.measured("direction")):
        return None
    others = [means for means in ("face", "path") if balls.measured(means)]
    slopes = _slopes(balls, "direction", ["strike toe", *others])
    if others and len(slopes.places) < FEWEST_BALLS:
        slopes = _slopes(balls, "direction", ["strike toe"])
    opposed = _opposed(balls, "strike toe", "direction", slopes.places)
    if slopes.t[0] > -T_LIMIT or 2 * len(opposed) <= len(slopes.places):
        return None
    why = "most balls marked on the heel side start to the toe's side"
    return _doubt(balls, "strike toe", "direction", slopes, slopes.t[0], why)


def _strike_high(balls: Balls) -> Doubt | None:
    """Ask where higher marks launch lower and with more spin."""
    if not (balls.doubtful("strike high") and balls.measured("launch") and balls.measured("spin")):
        return None
    launch = _slopes(balls, "launch", ["strike high"])
    spin = _slopes(balls, "spin", ["strike high"])
    if launch.t[0] > -T_LIMIT or spin.t[0] < T_LIMIT:
        return None
    why = "balls marked high launch lower and with more spin than those marked low"
    return _doubt(balls, "strike high", "launch", launch, launch.t[0], why)


def _face(balls: Balls) -> Doubt | None:
    """Ask where balls start away from where the face points."""
    if not (balls.doubtful("face") and balls.measured("direction")):
        return None
    others = ["strike toe"] if balls.measured("strike toe") else []
    slopes = _slopes(balls, "direction", ["face", *others])
    if others and len(slopes.places) < FEWEST_BALLS:
        slopes = _slopes(balls, "direction", ["face"])
    if slopes.t[0] > -T_LIMIT:
        return None
    why = "balls start away from where the face points"
    return _doubt(balls, "face", "direction", slopes, slopes.t[0], why)


def _path_or_axis(balls: Balls) -> Doubt | None:
    """Ask where the axis tilts against face less path: path's sign if only it disagrees."""
    if not (balls.measured("axis") and balls.measured("face") and balls.measured("path")):
        return None
    others = ["strike toe"] if balls.measured("strike toe") else []
    slopes = _slopes(balls, "axis", ["face", "path", *others])
    if others and len(slopes.places) < FEWEST_BALLS:
        slopes = _slopes(balls, "axis", ["face", "path"])
    face_t, path_t = slopes.t[:2]
    if path_t < T_LIMIT:
        return None
    if face_t < -T_LIMIT and balls.doubtful("axis"):
        why = "the axis tilts against the face and with the path"
        return _doubt(balls, "axis", "face", slopes, face_t, why)
    if face_t > T_LIMIT and balls.doubtful("path"):
        return _doubt(balls, "path", "axis", slopes, path_t, "the axis tilts with the path")
    return None


def sign_doubts(balls: Balls) -> list[Doubt]:
    """Return a question for every column whose sign physics speaks against.

    Parameters
    ----------
    balls : Balls
        A table as the golfer sees it.

    Notes
    -----
    At least 15 balls with marks or delivery, and a slope of the wrong sign by more than two of
    its standard errors; a sign that the user has told is not questioned.
    """
    found = (_strike_toe(balls), _strike_high(balls), _face(balls), _path_or_axis(balls))
    return [doubt for doubt in found if doubt is not None]

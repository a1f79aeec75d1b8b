"""Rows and beliefs of the comparison, written anew from its published description.

Nothing of `loftwright.evidence` is used here but the balls themselves and the impact model's
slopes: rows, beliefs and noise are built a second time from docs/explanation (model, beliefs,
strike, two-figures), constants included, so that a slip in one of the two shows in the numbers.
Units are those of the trade: mph, degrees and millimetres.
"""

from dataclasses import dataclass
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.evidence.balls import Balls
from loftwright.evidence.slopes import Slopes
from loftwright.evidence.visit import Beliefs

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

RPM = REVOLUTION_PER_MINUTE
UNIT = np.array([MILE_PER_HOUR, 0.8 * DEGREE, 200.0 * RPM, 2.0 * DEGREE, DEGREE])
NOISE = np.array([0.45 / 1.0, 0.25 / 0.8, 60.0 / 200.0, 1.1 / 2.0, 0.25 / 1.0])
HEADS = np.array([0.5 / 1.0, 0.3 / 0.8, 100.0 / 200.0, 0.4 / 2.0, 0.15 / 1.0])
FLOOR = np.array([0.15 / 1.0, 0.1 / 0.8, 30.0 / 200.0, 0.3 / 2.0, 0.1 / 1.0])
SWING_SD = np.array([1.8, 1.4, 2.2, 2.5, 1.7])
STRIKE_SD = np.array([11.0, 7.5])
CLUB_SD = np.array([0.3, 0.2, 0.5, 0.5, 0.5])
CLUB_STRIKE_SD = 0.75
EDGE = np.array([35.0, 24.0])
READ_ERROR = {"speed": 0.3, "attack": 0.3, "face-path": 0.25, "face": 0.25, "path": 0.25}
LAUNCH_SCALES = np.array([0.35, 0.6, 1.0, 1.7, 2.9, 8.0, 25.0])
SWING_SCALES = np.array([0.03, 0.12, 0.4, 1.0, 2.5])


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """What is not known of the rows' covariates, to be sampled instead of widening the noise.

    `expected` and `left` are of the strike of every row given its mark [10 mm]; `gaps` are
    (row, column, variance) of delivery readings that are missing. `marks`, `errors` and
    `of_row` hold what was marked, for a strike pattern that is itself sampled.
    """

    expected: Floats
    left: Floats
    linear: tuple[int, ...]
    square: tuple[int, ...]
    gaps: tuple[tuple[int, int, float], ...]
    row_error: Floats
    row_mark: Floats
    marks: Floats
    errors: Floats
    pattern_sd: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One regression: rows, what widens their noise, and beliefs."""

    responses: Floats
    covariates: Floats
    club: Ints
    ball: Ints
    kind: Ints
    seen: Flags
    directions: Floats
    variances: Floats
    extra: Floats
    orders: tuple[Ints, ...]
    mean: Floats
    sd: Floats
    effects: Floats
    effect_precisions: Floats
    residual: Floats
    scales: Floats
    unknown: Unknown | None = None

    @property
    def clubs(self) -> int:
        """How many clubs there are."""
        return self.effects.shape[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strike:
    """Where the golfer strikes [mm]: mean and variance, and the usual error of a mark."""

    mean: Floats
    variance: Floats
    error: float
    pattern_sd: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Both regressions of a fitting, and what joins them."""

    launch: Stage
    swing: Stage | None
    delivery: tuple[str, ...]
    strike: Strike | None
    offset: int


def measured(balls: Balls) -> tuple[tuple[str, ...], Floats]:
    """Return which delivery columns there are, and each as a sum of the swing's parts."""
    rows = {
        "speed": [1.0, 0, 0, 0, 0],
        "attack": [0, 1.0, 0, 0, 0],
        "face-path": [0, 0, -1.0, 1.0, 0],
        "face": [0, 0, 0, 1.0, 0],
        "path": [0, 0, 1.0, 0, 0],
    }
    filled = np.isfinite(balls.delivery)
    speed, attack, path, face = (bool(column.any()) for column in filled.T)
    names = ["speed"] * speed + ["attack"] * attack
    names += ["face-path", "face"] if face and path else ["face"] * face
    names += ["path"] * (path and not face)
    return tuple(names), np.array([rows[name] for name in names]).reshape(-1, 5)


def swing_covariance(factor: float) -> Floats:
    """Covariance of the parts of a golfer's delivery, mph and degrees."""
    sd = factor * SWING_SD
    whole = np.diag(sd**2)
    whole[2, 3] = whole[3, 2] = 0.4 * sd[2] * sd[3]
    whole[1, 4] = whole[4, 1] = 0.5 * sd[1] * sd[4]
    return whole


def ability_factor(balls: Balls) -> float:
    """How wide this golfer's swings are, by the scatter of launch about the clubs' medians."""
    angle = balls.launch[:, 1] / DEGREE
    keep = np.isfinite(angle)
    group = (balls.visit * 1000 + balls.club)[keep]
    angle = angle[keep]
    groups = np.unique(group)
    away = np.empty(len(angle))
    for one in groups:
        away[group == one] = np.abs(angle[group == one] - np.median(angle[group == one]))
    free = len(angle) - len(groups)
    seen = 1.4826 * np.median(away) * np.sqrt(len(angle) / free)
    factor = np.sqrt((10.0 * 2.1**2 + free * seen**2) / (10.0 + free)) / 2.1
    return float(min(max(factor, 0.45), 1.6))


def strike_of(balls: Balls, factor: float) -> Strike | None:
    """Estimate the strike pattern from the marks [mm]; none without marks."""
    marks = np.clip(balls.marks * 1e3, -EDGE, EDGE)
    marked = np.isfinite(marks).all(axis=1)
    if not marked.any():
        return None
    error = balls.mark_error * 1e3
    kinds, counts = np.unique(np.round(error[marked], 6), return_counts=True)
    usual = float(kinds[np.argmax(counts)])
    sd = factor * STRIKE_SD
    weight = (sd**2 + usual**2) / (sd**2 + error[marked, None] ** 2)
    mean = (weight * marks[marked]).sum(axis=0) / (weight.sum(axis=0) + 4.0)
    fine = marks[marked & (error <= usual + 1e-6)]
    mad = 1.4826 * np.median(np.abs(fine - np.median(fine, axis=0)), axis=0)
    own = np.maximum(mad**2 - usual**2, 4.0)
    variance = (len(fine) * own + 8.0 * sd**2) / (len(fine) + 8.0)
    return Strike(mean=mean, variance=variance, error=usual, pattern_sd=sd)


def delivery_of(balls: Balls, names: tuple[str, ...], parts: Floats, at: Floats) -> Floats:
    """Return the delivery columns from the operating delivery, wild readings taken out."""
    away = (balls.delivery - at[:4]) / np.array([MILE_PER_HOUR, DEGREE, DEGREE, DEGREE])
    found = np.full((len(balls), len(names)), np.nan)
    for column, weights in enumerate(parts[:, :4]):
        found[:, column] = sum(
            (away[:, part] * weights[part] for part in np.flatnonzero(weights)),
            start=np.zeros(len(balls)),
        )
        distance = np.abs(found[:, column] - usual_of(found[:, column], balls))
        limit = 5.0 * max(1.4826 * float(np.nanmedian(distance)), 0.2)
        found[distance > limit, column] = np.nan
    return found


def usual_of(column: Floats, balls: Balls) -> Floats:
    """Return the median of each ball's own visit."""
    usual = np.empty(len(column))
    for visit in np.unique(balls.visit):
        usual[balls.visit == visit] = np.nanmedian(column[balls.visit == visit])
    return usual


def candidate_marks(balls: Balls) -> tuple[Ints, Floats, Floats, tuple[Ints, ...]]:
    """Return ball, mark [mm] and its error of every row, and the rows of every order of a set."""
    if balls.spare_marks:
        raise ValueError("marks of balls that were not read are not laid out here")
    marks = np.clip(balls.marks * 1e3, -EDGE, EDGE)
    error = balls.mark_error * 1e3
    alone = np.flatnonzero(balls.mark_set < 0)
    ball, mark, wide = alone.tolist(), list(marks[alone]), error[alone].tolist()
    orders = []
    for name in np.unique(balls.mark_set[balls.mark_set >= 0]):
        members = np.flatnonzero(balls.mark_set == name).tolist()
        own = [row for row in members if np.isfinite(marks[row]).all()]
        tokens: list[int | None] = [*own, *[None] * (len(members) - len(own))]
        places: dict[tuple[int, int | None], int] = {}
        rows = set()
        for order in permutations(tokens):
            chosen = []
            for member, token in zip(members, order, strict=True):
                if (member, token) not in places:
                    places[member, token] = len(ball)
                    ball.append(member)
                    mark.append(np.full(2, np.nan) if token is None else marks[token])
                    wide.append(1.75 if token is None else error[token])
                chosen.append(places[member, token])
            rows.add(tuple(chosen))
        orders.append(np.array(sorted(rows)))
    return np.array(ball), np.array(mark), np.array(wide), tuple(orders)


def left_by(variance: Floats, error: Floats, marked: Flags) -> Floats:
    """Variance of the strike given its mark, or none, shape (m, 2)."""
    square = np.where(marked, error, np.inf)[:, None] ** 2
    return np.where(np.isinf(square), variance, 1.0 / (1.0 / variance + 1.0 / square))


def order_columns(balls: Balls) -> Floats:
    """Return warm-up, drift and the visits' own intercepts."""
    columns = [np.exp(-balls.order / 8.0), balls.order / 60.0]
    visits = np.unique(balls.visit)
    if len(visits) > 1:
        columns += [(balls.visit == visit).astype(np.float64) for visit in visits]
    return np.column_stack(columns)


def distinct(*parts: Floats) -> tuple[Ints, Ints]:
    """Return one row of each kind, and the kind of each row."""
    flat = np.hstack([part.reshape(len(part), -1).astype(np.float64) for part in parts])
    _, first, kind = np.unique(np.round(flat, 9), axis=0, return_index=True, return_inverse=True)
    return first, kind.ravel()


def club_precisions(
    slopes: Slopes, beliefs: Beliefs, parts: Floats, factor: float, marks: bool, clubs: int
) -> Floats:
    """Inverse covariance of the clubs' effects on launch under each view of their heads."""
    own = np.diag(FLOOR**2)
    for part in range(5):
        if not parts[:, part].any():
            own += CLUB_SD[part] ** 2 * np.outer(slopes.parts[:, part], slopes.parts[:, part])
    if not marks:
        usual = np.array([0.75, 0.67]) * factor * STRIKE_SD / 10.0
        for axis in range(2):
            bend = 2.0 * usual[axis] * slopes.curvature[:, axis]
            for way in (slopes.strike[:, axis], bend):
                own += (CLUB_STRIKE_SD / 10.0) ** 2 * np.outer(way, way)
    own = beliefs.doubt * own
    head = np.diag(HEADS**2) + slopes.heads @ slopes.heads.T
    if not beliefs.traits:
        wide = [own, own + head]
        return np.stack([np.linalg.inv(np.kron(one, np.eye(clubs))) for one in wide])
    names = beliefs.traits
    same_head = np.array([[float(a.head == b.head) for b in names] for a in names])
    same_shaft = np.array([[float(a.shaft == b.shaft) for b in names] for a in names])
    share = 0.5 * same_shaft + 0.5 * np.eye(clubs)
    return np.linalg.inv(np.kron(head, same_head) + np.kron(own, share))[None]

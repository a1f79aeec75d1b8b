"""Doubts about how a club is set, from a run of balls that breaks its pattern."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray
from loftwright.constants import DEGREE, REVOLUTION_PER_MINUTE
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.leftover import Leftover, centred
from loftwright.evidence.scales import LAUNCH_SCALE

SHORTEST_RUN: Final = 3
STRANGE_ABOVE: Final = 2.9
"""Standard errors, settled on simulated golfers: one right fitting in twenty comes to it."""
ALIKE: Final = 0.4
"""Share of what the loft alone would do that launch and spin must each show."""
_LAUNCH, _SPIN = 1, 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """Balls of one club that were hit one after another with it, and how far they stand out.

    Attributes
    ----------
    club : int
    balls : IntArray, shape (m,)
        Places in the leftover.
    score : float
        Standard errors from the club's other balls and what is believed of it.
    jump : FloatArray, shape (R,)
        Launch of the run less that of the club's others, or of the other clubs; scaled.
    whole : bool
        Whether the run is all that was hit with the club.
    newest : bool
        Whether the club's newest ball is in it.
    """

    club: int
    balls: IntArray
    score: float
    jump: FloatArray
    whole: bool
    newest: bool


def strange_run(
    left: Leftover, loft: FloatArray, responses: tuple[int, ...], clubs: tuple[str, ...]
) -> Alarm | None:
    """Doubt a club's setting if a run of its balls stands out as another loft would make it.

    Parameters
    ----------
    left : Leftover
    loft : FloatArray, shape (R,)
        Scaled launch numbers per degree of loft.
    responses : tuple of int
        Launch numbers there are; launch and spin must be among them.
    clubs : tuple of str

    Returns
    -------
    Alarm, optional
        With the balls of the run.
    """
    if not {_LAUNCH, _SPIN} <= set(responses):
        return None
    found = strangest_run(left, loft, responses)
    if found is None or abs(found.score) < STRANGE_ABOVE:
        return None
    return Alarm(
        kind="strange_run",
        say=_in_words(found, responses, clubs[found.club]),
        rows=tuple(left.row[found.balls].tolist()),
    )


def _in_words(run: Run, responses: tuple[int, ...], club: str) -> str:
    places = responses.index(_LAUNCH), responses.index(_SPIN)
    launch, spin = (
        float(run.jump[place] * LAUNCH_SCALE[kind] / unit)
        for place, kind, unit in zip(
            places, (_LAUNCH, _SPIN), (DEGREE, REVOLUTION_PER_MINUTE), strict=True
        )
    )
    count = len(run.balls)
    if run.whole:
        which, than = f"{count} balls", "this swing and the other clubs make likely"
    else:
        which = f"last {count} balls" if run.newest else f"run of {count} balls"
        than = "its others from the same swing"
    up, more = ("higher", "more") if launch > 0.0 else ("lower", "less")
    return (
        f"{club}'s {which} launch {abs(launch):.1f}° {up} and spin {abs(round(spin, -1)):.0f} rpm "
        f"{more} than {than}: is the sleeve as planned?"
    )


def strangest_run(left: Leftover, loft: FloatArray, responses: tuple[int, ...]) -> Run | None:
    """Return the run of one club's balls that stands out most along the direction of loft.

    Parameters
    ----------
    left : Leftover
    loft : FloatArray, shape (R,)
        Scaled launch numbers per degree of loft.
    responses : tuple of int

    Returns
    -------
    Run, optional
        None while no club has a run that launch and spin both bear out.
    """
    pair = [responses.index(_LAUNCH), responses.index(_SPIN)]
    precision = left.precision(left.kind)
    weights = left.weights(centred(left, left.residual, np.ones(len(left.row))), precision)
    pull = np.einsum("i,nij->nj", loft, precision) * weights[:, None]
    held = np.einsum("nj,j->n", pull, loft) * _information(left)
    degrees = np.einsum("nj,nj->n", pull, left.residual) * _information(left)
    believed = float(loft @ left.between @ loft) / float(loft @ loft) ** 2
    best: Run | None = None
    for cell in np.unique(left.cell):
        member = np.flatnonzero(left.cell == cell)
        if len(member) < SHORTEST_RUN:
            continue
        others = (left.cell != cell) & (left.visit == left.visit[member[0]])
        run = _in_cell(left, member, others, held, degrees, believed, loft, pair)
        if run is not None and (best is None or abs(run.score) > abs(best.score)):
            best = run
    return best


def _information(left: Leftover) -> FloatArray:
    """Return the share of the weighted information that t errors really hold, shape (n,)."""
    tail = left.tail_df + left.seen.sum(axis=1)
    return np.asarray(tail / (tail + 2.0))


def _in_cell(
    left: Leftover,
    member: IntArray,
    others: BoolArray,
    held: FloatArray,
    degrees: FloatArray,
    believed: float,
    loft: FloatArray,
    pair: list[int],
) -> Run | None:
    """Return the run of one club on one visit that stands out most."""
    centre_held = float(held[others].sum())
    centre = float(degrees[others].sum()) / centre_held if centre_held > 0.0 else 0.0
    away = believed + 1.0 / centre_held if centre_held > 0.0 else np.inf
    first, last = _runs(member, len(left.row))
    if not first.size:
        return None
    inside_held, inside = (_sums(values[member], first, last) for values in (held, degrees))
    rest_held = held[member].sum() - inside_held
    rest = degrees[member].sum() - inside
    own = rest_held + 1.0 / away
    known = (inside_held > 0.0) & (own > 1e-9)
    safe, safe_own = np.where(known, inside_held, 1.0), np.where(known, own, 1.0)
    expected = (rest + centre / away) / safe_own
    jump = inside / safe - expected
    score = np.where(known, jump / np.sqrt(1.0 / safe + 1.0 / safe_own), 0.0)
    launches = _launch_jumps(left, member, others, first, last)
    shown = launches[:, pair] / (jump[:, None] * loft[pair] + 1e-12)
    score = np.where((shown >= ALIKE).all(axis=1), score, 0.0)
    best = int(np.argmax(np.abs(score)))
    if score[best] == 0.0:
        return None
    start, stop = int(first[best]), int(last[best])
    return Run(
        club=int(left.club[member[0]]),
        balls=member[start : stop + 1],
        score=float(score[best]),
        jump=launches[best],
        whole=stop - start + 1 == len(member),
        newest=stop == len(member) - 1,
    )


def _runs(member: IntArray, count: int) -> tuple[IntArray, IntArray]:
    """Return first and last place of every run from a hand-over of the club to its laying down.

    A setting changes only while the club is out of the golfer's hand.
    """
    starts = np.flatnonzero(np.diff(member, prepend=-2) > 1)
    ends = np.flatnonzero(np.diff(member, append=count + 1) > 1)
    first, last = (one.ravel() for one in np.meshgrid(starts, ends, indexing="ij"))
    long = last - first >= SHORTEST_RUN - 1
    return first[long].astype(np.int64), last[long].astype(np.int64)


def _sums(values: FloatArray, first: IntArray, last: IntArray) -> FloatArray:
    """Return the sum of every run."""
    total = np.concatenate([np.zeros((1, *values.shape[1:])), np.cumsum(values, axis=0)])
    return np.asarray(total[last + 1] - total[first])


def _launch_jumps(
    left: Leftover, member: IntArray, others: BoolArray, first: IntArray, last: IntArray
) -> FloatArray:
    """Return every run's mean launch less that of the club's others, or of other clubs."""
    seen = left.seen[member].astype(np.float64)
    inside, inside_count = (_sums(one, first, last) for one in (left.residual[member], seen))
    rest = left.residual[member].sum(axis=0) - inside
    rest_count = seen.sum(axis=0) - inside_count
    beside = left.residual[others].sum(axis=0)
    beside = beside / np.maximum(left.seen[others].sum(axis=0), 1.0)
    usual = np.where(rest_count > 0.0, rest / np.maximum(rest_count, 1.0), beside)
    return np.asarray(inside / np.maximum(inside_count, 1.0) - usual)

"""The sums of one fitting as matrices, with all that physics knows of it taken off."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.shop.cells import LAUNCH_FACTORS, SWING_FACTORS, Cell, FittingSums, fittings_of
from loftwright.shop.columns import DELIVERY, FEATURES, SWING_FEATURES
from loftwright.shop.physics import Physics

_DELIVERY_PLACES = [FEATURES.index(one.column) for one in DELIVERY]

Moments = Callable[[Cell], FloatArray]
"""Of a cell: sums of products of features, the constant first, and responses."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Gram:
    """What a fitting's marked balls tell of slopes and clubs; P features, R responses, S clubs.

    Attributes
    ----------
    clubs : tuple of str
    balls : int
        Rows that were summed, less one for every visit whose level was taken off.
    gram : FloatArray, shape (P + S, P + S)
        Of features and of who was hit.
    cross : FloatArray, shape (P + S, R)
    squares : FloatArray, shape (R, R)
    """

    fitting: str
    clubs: tuple[str, ...]
    balls: int
    gram: FloatArray
    cross: FloatArray
    squares: FloatArray


def grams_of(rows: Iterable[Mapping[str, Any]]) -> tuple[Gram, ...]:
    """Return the matrices of every fitting among rows of sums, with nothing taken off.

    Parameters
    ----------
    rows : iterable of mappings
        As `sums_of` gives them; only those of marked balls are taken.
    """
    return tuple(
        gram_of(one, lambda cell: cell.launch, len(FEATURES)) for one in fittings_of(rows)
    )


def launch_gram(
    fitting: FittingSums, physics: Physics, heads: Mapping[str, FloatArray] | None = None
) -> Gram:
    """Return what launch tells beyond physics, delivery counted from the golfer's own mean.

    Parameters
    ----------
    fitting : FittingSums
    physics : Physics
        Of this fitting.
    heads : mapping of str to FloatArray, shape (P, R), optional
        By how much slopes with a head are known to differ from the common ones.
    """
    return gram_of(fitting, launch_moments(fitting, physics, heads), len(FEATURES))


def launch_moments(
    fitting: FittingSums, physics: Physics, heads: Mapping[str, FloatArray] | None = None
) -> Moments:
    """Return the sums of a cell with all that is known of it taken off.

    Parameters
    ----------
    fitting : FittingSums
    physics : Physics
    heads : mapping of str to FloatArray, shape (P, R), optional

    Notes
    -----
    Only linear maps of the sums: with launch y, features f, known slopes B and what physics
    expects of the club m, the sums of y - B'f - m follow from those of y and f.
    """
    features = len(FEATURES)
    middle = np.eye(len(LAUNCH_FACTORS))
    middle[_DELIVERY_PLACES, 0] = -fitting.mean[_DELIVERY_PLACES]
    own = {} if heads is None else heads

    def moments(cell: Cell) -> FloatArray:
        beyond = np.eye(len(LAUNCH_FACTORS))
        beyond[features:, :features] = -(physics.slopes + own.get(cell.head, 0.0)).T
        beyond[features:, 0] -= physics.launch_of(cell.shift)
        way = beyond @ middle
        return np.asarray(way @ cell.launch @ way.T)

    return moments


def swing_gram(fitting: FittingSums, physics: Physics) -> Gram:
    """Return what the swing tells beyond what physics expects clubs to change in it.

    Parameters
    ----------
    fitting : FittingSums
    physics : Physics
    """
    features = len(SWING_FEATURES)

    def moments(cell: Cell) -> FloatArray:
        beyond = np.eye(len(SWING_FACTORS))
        beyond[features:, 0] = -physics.swing_of(cell.shift)
        return np.asarray(beyond @ cell.swing @ beyond.T)

    return gram_of(fitting, moments, features)


def gram_of(fitting: FittingSums, moments: Moments, features: int) -> Gram:
    """Return the matrices of a fitting from the moments of its cells.

    Parameters
    ----------
    fitting : FittingSums
    moments : callable
    features : int

    Notes
    -----
    Days differ by device, ball and form, so of a golfer with several visits only what is within
    a visit counts: each visit's own mean is taken off, which is the same as a level of its own.
    """
    whole, lost = pooled(fitting, moments, own_design(fitting, features))
    size = features + len(fitting.clubs)
    return gram_from(fitting, whole, lost, np.arange(size), np.arange(size, len(whole)))


def gram_from(
    fitting: FittingSums, whole: FloatArray, lost: int, own: IntArray, responses: IntArray
) -> Gram:
    """Return the matrices of a fitting from sums of products.

    Parameters
    ----------
    fitting : FittingSums
    whole : FloatArray, shape (k, k)
    lost : int
        Levels that were taken off.
    own, responses : IntArray
        Where features and clubs, and where responses are among the columns.
    """
    return Gram(
        fitting=fitting.fitting,
        clubs=fitting.clubs,
        balls=fitting.balls - lost,
        gram=frozen_array(whole[np.ix_(own, own)]),
        cross=frozen_array(whole[np.ix_(own, responses)]),
        squares=frozen_array(whole[np.ix_(responses, responses)]),
    )


def own_design(fitting: FittingSums, features: int) -> list[FloatArray]:
    """Return a fitting's columns, features and then clubs, as combinations of the features.

    Parameters
    ----------
    fitting : FittingSums
    features : int

    Returns
    -------
    list of FloatArray, shape (P + S, P)
        One a cell.
    """
    clubs = fitting.clubs
    designs = []
    for cell in fitting.cells:
        design = np.zeros((features + len(clubs), features))
        design[:features] = np.eye(features)
        design[features + clubs.index(cell.club), 0] = 1.0
        designs.append(design)
    return designs


def pooled(
    fitting: FittingSums, moments: Moments, designs: Sequence[FloatArray]
) -> tuple[FloatArray, int]:
    """Return sums of products of a design and the responses, and how many levels were taken off.

    Parameters
    ----------
    fitting : FittingSums
    moments : callable
    designs : sequence of FloatArray, shape (k, P)
        Of every cell: the design's columns as combinations of the features, the first one the
        constant.
    """
    width, features = designs[0].shape
    by_visit: dict[int, FloatArray] = {}
    for cell, design in zip(fitting.cells, designs, strict=True):
        there = moments(cell)
        responses = len(there) - features
        way = np.zeros((width + responses, len(there)))
        way[:width, :features] = design
        way[width:, features:] = np.eye(responses)
        by_visit[cell.visit] = by_visit.get(cell.visit, 0.0) + way @ there @ way.T
    if len(by_visit) == 1:
        return next(iter(by_visit.values())), 0
    within = [one - np.outer(one[0], one[0]) / one[0, 0] for one in by_visit.values()]
    return np.sum(within, axis=0), len(by_visit)

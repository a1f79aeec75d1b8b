"""The sums of one fitting as matrices, with all that physics knows of it taken off."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.cells import LAUNCH_FACTORS, SWING_FACTORS, Cell, FittingSums
from loftwright.shop.columns import DELIVERY, FEATURES, SWING_FEATURES
from loftwright.shop.physics import Physics

_DELIVERY_PLACES = [FEATURES.index(one.column) for one in DELIVERY]


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


def launch_gram(fitting: FittingSums, physics: Physics) -> Gram:
    """Return what launch tells beyond physics, delivery counted from the golfer's own mean.

    Parameters
    ----------
    fitting : FittingSums
    physics : Physics
        Of this fitting.

    Notes
    -----
    Only linear maps of the sums: with launch y, features f, physics slopes B and what physics
    expects of the club m, the sums of y - B'f - m follow from those of y and f.
    """
    base = launch_map(fitting, physics)
    return gram_of(fitting, lambda cell: base(cell) @ cell.launch @ base(cell).T, len(FEATURES))


def launch_map(fitting: FittingSums, physics: Physics) -> Callable[[Cell], FloatArray]:
    """Return the map of a cell's factors to those that physics leaves, shape (P + R, P + R)."""
    features = len(FEATURES)
    middle = np.eye(len(LAUNCH_FACTORS))
    middle[_DELIVERY_PLACES, 0] = -fitting.mean[_DELIVERY_PLACES]

    def mapped(cell: Cell) -> FloatArray:
        beyond = np.eye(len(LAUNCH_FACTORS))
        beyond[features:, :features] = -physics.slopes.T
        beyond[features:, 0] -= physics.launch_of(cell.shift)
        return np.asarray(beyond @ middle)

    return mapped


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


def gram_of(fitting: FittingSums, moments: Callable[[Cell], FloatArray], features: int) -> Gram:
    """Return the matrices of a fitting from the moments of its cells.

    Parameters
    ----------
    fitting : FittingSums
    moments : callable
        Of a cell: sums of products of features, the constant first, and responses.
    features : int

    Notes
    -----
    Days differ by device, ball and form, so of a golfer with several visits only what is within
    a visit counts: each visit's own mean is taken off, which is the same as a level of its own.
    """
    clubs = fitting.clubs
    own = np.zeros((features + len(clubs), features))
    own[:features] = np.eye(features)
    designs = []
    for cell in fitting.cells:
        design = own.copy()
        design[features + clubs.index(cell.club), 0] = 1.0
        designs.append(design)
    whole, lost = pooled(fitting, moments, designs)
    size = features + len(clubs)
    return Gram(
        fitting=fitting.fitting,
        clubs=clubs,
        balls=fitting.balls - lost,
        gram=frozen_array(whole[:size, :size]),
        cross=frozen_array(whole[:size, size:]),
        squares=frozen_array(whole[size:, size:]),
    )


def pooled(
    fitting: FittingSums, moments: Callable[[Cell], FloatArray], designs: Sequence[FloatArray]
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

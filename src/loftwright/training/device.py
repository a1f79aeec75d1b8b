"""What virtual devices give, and how far their readings stray."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array
from loftwright.constants import (
    DEGREE,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
    YARD,
)
from loftwright.errors import InputError
from loftwright.training.golfer import HEAD_SPEED, HIGH, TOE

LAUNCH_NOISE: Final[FloatArray] = frozen_array(
    [
        0.45 * MILE_PER_HOUR,
        0.25 * DEGREE,
        60.0 * REVOLUTION_PER_MINUTE,
        1.1 * DEGREE,
        0.25 * DEGREE,
    ]
)
"""Of ball speed, launch, spin, axis, direction: a good device (assumed)."""

HEAD_SPEED_ERROR: Final = 0.3 * MILE_PER_HOUR
ATTACK_ERROR: Final = 0.3 * DEGREE
FACE_ERROR: Final = 0.25 * DEGREE
FACE_TO_PATH_ERROR: Final = 0.25 * DEGREE
MARK_ERROR: Final = 1.75 * MILLIMETRE
UNMARKED_SHARE: Final = 0.20
CARRY_ERROR: Final = 1.5 * YARD
MISREAD_SHARE: Final = 0.04
LEAST_MISREAD, GREATEST_MISREAD = 4.0, 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """Which columns a device fills.

    Attributes
    ----------
    launch : tuple of 5 bools
        Ball speed, launch, spin, axis, direction.
    delivery : bool
        Head speed, attack, path and face; never dynamic loft.
    columns : tuple of 4 bools
        Which of these four, where any is given.
    marks : bool
        Whether strike marks are taken beside it.
    carry : bool
    """

    launch: tuple[bool, bool, bool, bool, bool] = (True, True, True, True, True)
    delivery: bool = True
    marks: bool = True
    carry: bool = True
    columns: tuple[bool, bool, bool, bool] = (True, True, True, True)

    @property
    def swing_columns(self) -> IntArray:
        """Swing columns that are measured, as indices."""
        given = np.flatnonzero(self.columns).tolist() if self.delivery else []
        columns = [HEAD_SPEED + column for column in given]
        return np.array(columns + ([TOE, HIGH] if self.marks else []), dtype=np.int64)


DEVICES: Final[Mapping[str, Device]] = MappingProxyType(
    {
        "full": Device(),
        "no-marks": Device(marks=False),
        "ball-only": Device(delivery=False, marks=False, carry=False),
        "speed-and-carry": Device(
            launch=(True, False, False, False, False), delivery=False, marks=False
        ),
    }
)


def device_named(name: str) -> Device:
    """Return a device by its name.

    Raises
    ------
    InputError
        For an unknown name.
    """
    if name not in DEVICES:
        raise InputError(
            f"{name!r} is no device", place="device", mend=f"Give {', '.join(DEVICES)}."
        )
    return DEVICES[name]


def read_delivery(swings: FloatArray, rng: np.random.Generator) -> FloatArray:
    """Return head speed, attack, path and face as read, shape (n, 4)."""
    return delivery_as_read(swings, rng.standard_normal((len(swings), 4)))


def delivery_as_read(swings: FloatArray, normals: FloatArray) -> FloatArray:
    """Return the delivery as read with given noise.

    Parameters
    ----------
    swings : FloatArray, shape (n, 7)
    normals : FloatArray, shape (n, 4)
        Errors of head speed, attack, face to path and face, in their own standard deviations.

    Returns
    -------
    FloatArray, shape (n, 4)
        Head speed, attack, path, face.

    Notes
    -----
    Face and face-to-path are read with independent errors, and path is their difference, so
    that its own error is the larger of the three.
    """
    noise = normals * [HEAD_SPEED_ERROR, ATTACK_ERROR, FACE_TO_PATH_ERROR, FACE_ERROR]
    delivery = swings[:, :4] + noise
    delivery[:, 2] = swings[:, 2] + noise[:, 3] - noise[:, 2]
    return np.asarray(delivery)


def read_marks(swings: FloatArray, rng: np.random.Generator) -> FloatArray:
    """Return strike marks as read, shape (n, 2), NaN for balls without one."""
    marks = swings[:, TOE:] + MARK_ERROR * rng.standard_normal((len(swings), 2))
    marks[rng.random(len(swings)) < UNMARKED_SHARE] = np.nan
    return marks


def marks_in_sets(
    marks: FloatArray, sequence: IntArray, size: int, lot: FloatArray
) -> tuple[FloatArray, IntArray]:
    """Return marks shuffled within sets of one club's successive balls, and the sets.

    Parameters
    ----------
    marks : FloatArray, shape (n, 2)
    sequence : IntArray, shape (n,)
        The club of each ball.
    size : int
        Balls after which the marks are read; below two each ball keeps its own.
    lot : FloatArray, shape (n,)
        Uniform draws that decide the order.

    Returns
    -------
    marks, mark_set : FloatArray, IntArray
        The set of each ball; -1 for a ball with its own mark.
    """
    mark_set = np.full(len(sequence), -1, dtype=np.int64)
    if size < 2:
        return marks, mark_set
    starts = np.flatnonzero(np.diff(sequence, prepend=-1))
    begun = np.searchsorted(starts, np.arange(len(sequence)), side="right") - 1
    part = (np.arange(len(sequence)) - starts[begun]) // size
    _, mark_set = np.unique(np.column_stack([begun, part]), axis=0, return_inverse=True)
    shuffled = np.lexsort((lot, mark_set))
    return marks[shuffled], mark_set.astype(np.int64)

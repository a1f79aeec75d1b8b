"""The balls of a comparison as arrays, in world signs."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array, frozen_index
from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpareMark:
    """A mark of a set of unknown order whose ball was not read [m]."""

    mark_set: int
    toe: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Balls:
    """Balls in their order of play.

    Every quantity is in world signs: right of the target is positive, also for face, path and
    strike, so that a left-hander's toe is negative.

    Attributes
    ----------
    clubs : tuple of str
    own : int, optional
        The golfer's own club, an index into `clubs`.
    club : IntArray, shape (n,)
    row : IntArray, shape (n,)
        Line of the file, for messages.
    order : FloatArray, shape (n,)
        Place among all swings of the visit, from 0.
    launch : FloatArray, shape (n, 5)
        Ball speed [m/s], launch [rad], spin [rad/s], axis [rad], direction [rad]; NaN where
        missing.
    delivery : FloatArray, shape (n, 4)
        Head speed [m/s], attack, path, face [rad]; NaN where missing.
    marks : FloatArray, shape (n, 2)
        Strike right of and above the middle of the face [m]; NaN where missing.
    mark_set : IntArray, shape (n,)
        Set of unknown order a mark belongs to, -1 for a mark of its own ball.
    spare_marks : tuple of SpareMark
    carry : FloatArray, shape (n,)
        The device's own carry [m]; NaN where missing.
    """

    clubs: tuple[str, ...]
    own: int | None
    club: IntArray
    row: IntArray
    order: FloatArray
    launch: FloatArray
    delivery: FloatArray
    marks: FloatArray
    mark_set: IntArray
    carry: FloatArray
    spare_marks: tuple[SpareMark, ...] = ()

    def __post_init__(self) -> None:
        count = len(self.club)
        shapes = {
            "row": (count,),
            "order": (count,),
            "launch": (count, 5),
            "delivery": (count, 4),
            "marks": (count, 2),
            "mark_set": (count,),
            "carry": (count,),
        }
        for name, shape in shapes.items():
            if np.shape(getattr(self, name)) != shape:
                raise InputError(
                    f"has shape {np.shape(getattr(self, name))}, expected {shape}", place=name
                )
        if count and not 0 <= int(self.club.min()) <= int(self.club.max()) < len(self.clubs):
            raise InputError("names a club that is not in the list", place="club")
        for name in ("order", "launch", "delivery", "marks", "carry"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))
        for name in ("club", "row", "mark_set"):
            object.__setattr__(self, name, frozen_index(getattr(self, name)))

    def __len__(self) -> int:
        return len(self.club)

    @property
    def counts(self) -> IntArray:
        """Balls hit with each club."""
        return np.bincount(self.club, minlength=len(self.clubs)).astype(np.int64)

    def take(self, keep: IntArray) -> "Balls":
        """Return the balls at these indices; clubs stay as they are.

        Parameters
        ----------
        keep : IntArray, shape (k,)
            Which balls, in their order of play.
        """
        return Balls(
            clubs=self.clubs,
            own=self.own,
            club=self.club[keep],
            row=self.row[keep],
            order=self.order[keep],
            launch=self.launch[keep],
            delivery=self.delivery[keep],
            marks=self.marks[keep],
            mark_set=self.mark_set[keep],
            carry=self.carry[keep],
            spare_marks=self.spare_marks,
        )

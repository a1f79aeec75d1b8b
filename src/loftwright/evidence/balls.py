"""The balls of a comparison as arrays, in world signs."""

from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, IntArray, frozen_array, frozen_index
from loftwright.domain.fitting import MARK_ERROR
from loftwright.errors import InputError

_SHAPES: Final[dict[str, tuple[int, ...]]] = {
    "row": (),
    "order": (),
    "launch": (5,),
    "delivery": (4,),
    "marks": (2,),
    "mark_set": (),
    "carry": (),
    "visit": (),
    "mark_error": (),
    "set_aside": (),
}
_INDICES: Final = ("club", "row", "mark_set", "visit")
_FIRST_VISIT: Final = frozen_index([])
_ONE_ERROR: Final = frozen_array([])


def _flags(values: BoolArray | list[bool]) -> BoolArray:
    copy = np.array(values, dtype=np.bool_)
    copy.flags.writeable = False
    return copy


_NONE_ASIDE: Final = _flags([])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpareMark:
    """A mark of a set of unknown order whose ball was not read; place and error [m]."""

    mark_set: int
    toe: float
    high: float
    error: float = MARK_ERROR


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
        Place among all swings of the ball's visit, from 0.
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
    visit : IntArray, shape (n,)
        Day or device the ball was hit on, from 0; one visit unless told.
    mark_error : FloatArray, shape (n,)
        Standard deviation of the error of each mark along either axis [m], that of a mark read
        by a fitter unless told; of no meaning where there is no mark.
    set_aside : BoolArray, shape (n,)
        Balls that the fitter calls odd: they count for nothing; none unless told.
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
    visit: IntArray = field(default_factory=lambda: _FIRST_VISIT)
    mark_error: FloatArray = field(default_factory=lambda: _ONE_ERROR)
    set_aside: BoolArray = field(default_factory=lambda: _NONE_ASIDE)

    def __post_init__(self) -> None:
        count = len(self.club)
        if self.visit is _FIRST_VISIT:
            object.__setattr__(self, "visit", np.zeros(count, dtype=np.int64))
        if self.mark_error is _ONE_ERROR:
            object.__setattr__(self, "mark_error", np.full(count, MARK_ERROR))
        if self.set_aside is _NONE_ASIDE:
            object.__setattr__(self, "set_aside", np.zeros(count, dtype=np.bool_))
        for name, rest in _SHAPES.items():
            shape = (count, *rest)
            if np.shape(getattr(self, name)) != shape:
                raise InputError(
                    f"has shape {np.shape(getattr(self, name))}, expected {shape}", place=name
                )
        if count and not 0 <= int(self.club.min()) <= int(self.club.max()) < len(self.clubs):
            raise InputError("names a club that is not in the list", place="club")
        self._freeze()
        self._check()

    def _freeze(self) -> None:
        for name in ("order", "launch", "delivery", "marks", "carry", "mark_error"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))
        for name in _INDICES:
            object.__setattr__(self, name, frozen_index(getattr(self, name)))
        object.__setattr__(self, "set_aside", _flags(self.set_aside))

    def _check(self) -> None:
        if (self.visit < 0).any():
            row = int(self.row[np.argmax(self.visit < 0)])
            raise InputError(f"row {row} has none", place="visit", mend="Number visits from 0.")
        wrong = ~(np.isfinite(self.mark_error) & (self.mark_error >= 0.0))
        if wrong.any():
            row = int(self.row[np.argmax(wrong)])
            raise InputError(
                f"row {row} has no error that a mark could have",
                place="mark_error",
                mend="Give a length in metres, or leave the errors out for those of a fitter.",
            )

    def __len__(self) -> int:
        return len(self.club)

    @property
    def counts(self) -> IntArray:
        """Balls hit with each club."""
        return np.bincount(self.club, minlength=len(self.clubs)).astype(np.int64)

    @property
    def visits(self) -> IntArray:
        """The visits there are, in order."""
        return np.unique(self.visit)

    @property
    def cell(self) -> IntArray:
        """Which club on which visit each ball was hit with, clubs running fastest."""
        place = np.searchsorted(self.visits, self.visit)
        return (place * len(self.clubs) + self.club).astype(np.int64)

    def take(self, keep: IntArray) -> "Balls":
        """Return the balls at these indices; clubs stay as they are.

        Parameters
        ----------
        keep : IntArray, shape (k,)
            Which balls, in their order of play.
        """
        return replace(self, **{name: getattr(self, name)[keep] for name in ("club", *_SHAPES)})

    def that_count(self) -> "Balls":
        """Return the balls that were not set aside; their marks in sets stay as spare ones."""
        if not self.set_aside.any():
            return self
        lone = self.set_aside & (self.mark_set >= 0) & np.isfinite(self.marks).all(axis=1)
        spare = tuple(
            SpareMark(
                mark_set=int(self.mark_set[ball]),
                toe=float(self.marks[ball, 0]),
                high=float(self.marks[ball, 1]),
                error=float(self.mark_error[ball]),
            )
            for ball in np.flatnonzero(lone)
        )
        kept = self.take(np.flatnonzero(~self.set_aside))
        return replace(kept, spare_marks=(*self.spare_marks, *spare))

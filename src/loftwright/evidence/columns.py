"""Which quantities a visit measured, and the model's columns that follow from it."""

from dataclasses import dataclass

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.balls import Balls
from loftwright.evidence.scales import ANGLE_UNIT, DELIVERY_NAMES, PART_NAMES, SPEED_UNIT

STRIKE_COLUMNS = ("toe", "high", "toe_squared", "high_squared")
ORDER_COLUMNS = ("warm_up", "drift")

_FUNCTIONALS = {
    "head_speed": (1.0, 0.0, 0.0, 0.0, 0.0),
    "attack": (0.0, 1.0, 0.0, 0.0, 0.0),
    "path": (0.0, 0.0, 1.0, 0.0, 0.0),
    "face_to_path": (0.0, 0.0, -1.0, 1.0, 0.0),
    "face": (0.0, 0.0, 0.0, 1.0, 0.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """The columns of one visit.

    Attributes
    ----------
    responses : tuple of int
        Launch numbers that the device gives, as indices into the launch order.
    delivery : tuple of str
        Delivery covariates, out of head_speed, attack, face_to_path, face, path.
    marks : bool
        Whether any strike was marked.
    visits : int
        Visits there are; each of several has an intercept of its own about the common one.
    """

    responses: tuple[int, ...]
    delivery: tuple[str, ...]
    marks: bool
    visits: int = 1

    @property
    def names(self) -> tuple[str, ...]:
        """Covariates in the order of the design's columns."""
        strike = STRIKE_COLUMNS if self.marks else ()
        return ("intercept", *strike, *self.delivery, *ORDER_COLUMNS, *self.visit_names)

    @property
    def visit_names(self) -> tuple[str, ...]:
        """Columns of the visits' own intercepts; none with a single visit."""
        return tuple(f"visit_{place}" for place in range(self.visits)) if self.visits > 1 else ()

    def index(self, *names: str) -> list[int]:
        """Return the design's columns with these names, absent ones left out."""
        own = self.names
        return [own.index(name) for name in names if name in own]

    @property
    def functionals(self) -> FloatArray:
        """The delivery covariates as combinations of the delivery's parts, shape (k, 5)."""
        rows = [_FUNCTIONALS[name] for name in self.delivery]
        return np.array(rows, dtype=np.float64).reshape(len(rows), len(PART_NAMES))

    @property
    def unmeasured(self) -> tuple[bool, ...]:
        """Which parts of the delivery no column shows, in the order of the parts."""
        return tuple(not self.functionals[:, part].any() for part in range(len(PART_NAMES)))


def columns_of(balls: Balls) -> Columns:
    """Return the columns that these balls can fill."""
    launch = np.isfinite(balls.launch).any(axis=0)
    filled = [bool(np.isfinite(column).any()) for column in balls.delivery.T]
    measured = dict(zip(DELIVERY_NAMES, filled, strict=True))
    delivery = [name for name in ("head_speed", "attack") if measured[name]]
    if measured["face"] and measured["path"]:
        delivery += ["face_to_path", "face"]
    elif measured["face"] or measured["path"]:
        delivery += ["face" if measured["face"] else "path"]
    return Columns(
        responses=tuple(int(r) for r in np.flatnonzero(launch)),
        delivery=tuple(delivery),
        marks=bool(np.isfinite(balls.marks).all(axis=1).any()),
        visits=max(len(balls.visits), 1),
    )


def delivery_covariates(balls: Balls, columns: Columns, origin: FloatArray) -> FloatArray:
    """Return the delivery covariates from an origin, in mph and degrees.

    Parameters
    ----------
    balls : Balls
    columns : Columns
    origin : FloatArray, shape (5,)
        Parts of the delivery that count as zero [m/s, rad].

    Returns
    -------
    FloatArray, shape (n, k)
        NaN where missing.
    """
    units = np.array([SPEED_UNIT] + 3 * [ANGLE_UNIT])
    parts = (balls.delivery - origin[:4]) / units
    functionals = columns.functionals[:, :4]
    values = np.full((len(balls), len(columns.delivery)), np.nan)
    for column, row in enumerate(functionals):
        used = row != 0.0
        values[:, column] = parts[:, used] @ row[used]
    return values

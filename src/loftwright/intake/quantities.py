"""The quantities a shot table may hold: dimension, positive side, and what values can be.

Limits are judgements, named as such: a cell beyond `limits` cannot be; a column whose middle
lies outside `possible` contradicts its unit; one inside `typical` under a single unit shows that
unit for drives.
"""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE, YARD

SIDES: Final = MappingProxyType(
    {
        "right": "left",
        "left": "right",
        "open": "closed",
        "closed": "open",
        "in-to-out": "out-to-in",
        "out-to-in": "in-to-out",
        "toe": "heel",
        "heel": "toe",
        "high": "low",
        "low": "high",
        "up": "down",
        "down": "up",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """One quantity of a shot.

    Attributes
    ----------
    means : str
        Its word in the column list.
    dimension : str
        Dimension of its unit; empty for a label.
    field : str
        Field of `domain.shot.Shot` it fills; empty where it is only used for another.
    positive : str
        The side that counts positive; empty for a quantity without sides.
    limits, possible, typical : tuple of float
        Ranges in SI: of a cell, of a column's middle, of a column's middle for drives. The
        middle is the median, of a quantity with sides the upper quartile of its size.
    units : tuple of str
        Units it may be given in.
    asked : bool
        Whether a doubt about it stops the reading; of the others the column is left out.
    """

    means: str
    dimension: str = ""
    field: str = ""
    positive: str = ""
    limits: tuple[float, float] = (0.0, 0.0)
    possible: tuple[float, float] = (0.0, 0.0)
    typical: tuple[float, float] = (0.0, 0.0)
    units: tuple[str, ...] = ()
    asked: bool = False

    @property
    def numeric(self) -> bool:
        """Whether its cells are numbers with a unit."""
        return bool(self.dimension)

    @property
    def sided(self) -> bool:
        """Whether its values lie about zero, so that their size shows the unit."""
        return self.positive not in {"", "up"} or self.means == "attack"

    @property
    def golfers_sign(self) -> bool:
        """Whether its sign follows the golfer's hand, not the world's left and right."""
        return self.positive in {"open", "in-to-out"}

    def sign_of(self, side: str) -> tuple[int, bool]:
        """Return the sign a positive side stands for (0: no side of this), and if it is R or L."""
        if side == self.positive:
            return 1, side == "right"
        if SIDES.get(side) == self.positive:
            return -1, side == "left"
        if self.golfers_sign and side in {"right", "left"}:
            return (1 if side == "right" else -1), True
        return 0, False


# kind: what its figures below are multiples of, and the units it may be given in.
_KINDS: Final = MappingProxyType(
    {
        "speed": ("speed", MILE_PER_HOUR, ("mph", "m/s", "km/h")),
        "angle": ("angle", DEGREE, ("deg", "rad")),
        "spin": ("spin", REVOLUTION_PER_MINUTE, ("rpm", "rad/s", "rev/s")),
        "mark": ("length", MILLIMETRE, ("mm", "in", "cm")),
        "distance": ("length", YARD, ("yd", "m", "ft")),
        "time": ("time", 1.0, ("s", "ms")),
    }
)
_NOT_ASKED: Final = frozenset(
    {"dynamic loft", "total", "offline", "peak height", "landing angle", "flight time"}
)


def _measured(
    kind: str,
    means: str,
    positive: str,
    limits: tuple[float, float],
    possible: tuple[float, float],
    typical: tuple[float, float],
    *,
    field: str | None = None,
) -> Quantity:
    dimension, unit, units = _KINDS[kind]
    return Quantity(
        means=means,
        dimension=dimension,
        field=means.replace(" ", "_") if field is None else field,
        positive=positive,
        limits=(limits[0] * unit, limits[1] * unit),
        possible=(possible[0] * unit, possible[1] * unit),
        typical=(typical[0] * unit, typical[1] * unit),
        units=units,
        asked=means not in _NOT_ASKED,
    )


def _label(means: str) -> Quantity:
    return Quantity(means=means, field=means.replace(" ", "_"))


_ALL: Final = (
    *map(_label, ("ball", "time", "club", "golfer")),
    # Above 200 mph only long-drive competitors are; a slower golfer's km/h come to it.
    _measured("speed", "ball speed", "", (4.5, 235), (40, 200), (95, 195)),
    _measured("angle", "launch", "up", (-20, 70), (0.5, 50), (3, 25)),
    _measured("angle", "direction", "right", (-60, 60), (0.1, 30), (0.6, 20)),
    _measured("spin", "spin", "", (0, 15000), (300, 12500), (1000, 6000)),
    _measured("spin", "back spin", "", (-5000, 15000), (10, 12500), (1000, 6000), field=""),
    _measured("spin", "side spin", "right", (-8000, 8000), (10, 12500), (50, 2500), field=""),
    _measured("angle", "axis", "right", (-90, 90), (0.1, 70), (1, 50)),
    _measured("speed", "head speed", "", (11, 168), (30, 155), (60, 135)),
    _measured("angle", "attack", "up", (-30, 30), (0.1, 20), (0.5, 15)),
    _measured("angle", "path", "in-to-out", (-40, 40), (0.1, 25), (0.6, 20)),
    _measured("angle", "face", "open", (-40, 40), (0.1, 25), (0.6, 20)),
    _measured("angle", "face to path", "open", (-50, 50), (0.1, 30), (0.6, 20), field=""),
    _measured("angle", "dynamic loft", "", (-20, 70), (0.5, 60), (4, 30)),
    _measured("mark", "strike toe", "toe", (-65, 65), (1.5, 45), (3, 30)),
    _measured("mark", "strike high", "high", (-45, 45), (1.5, 45), (2.5, 25)),
    *map(_label, ("mark set", "read")),
    _measured("distance", "carry", "", (0, 450), (20, 400), (90, 340)),
    _measured("distance", "total", "", (0, 550), (20, 450), (100, 380)),
    _measured("distance", "offline", "right", (-250, 250), (0.5, 120), (5, 70)),
    _measured("distance", "peak height", "", (0, 120), (1, 80), (10, 60)),
    _measured("angle", "landing angle", "", (-90, 90), (2, 80), (15, 60)),
    _measured("time", "flight time", "", (0, 15), (0.5, 12), (2, 9)),
    *map(_label, ("feel", "note")),
    Quantity(means="ignore"),
)
QUANTITIES: Final = MappingProxyType({quantity.means: quantity for quantity in _ALL})
LAUNCH_NUMBERS: Final = ("ball speed", "launch", "direction", "spin", "axis")
IMPORTANT: Final = (
    *LAUNCH_NUMBERS,
    "head speed",
    "attack",
    "path",
    "face",
    "strike toe",
    "strike high",
)

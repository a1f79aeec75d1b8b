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


def _speed(
    means: str, field: str, limits: tuple[float, float], **kw: tuple[float, float]
) -> Quantity:
    return Quantity(
        means=means,
        dimension="speed",
        field=field,
        limits=limits,
        possible=kw["possible"],
        typical=kw["typical"],
        units=("mph", "m/s", "km/h"),
        asked=True,
    )


def _angle(
    means: str,
    field: str,
    positive: str,
    limit: tuple[float, float],
    possible: tuple[float, float],
    typical: tuple[float, float],
    *,
    asked: bool = True,
) -> Quantity:
    return Quantity(
        means=means,
        dimension="angle",
        field=field,
        positive=positive,
        limits=(limit[0] * DEGREE, limit[1] * DEGREE),
        possible=(possible[0] * DEGREE, possible[1] * DEGREE),
        typical=(typical[0] * DEGREE, typical[1] * DEGREE),
        units=("deg", "rad"),
        asked=asked,
    )


def _spin(
    means: str, field: str, positive: str, lowest: float, typical: tuple[float, float]
) -> Quantity:
    low = 300.0 if lowest == 0.0 and means != "side spin" else 10.0
    return Quantity(
        means=means,
        dimension="spin",
        field=field,
        positive=positive,
        limits=(lowest * REVOLUTION_PER_MINUTE, 15000.0 * REVOLUTION_PER_MINUTE),
        possible=(low * REVOLUTION_PER_MINUTE, 12500.0 * REVOLUTION_PER_MINUTE),
        typical=(typical[0] * REVOLUTION_PER_MINUTE, typical[1] * REVOLUTION_PER_MINUTE),
        units=("rpm", "rad/s", "rev/s"),
        asked=True,
    )


def _mark(
    means: str, field: str, positive: str, limit: float, typical: tuple[float, float]
) -> Quantity:
    return Quantity(
        means=means,
        dimension="length",
        field=field,
        positive=positive,
        limits=(-limit * MILLIMETRE, limit * MILLIMETRE),
        possible=(0.2 * MILLIMETRE, 45.0 * MILLIMETRE),
        typical=(typical[0] * MILLIMETRE, typical[1] * MILLIMETRE),
        units=("mm", "in", "cm"),
        asked=True,
    )


def _distance(
    means: str,
    field: str,
    positive: str,
    limits: tuple[float, float],
    possible: tuple[float, float],
    typical: tuple[float, float],
    *,
    asked: bool = False,
) -> Quantity:
    return Quantity(
        means=means,
        dimension="length",
        field=field,
        positive=positive,
        limits=(limits[0] * YARD, limits[1] * YARD),
        possible=(possible[0] * YARD, possible[1] * YARD),
        typical=(typical[0] * YARD, typical[1] * YARD),
        units=("yd", "m", "ft"),
        asked=asked,
    )


_ALL: Final = (
    *(Quantity(means=means, field=means) for means in ("ball", "time", "club", "golfer")),
    _speed(
        "ball speed",
        "ball_speed",
        (2.0, 105.0),
        # Above this only long-drive competitors are; a slower golfer's km/h come to it.
        possible=(40.0 * MILE_PER_HOUR, 200.0 * MILE_PER_HOUR),
        typical=(95.0 * MILE_PER_HOUR, 195.0 * MILE_PER_HOUR),
    ),
    _angle("launch", "launch", "up", (-20.0, 70.0), (0.5, 50.0), (3.0, 25.0)),
    _angle("direction", "direction", "right", (-60.0, 60.0), (0.1, 30.0), (0.6, 20.0)),
    _spin("spin", "spin", "", 0.0, (1000.0, 6000.0)),
    _spin("back spin", "", "", -5000.0, (1000.0, 6000.0)),
    _spin("side spin", "", "right", -8000.0, (50.0, 2500.0)),
    _angle("axis", "axis", "right", (-90.0, 90.0), (0.1, 70.0), (1.0, 50.0)),
    _speed(
        "head speed",
        "head_speed",
        (5.0, 75.0),
        possible=(30.0 * MILE_PER_HOUR, 155.0 * MILE_PER_HOUR),
        typical=(60.0 * MILE_PER_HOUR, 135.0 * MILE_PER_HOUR),
    ),
    _angle("attack", "attack", "up", (-30.0, 30.0), (0.1, 20.0), (0.5, 15.0)),
    _angle("path", "path", "in-to-out", (-40.0, 40.0), (0.1, 25.0), (0.6, 20.0)),
    _angle("face", "face", "open", (-40.0, 40.0), (0.1, 25.0), (0.6, 20.0)),
    _angle("face to path", "", "open", (-50.0, 50.0), (0.1, 30.0), (0.6, 20.0)),
    _angle(
        "dynamic loft", "dynamic_loft", "", (-20.0, 70.0), (0.5, 60.0), (4.0, 30.0), asked=False
    ),
    _mark("strike toe", "strike_toe", "toe", 65.0, (3.0, 30.0)),
    _mark("strike high", "strike_high", "high", 45.0, (2.5, 25.0)),
    *(Quantity(means=means, field=means.replace(" ", "_")) for means in ("mark set", "read")),
    _distance("carry", "carry", "", (0.0, 450.0), (20.0, 400.0), (90.0, 340.0), asked=True),
    _distance("total", "total", "", (0.0, 550.0), (20.0, 450.0), (100.0, 380.0)),
    _distance("offline", "offline", "right", (-250.0, 250.0), (0.5, 120.0), (5.0, 70.0)),
    _distance("peak height", "peak_height", "", (0.0, 120.0), (1.0, 80.0), (10.0, 60.0)),
    _angle(
        "landing angle", "landing_angle", "", (-90.0, 90.0), (2.0, 80.0), (15.0, 60.0), asked=False
    ),
    Quantity(
        means="flight time",
        dimension="time",
        field="flight_time",
        limits=(0.0, 15.0),
        possible=(0.5, 12.0),
        typical=(2.0, 9.0),
        units=("s", "ms"),
    ),
    *(Quantity(means=means, field=means) for means in ("feel", "note")),
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

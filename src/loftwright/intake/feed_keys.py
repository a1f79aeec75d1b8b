"""The keys of one ball in a shot feed: one table for parser, schema and documentation."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from loftwright.intake.quantities import QUANTITIES
from loftwright.units import find_unit

LONGEST_LABEL: Final = 80
LONGEST_KEY: Final = 200
LONGEST_LINE: Final = 4096

# How a unit is written at the end of a key, by its name in print.
_SUFFIXES: Final = MappingProxyType({"m/s": "ms", "km/h": "kmh"})


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberKey:
    """A key for a number.

    Attributes
    ----------
    name : str
        As it is sent.
    means : str
        Its word of the column list.
    unit : str
        Its unit in print.
    scale : float
        SI = value * scale.
    low, high : float
        What it may be, in its own unit.
    says : str
        What it is, in words.
    """

    name: str
    means: str
    unit: str
    scale: float
    low: float
    high: float
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TextKey:
    """A key for a text of limited length."""

    name: str
    longest: int
    says: str


_SPEED: Final = ("mph", "m/s", "km/h")
_DISTANCE: Final = ("yd", "m")

# word of the column list: (units, what it is)
_NUMBERS: Final = MappingProxyType(
    {
        "ball speed": (_SPEED, "Speed of the ball off the face."),
        "launch": (("deg",), "Launch angle, up positive."),
        "direction": (("deg",), "Start direction, right of the target positive for every golfer."),
        "spin": (("rpm",), "Spin rate, the whole of it."),
        "axis": (
            ("deg",),
            "Tilt of the spin axis from the horizontal; positive curves to the right.",
        ),
        "back spin": (
            ("rpm",),
            "Spin about the horizontal; with side spin it gives spin and axis.",
        ),
        "side spin": (("rpm",), "Spin about the vertical; positive curves to the right."),
        "head speed": (_SPEED, "Speed of the club head at the ball."),
        "attack": (("deg",), "Attack angle, up positive."),
        "path": (("deg",), "Club path, in-to-out positive for either hand."),
        "face": (("deg",), "Face angle to the target, open positive for either hand."),
        "face to path": (
            ("deg",),
            "Face less path, open positive; gives the one that is missing.",
        ),
        "dynamic loft": (("deg",), "Loft at the ball."),
        "strike toe": (("mm",), "Strike on the face, towards the toe positive."),
        "strike high": (("mm",), "Strike on the face, up positive."),
        "carry": (_DISTANCE, "The device's own carry."),
        "total": (_DISTANCE, "The device's own carry and run."),
        "offline": (_DISTANCE, "The device's own distance from the line, right positive."),
        "peak height": (("yd", "ft", "m"), "The device's own greatest height."),
        "landing angle": (("deg",), "The device's own angle of descent."),
        "flight time": (("s",), "The device's own time in the air."),
    }
)


def _number_key(means: str, unit_name: str, says: str) -> NumberKey:
    unit = find_unit(unit_name)
    if unit is None:
        raise LookupError(f"the table of units lacks {unit_name}")
    low, high = (float(f"{limit / unit.scale:.4g}") for limit in QUANTITIES[means].limits)
    suffix = _SUFFIXES.get(unit_name, unit_name)
    return NumberKey(
        name=f"{means.replace(' ', '_')}_{suffix}",
        means=means,
        unit=unit_name,
        scale=unit.scale,
        low=low,
        high=high,
        says=says,
    )


NUMBER_KEYS: Final = MappingProxyType(
    {
        key.name: key
        for means, (units, says) in _NUMBERS.items()
        for key in (_number_key(means, unit, says) for unit in units)
    }
)
"""Every key for a number, by its name; the keys of one quantity stand together."""

TEXT_KEYS: Final = MappingProxyType(
    {
        key.name: key
        for key in (
            TextKey(
                name="key",
                longest=LONGEST_KEY,
                says="Your own name for this ball: new with each ball, the same when it is sent "
                "again. Needed.",
            ),
            TextKey(
                name="club",
                longest=LONGEST_LABEL,
                says="The club, as the fitting calls it; without it the ball goes to the club in "
                "hand.",
            ),
            TextKey(
                name="time", longest=LONGEST_LABEL, says="The device's own time, as it has it."
            ),
            TextKey(name="device", longest=LONGEST_LABEL, says="What measured the ball."),
            TextKey(
                name="line",
                longest=LONGEST_LINE,
                says="The device's own line, letter for letter; without it the whole record is "
                "kept.",
            ),
        )
    }
)
"""Every key for a text, by its name."""

READ_KEY: Final = "read"
READ_SAYS: Final = "False for a ball that was hit and not read; it counts, without numbers."

KEYS: Final = ("key", *NUMBER_KEYS, *(name for name in TEXT_KEYS if name != "key"), READ_KEY)
"""All keys, in the order in which they are documented."""

EXAMPLE: Final[Mapping[str, str | float]] = MappingProxyType(
    {
        "key": "bay-1-0017",
        "ball_speed_mph": 148.2,
        "launch_deg": 12.1,
        "direction_deg": -2.0,
        "spin_rpm": 2510,
        "axis_deg": 8.0,
        "club": "Birch",
        "time": "10:42:07",
    }
)
"""A ball to copy."""

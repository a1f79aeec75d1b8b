"""Units as people write them: our own words first, pint for the rest, dimensions always checked.

The trade's words stand in a table with their exact sizes, because a units library refuses or
misreads some of them (cpm, rev, RPM, the inch mark, degrees per foot-pound) and because turns,
cycles, angles and shares all have the same physical dimension and must still not be mixed.
Anything else is asked of pint and admitted for dimensions that cannot be mistaken.
"""

import math
import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from loftwright import constants as c
from loftwright.errors import InputError

if TYPE_CHECKING:
    import pint

_PINT_DIMENSIONS: Final = MappingProxyType(
    {
        "speed": "[length] / [time]",
        "length": "[length]",
        "mass": "[mass]",
        "temperature": "[temperature]",
        "time": "[time]",
        "pressure": "[mass] / [length] / [time] ** 2",
        "force": "[mass] * [length] / [time] ** 2",
    }
)
_SI: Final = MappingProxyType(
    {
        "speed": "m/s",
        "length": "m",
        "mass": "kg",
        "temperature": "kelvin",
        "time": "s",
        "pressure": "Pa",
        "force": "N",
    }
)
DIMENSIONS: Final = (*_PINT_DIMENSIONS, "angle", "spin", "frequency", "share", "twist", "moment")


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit: SI = value * scale + offset.

    Attributes
    ----------
    name : str
        The word used in print.
    dimension : str
        One of `DIMENSIONS`; turns (`spin`), cycles (`frequency`), angles and shares differ.
    """

    name: str
    dimension: str
    scale: float
    offset: float = 0.0


_POUND: Final = 0.45359237
_POUND_FORCE: Final = _POUND * c.GRAVITY
_FAHRENHEIT_ZERO: Final = 459.67 * 5.0 / 9.0

# dimension: (print name, scale, offset, words beside the name)
_WORDS: Final = MappingProxyType(
    {
        "speed": (
            (
                "mph",
                c.MILE_PER_HOUR,
                0.0,
                "mi/h|miles/h|miles/hour|milesperhour|mile/h|mls/h|mih-1",
            ),
            ("m/s", 1.0, 0.0, "mps|m/sec|ms-1|m/sek|meterspersecond|metrespersecond"),
            (
                "km/h",
                1.0 / 3.6,
                0.0,
                "kmh|kph|km/std|km/hr|kmph|km/u|km/tim|kmh-1|kilometersperhour",
            ),
            ("ft/s", c.FOOT, 0.0, "fps|ft/sec|feet/s|feetpersecond"),
        ),
        "length": (
            ("yd", c.YARD, 0.0, "yds|yard|yards|yrd|yrds|verges|yardas|iarde|ヤード|야드"),
            ("m", 1.0, 0.0, "metre|metres|meter|meters|mtr|mts|metros|metri|mètres|メートル|미터"),
            ("ft", c.FOOT, 0.0, "foot|feet|'|pieds|piedi|pies|fuss"),
            ("in", c.INCH, 0.0, "inch|inches|\"|''|zoll|pouces|pulgadas|pollici|tum"),
            ("mm", 1e-3, 0.0, "millimetre|millimetres|millimeter|millimeters"),
            ("cm", 1e-2, 0.0, "centimetre|centimetres|centimeter|centimeters"),
            ("km", 1e3, 0.0, "kilometre|kilometres|kilometer|kilometers"),
            ("mile", 5280.0 * c.FOOT, 0.0, "miles|mi"),
        ),
        "angle": (
            (
                "deg",
                c.DEGREE,
                0.0,
                "degs|degree|degrees|°|dg|grad|grader|graden|gradi|grados|degrés|度|도",
            ),
            ("rad", 1.0, 0.0, "radian|radians"),
            ("rev", 2.0 * math.pi, 0.0, "revs|revolution|revolutions|turn|turns"),
        ),
        "spin": (
            (
                "rpm",
                c.REVOLUTION_PER_MINUTE,
                0.0,
                "rev/min|revs/min|r/min|1/min|min-1|u/min|upm|tr/min|tours/min|giri/min"
                "|varv/min|omw/min|t/min",
            ),
            ("rad/s", 1.0, 0.0, "rad/sec|rads-1|radians/s"),
            ("deg/s", c.DEGREE, 0.0, "°/s|deg/sec|degrees/s"),
            ("rev/s", 2.0 * math.pi, 0.0, "rps|revs/s|rev/sec|r/s"),
        ),
        "mass": (
            ("g", 1e-3, 0.0, "gram|grams|gm|gms|gramm|grammes"),
            ("kg", 1.0, 0.0, "kilogram|kilograms|kilo"),
            ("oz", _POUND / 16.0, 0.0, "ounce|ounces"),
            ("lb", _POUND, 0.0, "lbs|pound|pounds"),
            ("gr", _POUND / 7000.0, 0.0, "grain|grains"),
        ),
        "temperature": (
            ("degF", 5.0 / 9.0, _FAHRENHEIT_ZERO, "°f|f|fahrenheit"),
            ("degC", 1.0, 273.15, "°c|c|celsius|centigrade|grad celsius"),
            ("K", 1.0, 0.0, "kelvin|degk|°k"),
        ),
        "time": (
            (
                "s",
                1.0,
                0.0,
                "sec|secs|second|seconds|sek|sekunden|secondes|segundos|secondi|秒|초",
            ),
            ("min", 60.0, 0.0, "mins|minute|minutes|minuten|minuti|minutos"),
            ("ms", 1e-3, 0.0, "millisecond|milliseconds|msec"),
            ("h", 3600.0, 0.0, "hour|hours|hr|hrs"),
        ),
        "frequency": (
            ("cpm", 1.0 / 60.0, 0.0, "cycles/min|cyclesperminute|cyc/min"),
            ("Hz", 1.0, 0.0, "hertz|cycles/s|1/s|s-1"),
        ),
        "share": (
            ("%", 0.01, 0.0, "percent|pct|per cent|prozent|pourcent"),
            ("1", 1.0, 0.0, "fraction|share"),
        ),
        "twist": (
            ("deg/ft.lb", c.DEGREE / (c.FOOT * _POUND_FORCE), 0.0, "°/ftlb|°/ft-lb|deg/ft-lb"),
            ("deg/N.m", c.DEGREE, 0.0, "°/nm"),
        ),
        "moment": (
            ("N.m", 1.0, 0.0, "newtonmetre|newtonmeter"),
            ("ft.lb", c.FOOT * _POUND_FORCE, 0.0, "ft-lb|ft-lbs|ftlbs|lb-ft"),
        ),
        "pressure": (
            ("Pa", 1.0, 0.0, "pascal"),
            ("hPa", 100.0, 0.0, "mbar|millibar|hectopascal"),
        ),
        "force": (("N", 1.0, 0.0, "newton|newtons"),),
    }
)


def _key(word: str) -> str:
    text = unicodedata.normalize("NFC", word).strip().strip("[](){}").strip()
    text = text.replace("º", "°").replace("˚", "°").replace("′", "'").replace("″", '"')
    text = text.replace("−", "-").replace("⁻¹", "-1")
    return re.sub(r"[\s.·⋅*]+", "", text).casefold()


@cache
def _known() -> dict[str, Unit]:
    table: dict[str, Unit] = {}
    for dimension, rows in _WORDS.items():
        for name, scale, offset, words in rows:
            unit = Unit(name=name, dimension=dimension, scale=scale, offset=offset)
            for word in (name, *words.split("|")):
                # The unit that comes first in the table keeps a word that two could claim.
                table.setdefault(_key(word), unit)
    return table


@cache
def _registry() -> "pint.UnitRegistry[Any]":
    import pint  # noqa: PLC0415 - pint is slow to import and rarely needed

    return pint.UnitRegistry(cache_folder=None, on_redefinition="ignore")


def _from_pint(word: str) -> Unit | None:
    """Ask pint for a unit that our own words lack; only dimensions beyond mistake pass."""
    import pint  # noqa: PLC0415 - pint is slow to import and rarely needed

    if not re.fullmatch(r"[A-Za-z]{2,20}(/[A-Za-z]{1,20}|\*\*-?[123]|\^-?[123])?", word):
        return None
    registry = _registry()
    try:
        parsed = registry.parse_units(word)
        zero = float(registry.Quantity(0.0, parsed).to_base_units().magnitude)
        one = float(registry.Quantity(1.0, parsed).to_base_units().magnitude)
    except (pint.PintError, ValueError, TypeError, AttributeError, ArithmeticError):
        return None
    for dimension, expression in _PINT_DIMENSIONS.items():
        if registry.get_dimensionality(expression) == parsed.dimensionality:
            return Unit(name=word, dimension=dimension, scale=one - zero, offset=zero)
    return None


@lru_cache(maxsize=1024)
def find_unit(word: str) -> Unit | None:
    """Return the unit a word stands for, or None.

    Parameters
    ----------
    word : str
        A unit as people write it, with or without brackets, in any case.
    """
    if not word or len(word) > 40:
        return None
    known = _known().get(_key(word))
    return known if known is not None else _from_pint(word.strip().strip("[](){}").strip())


@lru_cache(maxsize=4096)
def known_unit(word: str) -> Unit | None:
    """Return the unit a word stands for in our own table alone, or None."""
    return _known().get(_key(word)) if 0 < len(word) <= 40 else None


def unit_of(word: str, dimension: str, *, place: str) -> Unit:
    """Return the unit a word stands for, checked to be of the dimension wanted.

    Raises
    ------
    InputError
        When the word is no unit, or one of another dimension.
    """
    unit = find_unit(word)
    if unit is None:
        raise InputError(
            f"{word[:60]!r} is not a unit that is known here",
            place=place,
            mend=f"Give a unit of {dimension}: {_examples(dimension)}.",
        )
    if unit.dimension != dimension:
        raise InputError(
            f"{word!r} is a unit of {unit.dimension}, not of {dimension}",
            place=place,
            mend=f"Give a unit of {dimension}: {_examples(dimension)}.",
        )
    return unit


def _examples(dimension: str) -> str:
    return ", ".join(name for name, *_ in _WORDS[dimension])


def factor(unit: str, dimension: str) -> tuple[float, float]:
    """Return scale and offset of a unit, so that SI = value * scale + offset.

    Parameters
    ----------
    unit : str
        A unit word (`mph`, `yd`, `°`, ...).
    dimension : str
        One of `DIMENSIONS`.

    Raises
    ------
    InputError
        When the word is no unit of that dimension.
    """
    if dimension not in DIMENSIONS:
        raise InputError(
            f"{dimension!r} is no dimension", place="unit", mend="; ".join(DIMENSIONS)
        )
    found = unit_of(unit, dimension, place="unit")
    return found.scale, found.offset


def to_unit(value_si: float, unit: str) -> float:
    """Return an SI value in a trade unit, for printing.

    Raises
    ------
    InputError
        When the word is no unit.
    """
    found = find_unit(unit)
    if found is None:
        raise InputError(f"{unit!r} is not a unit that is known here", place="unit")
    return (value_si - found.offset) / found.scale


_FEET_INCHES: Final = re.compile(
    r"""(?P<sign>[-+]?)(?P<feet>\d+)\s*(?:'|ft|feet|foot)\s*(?P<inches>\d+(?:\.\d+)?)\s*"""
    r"""(?:"|''|in|inch|inches)?""",
    re.IGNORECASE,
)
_NUMBER_UNIT: Final = re.compile(
    r"(?P<number>[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(?P<unit>\D.*)?"
)


def parse_quantity(text: str, default_unit: str, *, place: str) -> float:
    """Return a value given as text in SI.

    Parameters
    ----------
    text : str
        A plain number in the default unit, or a number with a unit of the same dimension, such
        as ``148``, ``76 m/s``, ``5'11"``; a comma may stand for the decimal point.
    default_unit : str
        The unit of a plain number.
    place : str
        The option or key, for the message.

    Raises
    ------
    InputError
        When the text is no finite number, or its unit is of another dimension.
    """
    default = find_unit(default_unit)
    if default is None:
        raise InputError(f"{default_unit!r} is not a unit that is known here", place=place)
    cleaned = unicodedata.normalize("NFKC", text).replace("−", "-").strip()
    cleaned = cleaned.replace("′", "'").replace("″", '"')
    tall = _FEET_INCHES.fullmatch(cleaned)
    if tall is not None and default.dimension == "length":
        size = float(tall["feet"]) * c.FOOT + float(tall["inches"]) * c.INCH
        if math.isfinite(size):
            return -size if tall["sign"] == "-" else size
    match = _NUMBER_UNIT.fullmatch(cleaned)
    number = float(match["number"].replace(",", ".")) if match is not None else math.nan
    word = match["unit"] if match is not None else None
    unit = unit_of(word, default.dimension, place=place) if word else default
    value = number * unit.scale + unit.offset
    if not math.isfinite(value):
        raise InputError(
            f"{text[:60]!r} is not a number with or without a unit",
            place=place,
            mend=f'Write for example "12.5" or "12.5 {default.name}".',
        )
    return value

"""Reads the settings files of home and head: TOML in trade units, every key known."""

import difflib
import math
import re
import tomllib
from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from pathlib import Path
from typing import Final, TypeVar

from loftwright.constants import (
    DEGREE,
    FOOT,
    GRAM,
    GRAM_SQUARE_CENTIMETRE,
    MILE_PER_HOUR,
    MILLIMETRE,
    YARD,
)
from loftwright.domain.home import Hole, Home, Lie, Trouble, Turf
from loftwright.errors import InputError, IntakeError
from loftwright.intake.files import cannot_open
from loftwright.physics.heads import Head

_MOST_BYTES: Final = 1 << 20
_MOST_HOLES: Final = 36
# The parser takes quadratic time for a key of many parts, and none of ours has five.
_MANY_PARTS: Final = re.compile(rb"(?:[^.\n]*\.){100}")
_DEEPEST: Final = 20
_LARGEST: Final = 1 << 63
_FAHRENHEIT_ZERO: Final = 459.67

_HOME_KEYS: Final = (
    "name",
    "altitude_ft",
    "temperature_f",
    "humidity_percent",
    "turf",
    "wind_along_mph",
    "wind_across_mph",
    "re_aim",
    "holes",
)
_HOLE_KEYS: Final = ("length_yd", "fairway_yd", "trouble", "trouble_from_yd", "trouble_lie")
_HEAD_KEYS: Final = (
    "name",
    "mass_g",
    "cg_mm",
    "inertia_gcm2",
    "bulge_mm",
    "roll_mm",
    "loft_deg",
    "lie_deg",
    "face_deg",
    "restitution",
    "source",
)

Table = Mapping[str, object]
Word = TypeVar("Word", bound=StrEnum)
Built = TypeVar("Built")


def load_toml(path: Path) -> dict[str, object]:
    """Return the content of a TOML file.

    Parameters
    ----------
    path : Path
        The file.

    Raises
    ------
    IntakeError
        When it is missing, unreadable, too large or no TOML.
    """
    try:
        if path.is_dir():
            raise IsADirectoryError
        with path.open("rb") as file:
            content = file.read(_MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        problem = error if isinstance(error, OSError) else OSError(str(error))
        raise cannot_open(path, problem) from error
    if len(content) > _MOST_BYTES:
        raise IntakeError(
            "is larger than a settings file can be",
            place=str(path),
            mend="Give a TOML file of under 1 MB.",
        )
    return parse_toml(content, str(path))


def parse_toml(content: bytes, place: str) -> dict[str, object]:
    """Return what TOML says.

    Raises
    ------
    IntakeError
        When it is none, is nested deeply, or holds a whole number of more than 64 bits.

    References
    ----------
    TOML v1.0.0, Integer: whole numbers have 64 bits, and one that does not fit is an error.
    """
    for number, line in enumerate(content.split(b"\n"), start=1):
        if _MANY_PARTS.match(line):
            raise IntakeError(
                f"has more than a hundred points in line {number}",
                place=place,
                mend="Part that line: no key or value of this file has so many.",
            )
    try:
        told = tomllib.loads(content.decode("utf-8-sig"))
    except (UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise IntakeError(
            f"is no TOML ({error})", place=place, mend="Mend the line it names."
        ) from error
    except (ValueError, RecursionError) as error:
        raise _beyond(place) from error
    _check_bounds(told, place)
    return told


def _check_bounds(told: object, place: str) -> None:
    """Refuse what no message could show: deep nests and numbers of thousands of digits."""
    level = [told]
    for _ in range(_DEEPEST):
        inner: list[object] = []
        for one in level:
            if isinstance(one, Mapping):
                inner += one.values()
            elif isinstance(one, list):
                inner += one
            elif isinstance(one, int) and not -_LARGEST <= one < _LARGEST:
                raise _beyond(place)
        if not inner:
            return
        level = inner
    raise _beyond(place)


def _beyond(place: str) -> IntakeError:
    return IntakeError(
        "is no TOML as ours: nested too deeply, or with a whole number of more than 64 bits",
        place=place,
        mend="Write numbers of a few digits, and tables as the reference of files has them.",
    )


class TableReader:
    """Takes keys out of one table of a file, each of the type it must have."""

    def __init__(self, table: Table, keys: Sequence[str], place: str) -> None:
        self.table, self.place = table, place
        for key in table:
            if key not in keys:
                near = difflib.get_close_matches(key, keys, n=1, cutoff=0.0)
                raise InputError(
                    f"the key {key!r} is not known",
                    place=place,
                    mend=f"The nearest known key is {near[0]!r}; there are {', '.join(keys)}.",
                )

    def error(self, key: str, what: str) -> InputError:
        """Return the error for a key of the wrong type."""
        shown = repr(self.table[key])[:60] if key in self.table else "nothing"
        return InputError(
            f"{shown} is not {what}", place=f"{self.place}, {key}", mend=f"Give {what}."
        )

    def number(self, key: str, default: float | None = None, *, infinite: bool = False) -> float:
        """Return a number, finite unless it may be infinite."""
        value = self.table.get(key, default)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.error(key, "a number")
        try:
            number = float(value)
        except OverflowError:
            number = math.inf
        if math.isnan(number) or (math.isinf(number) and not infinite):
            raise self.error(key, "a finite number")
        return number

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text."""
        value = self.table.get(key, default)
        if not isinstance(value, str):
            raise self.error(key, "a text")
        return value

    def truth(self, key: str, *, default: bool) -> bool:
        """Return true or false."""
        value = self.table.get(key, default)
        if not isinstance(value, bool):
            raise self.error(key, "true or false")
        return value

    def word(self, key: str, kind: type[Word], default: Word) -> Word:
        """Return one of a few words."""
        value = self.text(key, default.value)
        try:
            return kind(value.strip().casefold())
        except ValueError:
            raise self.error(key, f"one of {', '.join(kind)}") from None

    def numbers(self, key: str, count: int) -> list[float]:
        """Return a row of finite numbers."""
        return self._row(key, self.table.get(key), count)

    def square(self, key: str, count: int) -> list[list[float]]:
        """Return a square of finite numbers."""
        rows = self.table.get(key)
        if not isinstance(rows, list) or len(rows) != count:
            raise self.error(key, f"{count} rows of {count} numbers")
        return [self._row(key, row, count) for row in rows]

    def _row(self, key: str, row: object, count: int) -> list[float]:
        if not isinstance(row, list) or len(row) != count:
            raise self.error(key, f"a row of {count} numbers")
        numbers = []
        for value in row:
            if isinstance(value, bool) or not isinstance(value, int | float):
                raise self.error(key, f"a row of {count} numbers")
            number = float(value) if abs(value) < 1e300 else math.inf
            if not math.isfinite(number):
                raise self.error(key, "finite numbers")
            numbers.append(number)
        return numbers


def placed(build: Callable[[], Built], place: str) -> Built:
    """Build a value and let its own error name the file as well."""
    try:
        return build()
    except InputError as error:
        inner = error.place
        if inner and not inner.startswith(place):
            inner = f"{place}, {inner}"
        mend = error.mend or "Mend that value in the file."
        raise InputError(error.message, place=inner or place, mend=mend) from error


def _hole(table: object, place: str) -> Hole:
    if not isinstance(table, dict):
        raise InputError("a hole is a table of keys", place=place, mend="Write [[holes]].")
    reader = TableReader(table, _HOLE_KEYS, place)
    standard = Hole()
    return placed(
        lambda: Hole(
            length=reader.number("length_yd", standard.length / YARD) * YARD,
            fairway=reader.number("fairway_yd", standard.fairway / YARD) * YARD,
            trouble=reader.word("trouble", Trouble, standard.trouble),
            trouble_from=reader.number("trouble_from_yd", standard.trouble_from / YARD) * YARD,
            trouble_lie=reader.word("trouble_lie", Lie, standard.trouble_lie),
        ),
        place,
    )


def read_home(path: Path) -> Home:
    """Return the golfer's home from a TOML file.

    Parameters
    ----------
    path : Path
        Keys ``name, altitude_ft, temperature_f, humidity_percent, turf, wind_along_mph,
        wind_across_mph, re_aim`` and any number of ``[[holes]]`` with ``length_yd, fairway_yd,
        trouble, trouble_from_yd, trouble_lie``; what is left out is as at the standard home.

    Raises
    ------
    IntakeError
        When the file cannot be read.
    InputError
        When a key is not known or a value cannot be.
    """
    place = str(path)
    reader = TableReader(load_toml(path), _HOME_KEYS, place)
    standard = Home()
    holes = reader.table.get("holes", [])
    if not isinstance(holes, list) or len(holes) > _MOST_HOLES:
        raise reader.error("holes", f"a list of at most {_MOST_HOLES} [[holes]]")
    fahrenheit = standard.temperature * 9.0 / 5.0 - _FAHRENHEIT_ZERO
    return placed(
        lambda: Home(
            name=reader.text("name", standard.name),
            altitude=reader.number("altitude_ft", standard.altitude / FOOT) * FOOT,
            temperature=(reader.number("temperature_f", fahrenheit) + _FAHRENHEIT_ZERO)
            * 5.0
            / 9.0,
            humidity=reader.number("humidity_percent", 100.0 * standard.humidity) / 100.0,
            turf=reader.word("turf", Turf, standard.turf),
            wind_along=reader.number("wind_along_mph", 0.0) * MILE_PER_HOUR,
            wind_across=reader.number("wind_across_mph", 0.0) * MILE_PER_HOUR,
            re_aim=reader.truth("re_aim", default=standard.re_aim),
            holes=tuple(
                _hole(hole, f"{place}, hole {number}") for number, hole in enumerate(holes, 1)
            ),
        ),
        place,
    )


def read_head(path: Path) -> Head:
    """Return a club head from a TOML file.

    Parameters
    ----------
    path : Path
        Keys ``name, mass_g, cg_mm`` (normal, up, toe from the face centre), ``inertia_gcm2``
        (3 x 3, same axes), ``bulge_mm, roll_mm, loft_deg, lie_deg, face_deg, restitution,
        source``.

    Raises
    ------
    IntakeError
        When the file cannot be read.
    InputError
        When a key is not known or missing, or a value cannot be.
    """
    place = str(path)
    reader = TableReader(load_toml(path), _HEAD_KEYS, place)
    return placed(
        lambda: Head(
            name=reader.text("name"),
            mass=reader.number("mass_g") * GRAM,
            cg=[value * MILLIMETRE for value in reader.numbers("cg_mm", 3)],  # type: ignore[arg-type]
            inertia=[  # type: ignore[arg-type]
                [value * GRAM_SQUARE_CENTIMETRE for value in row]
                for row in reader.square("inertia_gcm2", 3)
            ],
            bulge=reader.number("bulge_mm", infinite=True) * MILLIMETRE,
            roll=reader.number("roll_mm", infinite=True) * MILLIMETRE,
            loft=reader.number("loft_deg") * DEGREE,
            lie=reader.number("lie_deg") * DEGREE,
            face_angle=reader.number("face_deg", 0.0) * DEGREE,
            restitution=reader.number("restitution"),
            source=reader.text("source", ""),
        ),
        place,
    )

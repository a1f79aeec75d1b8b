"""Reads training cases from their files: TOML in trade units, every key known."""

import difflib
import math
import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR, MILLIMETRE
from loftwright.domain.golfer import Hand
from loftwright.errors import InputError
from loftwright.training.case import Case, CaseClub, Spell, WarmUp
from loftwright.training.golfer import ABILITIES, SWING_UNITS

ENDING: Final = ".toml"
SWING_KEYS: Final = (
    "head_speed_mph",
    "attack_deg",
    "path_deg",
    "face_deg",
    "dynamic_loft_deg",
    "strike_toe_mm",
    "strike_high_mm",
)
"""Keys of a swing, in the order of swing columns."""

LARGEST: Final = (150.0, 15.0, 20.0, 20.0, 35.0, 30.0, 20.0)
"""No mean lies further from zero."""

_CASE: Final = (
    *("golfer", "brief", "lesson", "goal", "ability", "hand", "device", "balls", "minutes"),
    *("order", "seed", "dropped", "swing", "warm_up", "own", "clubs", "spells"),
)
_CLUB: Final = ("shaft", "label", "loft_deg", "length_inch", "shaft_g", "does")
_SPELL: Final = ("shaft", "first", "last", "strike_toe_mm", "strike_high_mm")
_WARM_UP: Final = ("speed_mph", "strike_high_mm", "balls")
_MINUTE: Final = 60.0


@cache
def known_cases() -> tuple[Case, ...]:
    """Return the cases that come with Loftwright, in the order of their names.

    Raises
    ------
    InputError
        If a file holds what no case can be.
    """
    folder = resources.files("loftwright.training").joinpath("cases")
    files = sorted(one.name for one in folder.iterdir() if one.name.endswith(ENDING))
    return tuple(
        read_case(folder.joinpath(name).read_text(encoding="utf-8"), name.removesuffix(ENDING))
        for name in files
    )


def case_named(name: str) -> Case:
    """Return a case by its name.

    Raises
    ------
    InputError
        For an unknown name.
    """
    found = {case.name: case for case in known_cases()}
    if name not in found:
        near = difflib.get_close_matches(name, found, n=1)
        hint = f"The nearest is {near[0]}; there" if near else "There"
        raise InputError(
            f"no case is called {name!r}", place="case", mend=f"{hint} are {', '.join(found)}."
        )
    return found[name]


def read_case(text: str, name: str) -> Case:
    """Return the case that a file states.

    Parameters
    ----------
    text : str
        TOML; the keys carry their units.
    name : str
        Of the case; errors name it as their place.

    Returns
    -------
    Case

    Raises
    ------
    InputError
        Naming the key, what stands there and what may.
    """
    try:
        top = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(
            f"is no TOML ({error})", place=name, mend="Mend the line it names."
        ) from error
    table = _Table(top, _CASE, name)
    ability = table.text("ability")
    if ability not in ABILITIES:
        raise table.error("ability", f"one of {', '.join(ABILITIES)}")
    try:
        return Case(
            name=name,
            golfer=table.text("golfer"),
            brief=table.text("brief").strip(),
            lesson=table.text("lesson").strip(),
            ability=ability,
            hand=_hand(table),
            goal=table.text("goal"),
            mean=_swing(table.part("swing", SWING_KEYS), ABILITIES[ability].mean / SWING_UNITS),
            clubs=tuple(
                _club(one) for one in (table.part("own", _CLUB), *table.parts("clubs", _CLUB))
            ),
            spells=tuple(_spell(one) for one in table.parts("spells", _SPELL)),
            dropped=table.whole_numbers("dropped"),
            warm_up=_warm_up(table.part("warm_up", _WARM_UP)),
            device=table.text("device", "full"),
            balls=table.whole("balls"),
            seconds=table.number("minutes", 1.0, 240.0) * _MINUTE,
            order=table.text("order", "sets"),
            seed=table.whole("seed"),
        )
    except InputError as error:
        if error.place.startswith(name):
            raise
        raise InputError(error.message, place=f"{name}, {error.place}", mend=error.mend) from error


class _Table:
    """Takes keys out of one table of a case, each of the type it must have."""

    def __init__(self, table: Mapping[str, Any], keys: Sequence[str], place: str) -> None:
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
        """Return the error for a key that does not hold what it must."""
        shown = repr(self.table[key])[:60] if key in self.table else "nothing"
        return InputError(
            f"{shown} is not {what}", place=f"{self.place}, {key}", mend=f"Give {what}."
        )

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text that is not empty."""
        found = self.table.get(key, default)
        if not isinstance(found, str) or not found.strip():
            raise self.error(key, "a text")
        return found

    def number(self, key: str, least: float, most: float, default: float | None = None) -> float:
        """Return a number within bounds."""
        found = self.table.get(key, default)
        wrong = isinstance(found, bool) or not isinstance(found, int | float)
        if wrong or not math.isfinite(found) or not least <= found <= most:
            raise self.error(key, f"a number from {least:g} to {most:g}")
        return float(found)

    def whole(self, key: str) -> int:
        """Return a whole number."""
        found = self.table.get(key)
        if isinstance(found, bool) or not isinstance(found, int):
            raise self.error(key, "a whole number")
        return found

    def whole_numbers(self, key: str) -> tuple[int, ...]:
        """Return a list of whole numbers; none without the key."""
        found = self.table.get(key, [])
        if not isinstance(found, list) or any(type(one) is not int for one in found):
            raise self.error(key, "a list of whole numbers")
        return tuple(found)

    def part(self, key: str, keys: Sequence[str]) -> "_Table":
        """Return a table within; an empty one without the key."""
        found = self.table.get(key, {})
        if not isinstance(found, dict):
            raise self.error(key, f"a table [{key}]")
        return _Table(found, keys, f"{self.place}, {key}")

    def parts(self, key: str, keys: Sequence[str]) -> tuple["_Table", ...]:
        """Return a list of tables; none without the key."""
        found = self.table.get(key, [])
        if not isinstance(found, list) or any(not isinstance(one, dict) for one in found):
            raise self.error(key, f"a list of tables [[{key}]]")
        return tuple(
            _Table(one, keys, f"{self.place}, {key} {place}")
            for place, one in enumerate(found, start=1)
        )


def _hand(table: _Table) -> Hand:
    word = table.text("hand", Hand.RIGHT.value)
    if word not in set(Hand):
        raise table.error("hand", "right or left")
    return Hand(word)


def _swing(table: _Table, usual: FloatArray) -> FloatArray:
    """Return a swing in swing columns; what is not stated is the usual."""
    stated = [
        table.number(key, -most, most, float(known))
        for key, most, known in zip(SWING_KEYS, LARGEST, usual.tolist(), strict=True)
    ]
    return np.array(stated) * SWING_UNITS


def _club(table: _Table) -> CaseClub:
    return CaseClub(
        shaft=table.text("shaft"),
        label=table.text("label"),
        loft=table.number("loft_deg", 4.0, 20.0) * DEGREE,
        length=table.number("length_inch", 40.0, 48.0) * INCH,
        shaft_mass=table.number("shaft_g", 30.0, 140.0) * GRAM,
        does=_swing(table.part("does", SWING_KEYS), np.zeros(7)),
    )


def _spell(table: _Table) -> Spell:
    return Spell(
        shaft=table.text("shaft"),
        first=table.whole("first"),
        last=table.whole("last"),
        toe=table.number("strike_toe_mm", -30.0, 30.0, 0.0) * MILLIMETRE,
        high=table.number("strike_high_mm", -20.0, 20.0, 0.0) * MILLIMETRE,
    )


def _warm_up(table: _Table) -> WarmUp:
    usual = WarmUp()
    return WarmUp(
        speed=table.number("speed_mph", -15.0, 0.0, usual.speed / MILE_PER_HOUR) * MILE_PER_HOUR,
        high=table.number("strike_high_mm", -15.0, 15.0, usual.high / MILLIMETRE) * MILLIMETRE,
        balls=table.number("balls", 1.0, 60.0, usual.balls),
    )

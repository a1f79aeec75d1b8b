"""Reads one ball of a shot feed: numbers with their unit in the key, nothing guessed."""

import difflib
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.domain.device import Column, Origin
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import IntakeError
from loftwright.intake.derive import derive
from loftwright.intake.feed_keys import (
    KEYS,
    NUMBER_KEYS,
    READ_KEY,
    TEXT_KEYS,
    NumberKey,
    TextKey,
)
from loftwright.intake.quantities import QUANTITIES
from loftwright.intake.swings import UNREAD_FIELDS
from loftwright.units import find_unit

_SHOWN: Final = 60
_NEAR: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedShot:
    """A ball as a feed, a file or a person gave it.

    Attributes
    ----------
    key : str
        Idempotency key: a ball whose key is known already is the same ball.
    numbers : ShotNumbers
        What was measured; all blank for a ball that was not read.
    club : str
        As the sender calls it; empty where it says nothing.
    line : str
        The device's own line, letter for letter.
    time, device : str
        In the sender's words.
    read : bool
        False for a ball that was hit and not read.
    problems : tuple of str
        What was left out and why, in sentences.
    """

    key: str
    numbers: ShotNumbers
    club: str = ""
    line: str = ""
    time: str = ""
    device: str = ""
    read: bool = True
    problems: tuple[str, ...] = ()


def shot_from_record(record: object, *, line: str | None = None) -> FeedShot:
    """Return one ball of a feed.

    Parameters
    ----------
    record : mapping of str to object
        Keys and values as decoded from JSON.
    line : str, optional
        What the sender's ball looked like, where the record has no `line` of its own.

    Raises
    ------
    IntakeError
        For a key that is not known, a value that cannot be, two units that disagree, or a
        ball without key or numbers. It names the key, the value and the mend.
    """
    if not isinstance(record, Mapping):
        raise IntakeError(
            f"a ball is an object with keys, not {_shown(record)}",
            place="ball",
            mend='Send for example {"key": "1", "ball_speed_mph": 148.2}.',
        )
    for key in record:
        _check_key(key)
    texts = {name: _text(record.get(name), key) for name, key in TEXT_KEYS.items()}
    if not texts["key"]:
        raise IntakeError(
            "the ball has no key",
            place="key",
            mend="Give a text that is new with each ball and the same when it is sent again.",
        )
    read = _read(record.get(READ_KEY))
    values = _values(record)
    if read and not values:
        raise IntakeError(
            "the ball has no number",
            place="ball",
            mend='Send "read": false for a ball that was hit and not read.',
        )
    numbers, problems = numbers_from(values, read=read)
    return FeedShot(
        key=texts["key"],
        numbers=numbers,
        club=texts["club"],
        line=texts["line"] or _line(record, line),
        time=texts["time"],
        device=texts["device"],
        read=read,
        problems=problems,
    )


def numbers_from(
    values: Mapping[str, float], *, read: bool = True
) -> tuple[ShotNumbers, tuple[str, ...]]:
    """Return a ball's numbers with what follows from them, and what was left out.

    Parameters
    ----------
    values : mapping of str to float
        By the words of the column list [SI, rad].
    read : bool
        False for a ball that was not read, whose launch and flight are left out.
    """
    problems = []
    kept = {means: value for means, value in values.items() if read or means not in UNREAD_FIELDS}
    if len(kept) < len(values):
        left = ", ".join(means for means in values if means not in kept)
        problems.append(f"The ball was not read; what came with it is left out: {left}.")
    columns: dict[str, list[float | None]] = {means: [value] for means, value in kept.items()}
    made, doubts = derive(columns, {means: _column(means) for means in kept})
    if doubts:
        problems.append("Spin is taken as back spin alone: neither side spin nor axis came along.")
    for column in made:
        value = columns[column.means][0]
        low, high = QUANTITIES[column.means].limits
        if value is not None and not low <= value <= high:
            columns[column.means] = [None]
            problems.append(f"The {column.means} that follows from {column.column} cannot be.")
    fields = {
        QUANTITIES[means].field: column[0]
        for means, column in columns.items()
        if QUANTITIES[means].field
    }
    return ShotNumbers(**fields), tuple(problems)


def number_problem(value: object, key: NumberKey) -> IntakeError | None:
    """Return why a value cannot stand under a key, or None for one that can."""
    if isinstance(value, str):
        why, mend = f"{_shown(value)} is text, not a number", "Send it without quotation marks."
    elif isinstance(value, bool) or not isinstance(value, int | float):
        why, mend = f"{_shown(value)} is not a number", f"Send a number of {key.unit}."
    elif not math.isfinite(_as_float(value)) and isinstance(value, float):
        why, mend = f"{value} is not a finite number", "Leave the key out where nothing was read."
    elif not key.low <= value <= key.high:
        why = (
            f"{_shown(value)} {key.unit} cannot be: {key.means} lies from {key.low:g} to "
            f"{key.high:g} {key.unit}"
        )
        mend = "Check the unit, or leave the key out where nothing was read."
    else:
        return None
    return IntakeError(why, place=key.name, mend=mend)


def _values(record: Mapping[object, object]) -> dict[str, float]:
    """Return the numbers of a record in SI by the words of the column list."""
    found: dict[str, tuple[float, NumberKey]] = {}
    for name, key in NUMBER_KEYS.items():
        value = record.get(name)
        if value is None:
            continue
        error = number_problem(value, key)
        if error is not None:
            raise error
        number = _as_float(value)
        known = found.get(key.means)
        if known is not None:
            _check_agreement(known, (number, key))
        if known is None or _step(number, key) < _step(*known):
            found[key.means] = (number, key)
    return {means: number * key.scale for means, (number, key) in found.items()}


def _as_float(value: object) -> float:
    try:
        return float(value)  # type: ignore[arg-type]
    except OverflowError:
        return math.inf


def _check_agreement(one: tuple[float, NumberKey], other: tuple[float, NumberKey]) -> None:
    """Refuse two units of one quantity that differ by more than rounding to whole units."""
    (number, key), (second, second_key) = one, other
    allowed = 0.5 * (key.scale + second_key.scale) * (1.0 + 1e-9)
    if abs(number * key.scale - second * second_key.scale) > allowed:
        raise IntakeError(
            f"{number:g} {key.unit} and {second:g} {second_key.unit} cannot both be the "
            f"{key.means}",
            place=f"{key.name}, {second_key.name}",
            mend="Send one of the two.",
        )


def _step(number: float, key: NumberKey) -> float:
    """Return the worth of the last digit that a number has [SI]."""
    digits = repr(number).partition("e")[0].partition(".")[2]
    return key.scale * 10.0 ** -(0 if digits == "0" else len(digits))


def _check_key(key: object) -> None:
    if isinstance(key, str) and key in KEYS:
        return
    word = key if isinstance(key, str) else _shown(key)
    whole = [name for name in NUMBER_KEYS if name.rpartition("_")[0] == word]
    near = whole or difflib.get_close_matches(word[:_SHOWN].casefold(), KEYS, n=_NEAR, cutoff=0.7)
    near = near or difflib.get_close_matches(word[:_SHOWN].casefold(), KEYS, n=1, cutoff=0.0)
    raise IntakeError(
        f"the key {_shown(word)} is not known",
        place="ball",
        mend=f"The nearest known key is {' or '.join(near)}.",
    )


def _text(value: object, key: TextKey) -> str:
    if value is None:
        return ""
    if not isinstance(value, str):
        raise IntakeError(
            f"{_shown(value)} is not text", place=key.name, mend="Put it in quotation marks."
        )
    if len(value) > key.longest:
        raise IntakeError(
            f"a text of {len(value)} characters is too long",
            place=key.name,
            mend=f"Send {key.longest} at most.",
        )
    check_text(value, key.name)
    return value if key.name == "line" else value.strip()


def check_text(value: str, place: str) -> None:
    """Refuse a text that cannot be kept.

    Raises
    ------
    IntakeError
        If it holds the NUL character or half of a surrogate pair.
    """
    if any(character == "\x00" or "\ud800" <= character <= "\udfff" for character in value):
        raise IntakeError(
            f"{_shown(value)} holds what is no character",
            place=place,
            mend="Send it as UTF-8, without NUL bytes.",
        )


def _read(value: object) -> bool:
    if value is None:
        return True
    if not isinstance(value, bool):
        raise IntakeError(
            f"{_shown(value)} is neither true nor false",
            place=READ_KEY,
            mend="Send true or false, without quotation marks.",
        )
    return value


def _line(record: Mapping[object, object], line: str | None) -> str:
    if line is not None:
        check_text(line, "line")
        return line
    return json.dumps(dict(record), ensure_ascii=False)


def _column(means: str) -> Column:
    units = QUANTITIES[means].units
    unit = find_unit(units[0]) if units else None
    return Column(
        column=means,
        means=means,
        unit=unit.name if unit else "",
        origin=Origin.UNKNOWN,
        source="feed",
    )


def _shown(value: object) -> str:
    """Return a value for a message, however large it is."""
    if isinstance(value, bool | float) or value is None:
        return repr(value)
    if isinstance(value, int):
        return str(value) if value.bit_length() < 200 else "a number of more than 60 digits"
    if isinstance(value, str):
        text = value[:_SHOWN]
        quoted = repr(text) if text.isprintable() else ascii(text)
        return quoted if len(value) <= _SHOWN else f"{quoted}…"
    return "an object" if isinstance(value, Mapping) else f"a {type(value).__name__}"

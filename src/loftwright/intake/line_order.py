"""What a typed line may hold: its words, units and the order of plain numbers."""

import difflib
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from loftwright.errors import IntakeError
from loftwright.intake.feed_keys import NUMBER_KEYS, NumberKey

WORDS: Final = MappingProxyType(
    {
        "speed": "ball speed",
        "launch": "launch",
        "direction": "direction",
        "dir": "direction",
        "spin": "spin",
        "axis": "axis",
        "back": "back spin",
        "sidespin": "side spin",
        "head": "head speed",
        "attack": "attack",
        "path": "path",
        "face": "face",
        "facetopath": "face to path",
        "loft": "dynamic loft",
        "carry": "carry",
        "total": "total",
        "offline": "offline",
        "side": "offline",
        "height": "peak height",
        "landing": "landing angle",
        "time": "flight time",
    }
)
"""Words before a number, and what of the column list they mean."""

CLUB: Final = "club"
MARK: Final = "mark"
UNREAD: Final = frozenset({"unread", "missed", "no"})
BLANKS: Final = frozenset({"-", "--", "–", ".", "x", "?"})

METRIC: Final = MappingProxyType(
    {
        "ball speed": "m/s",
        "head speed": "m/s",
        "carry": "m",
        "total": "m",
        "offline": "m",
        "peak height": "m",
    }
)
"""Units of plain numbers where the shop's units are metric."""

_TRADE: Final = MappingProxyType({"peak height": "ft"})


def keys_of(means: str) -> dict[str, NumberKey]:
    """Return the units that a quantity may be typed in, the trade's first."""
    return {key.unit: key for key in NUMBER_KEYS.values() if key.means == means}


def meaning_of(word: str) -> str | None:
    """Return what a word before a number means, or None."""
    plain = word.casefold()
    named = {key.means.replace(" ", ""): key.means for key in NUMBER_KEYS.values()}
    return WORDS.get(plain) or named.get(plain.replace("_", ""))


def near_word(word: str) -> str:
    """Return the nearest known word in a sentence, or what words there are."""
    words = [*WORDS, CLUB, MARK, *sorted(UNREAD)]
    near = difflib.get_close_matches(word[:40].casefold(), words, n=1, cutoff=0.6)
    return f"Did you mean {near[0]}?" if near else f"There are: {', '.join(words)}."


@dataclass(frozen=True, slots=True, kw_only=True)
class LineOrder:
    """How plain numbers of a typed line are taken.

    Attributes
    ----------
    columns : tuple of str
        What they mean, one after the other, by the words of the column list.
    units : mapping of str to str
        The unit of a quantity whose number names none; the trade's where it says nothing.
    """

    columns: tuple[str, ...] = ("ball speed", "launch", "spin", "direction", "axis")
    units: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for means in self.columns:
            if not keys_of(means):
                raise IntakeError(
                    f"{means!r} cannot be typed", place="order of a line", mend=near_word(means)
                )
        if len(set(self.columns)) < len(self.columns) or not self.columns:
            raise IntakeError(
                "an order names each quantity once",
                place="order of a line",
                mend="Write for example: speed launch spin direction axis.",
            )
        for means, unit in self.units.items():
            if unit not in keys_of(means):
                raise IntakeError(
                    f"{means} cannot be typed in {unit}",
                    place="order of a line",
                    mend=f"Choose {' or '.join(keys_of(means)) or 'another quantity'}.",
                )

    def key(self, means: str) -> NumberKey:
        """Return unit and limits of a quantity whose number names no unit."""
        keys = keys_of(means)
        unit = self.units.get(means) or _TRADE.get(means, "")
        return keys.get(unit, next(iter(keys.values())))


def read_order(text: str, units: Mapping[str, str] | None = None) -> LineOrder:
    """Return the order in a text such as ``speed launch spin direction axis``.

    Raises
    ------
    IntakeError
        When a word is not known or comes twice.
    """
    columns = []
    for word in text.replace(",", " ").split():
        means = meaning_of(word)
        if means is None:
            raise IntakeError(
                f"{word[:40]!r} is no quantity", place="order of a line", mend=near_word(word)
            )
        columns.append(means)
    return LineOrder(columns=tuple(columns), units=dict(units or {}))

"""Reads one ball typed on a single line, in a few seconds and by keyboard alone.

A line is words parted by blanks. Plain numbers are taken in the set order; a word such as
``carry`` says what the number after it is; ``mark``, ``club`` and ``unread`` have their own
meaning. A number may carry its unit (``66m/s``) or its side (``2L``).
"""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from loftwright.constants import MILLIMETRE
from loftwright.domain.coarse_marks import coarse_mark, is_coarse_word
from loftwright.domain.fitting import MARK_ERROR, Mark
from loftwright.errors import InputError, IntakeError
from loftwright.intake.feed import FeedShot, check_text, number_problem, numbers_from
from loftwright.intake.feed_keys import NumberKey
from loftwright.intake.line_order import (
    BLANKS,
    CLUB,
    MARK,
    UNREAD,
    LineOrder,
    keys_of,
    meaning_of,
    near_word,
)
from loftwright.units import known_unit

LONGEST: Final = 300
_NUMBER: Final = re.compile(r"([-+]?)(\d{1,7}(?:[.,]\d{1,6})?|[.,]\d{1,6})(.*)")
# More than a thousand, or a number of three decimals: who types may mean either.
_THOUSANDS: Final = re.compile(r"\d{1,3},\d{3}")
_SPIN_THOUSANDS: Final = re.compile(r"\d{1,3}[.,]\d{3}")
_WORLD: Final = MappingProxyType({"r": 1, "right": 1, "l": -1, "left": -1})
_FACE: Final = MappingProxyType({"o": 1, "open": 1, "c": -1, "closed": -1})
_PATH: Final = MappingProxyType({"i": 1, "in": 1, "o": -1, "out": -1})
_UP: Final = MappingProxyType({"u": 1, "up": 1, "d": -1, "down": -1})
_SIDES: Final = MappingProxyType(
    {
        "direction": _WORLD,
        "axis": _WORLD,
        "side spin": _WORLD,
        "offline": _WORLD,
        "face": _FACE,
        "face to path": _FACE,
        "path": _PATH,
        "attack": _UP,
        "launch": _UP,
    }
)
_NO_SIDES: Final[Mapping[str, int]] = MappingProxyType({})
_MARK_SIDES: Final = MappingProxyType(
    {"t": (0, 1), "toe": (0, 1), "heel": (0, -1), "h": (1, 1), "high": (1, 1)}
    | {"l": (1, -1), "low": (1, -1)}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedBall:
    """A ball typed by a person, with the mark that was typed beside it."""

    shot: FeedShot
    mark: Mark | None = None


def ball_from_line(
    text: str,
    order: LineOrder,
    *,
    key: str,
    clubs: Sequence[str] = (),
    mark_error: float = MARK_ERROR,
) -> TypedBall:
    """Return the ball on a typed line.

    Parameters
    ----------
    text : str
        Such as ``148.2 12.1 2510 -2 8`` or ``elm speed 148 spin 2500 mark 5t 3h``.
    order : LineOrder
        What plain numbers mean, and their units.
    key : str
        Idempotency key of this entry.
    clubs : sequence of str
        The fitting's clubs, whose names may stand alone.
    mark_error : float
        Error of a mark typed in millimetres, one way [m].

    Raises
    ------
    IntakeError
        It names the word that is not understood, and the mend.
    """
    check_text(text, "line")
    if len(text) > LONGEST:
        raise IntakeError(
            f"a line of {len(text)} characters is too long",
            place="line",
            mend="Type one ball a line.",
        )
    reader = _Reader(text, order, clubs, mark_error)
    reader.read()
    numbers, problems = numbers_from(reader.values, read=not reader.unread)
    shot = FeedShot(
        key=key,
        numbers=numbers,
        club=reader.club,
        line=text,
        read=not reader.unread,
        problems=problems,
    )
    return TypedBall(shot=shot, mark=reader.mark)


class _Reader:
    """Goes through the words of one line."""

    def __init__(
        self, text: str, order: LineOrder, clubs: Sequence[str], mark_error: float
    ) -> None:
        plain = unicodedata.normalize("NFKC", text).replace("\u2212", "-")
        plain = re.sub(r"\s*[=:]\s*|[;,](?=\s)|[;,]$", " ", plain)
        self.words = plain.split()
        self.at = 0
        self.order, self.mark_error = order, mark_error
        self.clubs = {club.casefold(): club for club in clubs}
        self.plain = list(order.columns)
        self.values: dict[str, float] = {}
        self.club = ""
        self.mark: Mark | None = None
        self.unread = False

    def read(self) -> None:
        """Take every word in, or say which one is not understood."""
        while self.at < len(self.words):
            self._word(self._next())
        if not (self.values or self.unread):
            raise IntakeError(
                "the line has no number",
                place="line",
                mend=f"Type {' '.join(self.order.columns)}, or unread for a ball not read.",
            )

    def _next(self) -> str:
        self.at += 1
        return self.words[self.at - 1]

    def _peek(self) -> str:
        return self.words[self.at] if self.at < len(self.words) else ""

    def _error(self, what: str, mend: str) -> IntakeError:
        return IntakeError(what, place=f"word {self.at}", mend=mend)

    def _word(self, word: str) -> None:
        plain = word.casefold()
        if plain in BLANKS or _NUMBER.fullmatch(word):
            self._in_order(word)
        elif plain == MARK:
            self._mark()
        elif plain == CLUB:
            self._named_club()
        elif plain in UNREAD:
            self.unread = True
        elif plain in self.clubs:
            self._take_club(self.clubs[plain])
        else:
            means = meaning_of(word)
            if means is None:
                raise self._error(f"{word[:40]!r} is not understood", near_word(word))
            self._named_number(word, means)

    def _in_order(self, word: str) -> None:
        if not self.plain:
            raise self._error(
                f"{word!r} is one number too many",
                f"Plain numbers are {', '.join(self.order.columns)}; name others: carry 240.",
            )
        means = self.plain.pop(0)
        if word.casefold() not in BLANKS:
            self._take_number(word, means)

    def _named_number(self, word: str, means: str) -> None:
        following = self._peek()
        if not _NUMBER.fullmatch(following):
            raise self._error(
                f"no number stands after {word!r}", f"Type for example: {word} 12.1."
            )
        self.at += 1
        self._take_number(following, means)
        if means in self.plain:
            self.plain.remove(means)

    def _take_number(self, word: str, means: str) -> None:
        if means in self.values:
            raise self._error(f"{means} is there already: {word!r}", "Type each number once.")
        key, value = self._number(word, means)
        error = number_problem(value, key)
        if error is not None:
            raise self._error(error.message, "Check the number and its unit.")
        self.values[means] = value * key.scale

    def _number(self, word: str, means: str) -> tuple[NumberKey, float]:
        """Return a number with its sign, and the unit it is in."""
        match = _NUMBER.fullmatch(word)
        if match is None:
            raise self._error(f"{word[:40]!r} is no number", "Type for example 12.1.")
        sides = _SIDES.get(means, _NO_SIDES)
        after, side = _parted(match[3].casefold(), sides)
        key = self._unit(after, word, means)
        if not side and self._peek().casefold() in sides:
            side = sides[self._next().casefold()]
        if side and match[1]:
            raise self._error(f"{word!r} has both a sign and a side", "Type one of the two.")
        doubtful = _SPIN_THOUSANDS if key.unit == "rpm" else _THOUSANDS
        if doubtful.fullmatch(match[2]):
            raise self._error(
                f"{word!r} may be thousands or a number with decimals",
                "Type it without a mark between the thousands.",
            )
        value = float(match[2].replace(",", "."))
        return key, value * (side or (-1 if match[1] == "-" else 1))

    def _unit(self, after: str, word: str, means: str) -> NumberKey:
        keys = keys_of(means)
        if not after:
            following = known_unit(self._peek())
            # A unit may stand apart from its number, where it is no word of its own.
            if following is not None and following.name in keys and not _speaks(self._peek()):
                self.at += 1
                return keys[following.name]
            return self.order.key(means)
        unit = known_unit(after)
        if unit is None or unit.name not in keys:
            raise self._error(f"{word[:40]!r} is no {means}", f"It may be in {' or '.join(keys)}.")
        return keys[unit.name]

    def _named_club(self) -> None:
        name = self._peek()
        if not name:
            raise self._error("no club stands after 'club'", "Type its name, as in club Elm.")
        self.at += 1
        self._take_club(self.clubs.get(name.casefold(), name))

    def _take_club(self, club: str) -> None:
        if self.club:
            raise self._error(f"{club[:40]!r} is a second club", "Type one club a line.")
        self.club = club

    def _mark(self) -> None:
        if self.mark is not None:
            raise self._error("the line has a mark already", "Type one mark a line.")
        if is_coarse_word(self._peek()):
            self.mark = self._coarse()
            return
        places: list[float | None] = [None, None]
        while _NUMBER.fullmatch(self._peek()) and None in places:
            self._mark_number(self._next(), places)
        if None in places:
            raise self._error(
                "a mark needs both its places, towards the toe and up",
                "Type for example: mark 5t 3h, mark -5 0, or mark toe-high.",
            )
        toe, high = (MILLIMETRE * (place or 0.0) for place in places)
        try:
            self.mark = Mark(toe=toe, high=high, error=self.mark_error)
        except InputError as error:
            raise self._error(error.message, error.mend) from error

    def _mark_number(self, word: str, places: list[float | None]) -> None:
        match = _NUMBER.fullmatch(word)
        after = match[3].casefold().removeprefix("mm") if match is not None else ""
        side = after or ("" if self._peek().casefold() not in _MARK_SIDES else self._next())
        at, sign = _MARK_SIDES.get(side.casefold(), (places.index(None), 1))
        if match is None or (after and after not in _MARK_SIDES) or places[at] is not None:
            raise self._error(
                f"{word[:40]!r} is no place on the face",
                "Type millimetres with t, heel, h or l, as in 5t 3h.",
            )
        if side and match[1]:
            raise self._error(f"{word!r} has both a sign and a side", "Type one of the two.")
        value = float(match[2].replace(",", "."))
        places[at] = sign * (-value if match[1] == "-" else value)

    def _coarse(self) -> Mark:
        said = []
        while self._peek() and is_coarse_word(self._peek()):
            said.append(self._next())
        try:
            return coarse_mark(" ".join(said))
        except InputError as error:
            raise self._error(error.message, error.mend) from error


def _parted(after: str, sides: Mapping[str, int]) -> tuple[str, int]:
    """Part what stands right after a number into its unit and the sign of its side."""
    for word in sorted(sides, key=len, reverse=True):
        unit = after.removesuffix(word)
        if after.endswith(word) and (not unit or known_unit(unit) is not None):
            return unit, sides[word]
    return after, 0


def _speaks(word: str) -> bool:
    """Whether a word that is a unit too is a word of the line."""
    return meaning_of(word) is not None or word.casefold() in {MARK, CLUB, *UNREAD}

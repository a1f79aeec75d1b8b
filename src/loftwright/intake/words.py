"""Recognises a heading: its quantity, unit, sign and origin, from the words of the trade."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Final

from loftwright.domain.device import Origin
from loftwright.intake import (
    vocabulary,
    vocabulary_club,
    vocabulary_eastern,
    vocabulary_small,
)
from loftwright.intake.quantities import QUANTITIES, SIDES
from loftwright.units import Unit, known_unit

_BRACKETS: Final = re.compile(r"[\[({（【]([^\])}）】]*)[\])}）】]")
_CAMEL: Final = re.compile(r"(?<=[a-zà-ÿ])(?=[A-ZÀ-Ý])|(?<=[A-Z])(?=[A-Z][a-z])")
_LEFT_RIGHT: Final = re.compile(r"(?<!\w)[LRlr]\s*/\s*[LRlr](?!\w)")
_SIGN_AFTER: Final = re.compile(r"([^\W\d_][\w -]*?)\s*(?:=\s*)?([+-])(?=$|[\s,;/)])")
_SIGN_BEFORE: Final = re.compile(r"(?:^|[\s,;/(])([+-])\s*(?:=|:)?\s*([^\W\d_][\w -]*)")


def strip_accents(text: str) -> str:
    """Return text in small letters without the accents of the Latin script."""
    parts = unicodedata.normalize("NFD", unicodedata.normalize("NFKC", text).casefold())
    return unicodedata.normalize(
        "NFC", "".join(ch for ch in parts if not "\u0300" <= ch <= "\u036f")
    )


def tokens(text: str) -> tuple[str, ...]:
    """Return the words of a heading in small letters without accents."""
    spaced = _CAMEL.sub(" ", unicodedata.normalize("NFKC", text))
    return tuple(re.findall(r"[^\W_]+|#", strip_accents(spaced)))


def _key(words: tuple[str, ...]) -> str:
    full = [vocabulary_small.SHORT.get(word, word) for word in words]
    return "".join(word for word in full if word not in vocabulary_small.STOP) or "".join(full)


def _spellings(phrase: str) -> set[str]:
    spelled_out = phrase.translate(vocabulary_small.UMLAUTS)
    return {_key(tokens(phrase)), _key(tokens(spelled_out))}


@cache
def _phrases() -> dict[str, tuple[str, ...]]:
    table: dict[str, tuple[str, ...]] = {}
    for source in (vocabulary.WORDS, vocabulary_club.WORDS, vocabulary_eastern.WORDS):
        for means, languages in source.items():
            for phrase in (means, *"|".join(languages).split("|")):
                for key in _spellings(phrase):
                    table.setdefault(key, (means,))
    for phrases, meanings in vocabulary.AMBIGUOUS.items():
        for phrase in phrases.split("|"):
            for key in _spellings(phrase):
                table[key] = meanings
    return table


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What a heading says.

    Attributes
    ----------
    text : str
        The heading as the file has it.
    meanings : tuple of str
        The quantities it could mean; empty for a word that is not known.
    unit : Unit, optional
        The unit it names.
    sign : int
        -1 when it says that the other side is positive, 1 when it says the usual, 0 when
        it is silent.
    world : bool
        True when its sign speaks of right and left.
    origin : Origin
        Measured or calculated where it says so.
    """

    text: str
    meanings: tuple[str, ...]
    unit: Unit | None = None
    sign: int = 0
    world: bool = False
    origin: Origin = Origin.UNKNOWN


def sign_words(text: str) -> tuple[str, ...]:
    """Return the words that a text calls positive, such as `right` for ``R +`` or ``L -``."""
    plain = strip_accents(text).replace("−", "-").replace("\u2013", "-")
    found = [(word, mark) for word, mark in _SIGN_AFTER.findall(plain)]
    found += [(word, mark) for mark, word in _SIGN_BEFORE.findall(plain)]
    named: list[str] = []
    for word, mark in found:
        side = side_of(word.strip())
        if side is not None:
            named.append(side if mark == "+" else SIDES[side])
    return tuple(dict.fromkeys(named))


@cache
def _sides() -> dict[str, str]:
    return {
        word: side
        for side, words in vocabulary_small.SIDE_WORDS.items()
        for word in words.split("|")
    }


def side_of(word: str) -> str | None:
    """Return the side a word names (`right`, `open`, `toe`, ...), or None."""
    return _sides().get(strip_accents(word).strip(" .:"))


def _meaning(words: tuple[str, ...]) -> tuple[str, ...]:
    return _phrases().get(_key(words), ())


def _split_unit(text: str) -> tuple[str, Unit | None]:
    """Part a trailing unit (`ball_speed_mph`, `carry m`) from the words before it."""
    pieces = [piece for piece in re.split(r"[\s_,;:]+", text.strip()) if piece]
    for count in (1, 2):
        if len(pieces) > count:
            unit = known_unit("/".join(pieces[-count:])) or known_unit("".join(pieces[-count:]))
            rest = " ".join(pieces[:-count])
            if unit is not None and _meaning(tokens(rest)):
                return rest, unit
    camel = re.fullmatch(
        r"(.*?[a-z])(Mph|Kmh|Kph|Mps|Rpm|Deg|Yds|Yd|Mm|Yards|Degrees|Meters)", text
    )
    if camel is not None and _meaning(tokens(camel[1])):
        return camel[1], known_unit(camel[2])
    return text, None


def _fits(unit: Unit | None, meanings: tuple[str, ...]) -> tuple[str, ...]:
    if unit is None:
        return meanings
    same = tuple(means for means in meanings if QUANTITIES[means].dimension == unit.dimension)
    if len(same) > 1:
        return tuple(means for means in same if unit.name in QUANTITIES[means].units) or same
    return same


def _bracketed(text: str) -> tuple[Unit | None, tuple[str, ...], list[str]]:
    """Read what stands in brackets: unit, sides called positive, and what is left over."""
    unit: Unit | None = None
    sides: tuple[str, ...] = ()
    left: list[str] = []
    for inside in _BRACKETS.findall(text):
        sides += sign_words(inside)
        for piece in re.split(r"[,;]", inside):
            found = known_unit(piece.strip())
            if found is not None and unit is None:
                unit = found
            elif not sign_words(piece):
                left.append(piece)
    return unit, sides, left


@lru_cache(maxsize=4096)
def read_heading(text: str) -> Heading:
    """Return what a heading means, as far as the trade's words say.

    Parameters
    ----------
    text : str
        A heading in any of the languages known, with or without unit, sign and origin.
    """
    if len(text) > 200:
        return Heading(text=text, meanings=())
    unit, sides, left = _bracketed(text)
    outside = _LEFT_RIGHT.sub(" ", _BRACKETS.sub(" ", text))
    if not sides:
        sides = sign_words(outside)
        if sides:
            outside = _SIGN_BEFORE.sub(" ", _SIGN_AFTER.sub(" ", outside))
    if unit is None:
        outside, unit = _split_unit(outside)
    words, origin = _origin(tokens(outside), left)
    extra = tuple(word for piece in left for word in tokens(piece))
    meanings = _meaning((*words, *extra)) or _meaning(words)
    fitting = _fits(unit, meanings)
    if unit is not None and meanings and not fitting and words:
        fitting = _other_meaning(words, unit)
        whole = _meaning(tokens(text))
        if not fitting and whole and all(QUANTITIES[means].numeric for means in meanings):
            # What looked like a unit is a word of the heading: "launch h" is no hour.
            return _signed(text, whole, None, sides, origin)
    return _signed(text, fitting or meanings, unit, sides, origin)


def _other_meaning(words: tuple[str, ...], unit: Unit) -> tuple[str, ...]:
    """Return what `side` or `direction` means under a unit of another dimension."""
    others = {"side": {"spin": ("side spin",), "angle": ("direction",)}}
    return others.get(_key(words), {}).get(unit.dimension, ())


def _origin(words: tuple[str, ...], left: list[str]) -> tuple[tuple[str, ...], Origin]:
    spoken = {*words, *(word for piece in left for word in tokens(piece))}
    for vocabulary_of, origin in (
        (vocabulary_small.CALCULATED, Origin.CALCULATED),
        (vocabulary_small.MEASURED, Origin.MEASURED),
    ):
        if spoken & vocabulary_of:
            return tuple(word for word in words if word not in vocabulary_of), origin
    return words, Origin.UNKNOWN


def _signed(
    text: str,
    meanings: tuple[str, ...],
    unit: Unit | None,
    sides: tuple[str, ...],
    origin: Origin,
) -> Heading:
    sign, world = 0, False
    if len(meanings) > 1 and sides:
        signed = tuple(
            means
            for means in meanings
            if any(QUANTITIES[means].sign_of(side)[0] for side in sides)
        )
        meanings = signed or meanings
    if len(meanings) == 1:
        for side in sides:
            sign, world = QUANTITIES[meanings[0]].sign_of(side)
            if sign:
                break
    return Heading(text=text, meanings=meanings, unit=unit, sign=sign, world=world, origin=origin)

"""Reads what the user settles: meanings of columns and rows to keep."""

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from loftwright.domain.device import Origin
from loftwright.errors import IntakeError, UsageError
from loftwright.intake.quantities import QUANTITIES
from loftwright.intake.words import read_heading, sign_words, strip_accents
from loftwright.units import Unit, known_unit

FILL_DOWN: Final = "fill down"
REFUSE_BLANK: Final = "blank refused"
ONE_KIND: Final = "one kind"
MANNERS: Final = (FILL_DOWN, REFUSE_BLANK, ONE_KIND)
_SETTING: Final = re.compile(r"(?P<column>.+?)=(?P<means>[^=\[]+)(?:\[(?P<inside>.*)\])?\s*")
_EXAMPLE: Final = 'Write for example --column "Col A=ball speed[mph]".'


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the user says of one column.

    Attributes
    ----------
    column : str
        Heading in the file.
    means : str
        Word of the column list.
    unit : Unit, optional
        Its unit.
    sign : int
        -1 or 1 when its positive side is told, else 0.
    world : bool
        True when that side is right or left.
    origin : Origin
        Measured or calculated where told.
    manners : tuple of str
        `fill down` or `blank refused` for blank club cells, `one kind` for clubs.
    text : str
        The setting as given.
    """

    column: str
    means: str
    unit: Unit | None = None
    sign: int = 0
    world: bool = False
    origin: Origin = Origin.UNKNOWN
    manners: tuple[str, ...] = ()
    text: str = ""

    @property
    def key(self) -> str:
        """The heading in small letters without accents."""
        return heading_key(self.column)


def heading_key(name: str) -> str:
    """Return a heading in small letters, without accents and doubled spaces."""
    return " ".join(strip_accents(name).split())


def named_near(name: str, names: Iterable[str], *, most: int = 24) -> str:
    """Return the nearest of several names in a sentence, and what names there are."""
    spelled = {heading_key(other): other for other in names}
    near = difflib.get_close_matches(heading_key(name), spelled, n=1, cutoff=0.5)
    hint = f"The nearest is {spelled[near[0]]!r}; there" if near else "There"
    listed = ", ".join(map(repr, list(spelled.values())[:most]))
    more = " and more" if len(spelled) > most else ""
    return f"{hint} are {listed}{more}."


def no_column(name: str, names: Iterable[str], *, option: str) -> IntakeError:
    """Return the error for an option that names a column which the table has not."""
    return IntakeError(
        f"the table has no column {name!r}", place=option, mend=named_near(name, names)
    )


def _means(word: str, text: str) -> str:
    plain = " ".join(word.casefold().replace("_", " ").split())
    if plain in QUANTITIES:
        return plain
    meanings = read_heading(word).meanings
    if len(meanings) == 1:
        return meanings[0]
    near = difflib.get_close_matches(plain, QUANTITIES, n=1, cutoff=0.5)
    hint = f"Did you mean {near[0]!r}? " if near else ""
    raise UsageError(
        f"{word.strip()!r} is no quantity of a shot table",
        place=f"--column {text!r}",
        mend=f"{hint}There are: {', '.join(QUANTITIES)}.",
    )


def read_setting(text: str) -> Setting:
    """Return the setting in a text such as ``Path=path[deg, right +]``.

    Raises
    ------
    UsageError
        When the text has another form or names no quantity, unit or side.
    """
    match = _SETTING.fullmatch(text.strip())
    if match is None:
        raise UsageError(
            "is not of the form heading=meaning[unit]", place=f"--column {text!r}", mend=_EXAMPLE
        )
    means = _means(match["means"], text)
    quantity = QUANTITIES[means]
    unit: Unit | None = None
    sign, world = 0, False
    origin = Origin.UNKNOWN
    manners: tuple[str, ...] = ()
    for piece in re.split(r"[,;]", match["inside"] or ""):
        word = piece.strip()
        sides = sign_words(word)
        found = known_unit(word)
        if not word:
            continue
        if word.casefold() in {Origin.MEASURED.value, Origin.CALCULATED.value}:
            origin = Origin(word.casefold())
        elif means == "club" and word.casefold() in MANNERS:
            manners += (word.casefold(),)
        elif found is not None and found.dimension == quantity.dimension:
            unit = found
        elif sides and quantity.sign_of(sides[0])[0]:
            sign, world = quantity.sign_of(sides[0])
        else:
            raise _no_word(word, means, text)
    return Setting(
        column=match["column"].strip(),
        means=means,
        unit=unit,
        sign=sign,
        world=world,
        origin=origin,
        manners=manners,
        text=text.strip(),
    )


def _no_word(word: str, means: str, text: str) -> UsageError:
    quantity = QUANTITIES[means]
    words = [*quantity.units]
    if quantity.positive:
        words.append(f"{quantity.positive} +")
    if quantity.golfers_sign:
        words.append("right +")
    words += ["measured", "calculated"] if quantity.numeric else []
    words += MANNERS if means == "club" else []
    allowed = f"Use {', '.join(words)}." if words else "Leave the brackets out."
    return UsageError(
        f"{word!r} says nothing about {means}", place=f"--column {text!r}", mend=allowed
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """Rows to keep: those whose cell under a heading or meaning is this value."""

    column: str
    value: str
    text: str


def read_keep(text: str) -> Keep:
    """Return the choice of rows in a text such as ``Golfer=Ann``.

    Raises
    ------
    UsageError
        When the text has another form.
    """
    column, mark, value = text.partition("=")
    if not mark or not column.strip() or not value.strip():
        raise UsageError(
            "is not of the form heading=value",
            place=f"--only {text!r}",
            mend='Write for example --only "Golfer=Ann".',
        )
    return Keep(column=column.strip(), value=value.strip(), text=text.strip())

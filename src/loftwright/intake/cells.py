"""Reads one cell: a number with its side, unit or mark of doubt, or why there is none."""

import math
import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from loftwright.intake.words import side_of, strip_accents
from loftwright.units import Unit, known_unit

BLANKS: Final = frozenset(
    {
        "",
        "-",
        "--",
        "---",
        "----",
        "\u2013",
        "\u2014",
        ".",
        "..",
        "...",
        "/",
        "?",
        "*",
        "x",
        "n/a",
        "na",
        "#n/a",
        "n.a.",
        "n.v.t.",
        "k.a.",
        "s/o",
        "none",
        "null",
        "nil",
        "missing",
        "not measured",
        "no read",
        "no data",
    }
)
_BLANK_LABELS: Final = BLANKS - {".", "..", "/", "?", "*", "x", "na", "nil", "missing"}
_NOT_NUMBERS: Final = frozenset(
    {"nan", "inf", "+inf", "-inf", "infinity", "-infinity", "+infinity", "#div/0!", "#value!"}
    | {"#num!", "#ref!", "#wert!", "#zahl!", "#valeur!", "∞", "-∞", "1.#inf", "-1.#ind", "1.#qnan"}
)
_NUMBER: Final = (
    r"[-+]?(?:\d{1,3}(?:[ '\u2019]\d{3})+(?:[.,]\d+)?|\d[\d.,]*|[.,]\d+)(?:[eE][-+]?\d{1,3})?"
)
_CELL: Final = re.compile(rf"(?P<before>[^\d.,+-]*?)\s*(?P<number>{_NUMBER})\s*(?P<after>\D.*)?")
_FEET_INCHES: Final = re.compile(
    r"(?P<before>[^\d+-]*?)\s*(?P<sign>[-+]?)(?P<feet>\d+)\s*(?:'|ft\.?|feet)\s*"
    r"(?P<inches>\d{1,2}(?:[.,]\d+)?)\s*(?:\"|''|in\.?|inch|inches)?(?:\s+(?P<after>\D.*))?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What a cell of numbers holds.

    Attributes
    ----------
    value : float, optional
        The number as written, before unit and side; None where there is none.
    side : str
        The side it names, as a word or letter; empty where it names none.
    unit : Unit, optional
        The unit it names.
    problem : str
        Why something that stands there is no measured number; empty for a good or blank cell.
    """

    value: float | None = None
    side: str = ""
    unit: Unit | None = None
    problem: str = ""


_BLANK: Final = Cell()


def clean(text: str) -> str:
    """Return a cell's text with one kind of space, minus and quotation mark."""
    plain = unicodedata.normalize("NFKC", text).replace("\u2212", "-").replace("\u00b4", "'")
    plain = plain.replace("\u2032", "'").replace("\u2033", '"').replace("\ufffd", "")
    return re.sub(r"\s+", " ", plain).strip()


def is_blank(text: str) -> bool:
    """Return whether a cell says that nothing was measured."""
    return clean(text).casefold() in BLANKS


def is_blank_label(text: str) -> bool:
    """Return whether a cell of words is empty; a lone letter or mark may be a name there."""
    return clean(text).casefold() in _BLANK_LABELS


@lru_cache(maxsize=65536)
def decimal_evidence(text: str) -> str:
    """Return the decimal mark that a cell proves by itself (`.` or `,`), or nothing."""
    match = _CELL.fullmatch(clean(text))
    if match is None:
        return ""
    number = match["number"].lstrip("+-")
    points, commas = number.count("."), number.count(",")
    if points and commas:
        last = max(number.rfind("."), number.rfind(","))
        return number[last] if number.count(number[last]) == 1 else ""
    if points + commas != 1:
        return ""
    mark = "." if points else ","
    whole, _, part = number.partition(mark)
    part = re.split("[eE]", part)[0]
    grouped = len(part) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0")
    return "" if grouped or not part else mark


def number_of(text: str, decimal: str) -> float | None:
    """Return the number a text of digits and marks stands for, or None.

    Parameters
    ----------
    text : str
        Digits with sign, decimal mark, marks between thousands, exponent.
    decimal : str
        The mark of the column (`.` or `,`), for a text that could be read both ways.
    """
    plain = re.sub(r"(?<=\d)[ '\u2019](?=\d{3})", "", text)
    points, commas = plain.count("."), plain.count(",")
    if points and commas:
        mark = "." if plain.rfind(".") > plain.rfind(",") else ","
    elif points + commas == 1:
        mark = decimal_evidence(plain) or decimal
    else:
        mark = ""
    group = {".": ",", ",": "."}.get(mark, "." if points else ",")
    if plain.count(group):
        head = re.split("[eE]", plain.partition(mark)[0] if mark else plain)[0]
        if not re.fullmatch(rf"[-+]?\d{{1,3}}(\{group}\d{{3}})+", head):
            return None
        plain = plain.replace(group, "")
    if mark and plain.count(mark) > 1:
        return None
    try:
        value = float(plain.replace(",", "."))
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def _affix(text: str) -> tuple[str, Unit | None, bool]:
    """Return side, unit and whether everything before or after a number was understood."""
    side, unit = "", None
    rest = text.strip(" :;=")
    if not rest:
        return "", None, True
    whole = known_unit(rest)
    if whole is not None and side_of(rest) is None:
        # A lone letter may be either; the column's quantity tells which.
        return (rest if rest.isascii() and rest.isalpha() and len(rest) == 1 else ""), whole, True
    if side_of(rest) is not None or re.fullmatch(r"[A-Za-z]", rest):
        return rest, None, True
    for piece in rest.split(" "):
        found = known_unit(piece)
        if found is not None and unit is None and (side or side_of(piece) is None):
            unit = found
        elif not side and (side_of(piece) is not None or re.fullmatch(r"[A-Za-z]", piece)):
            side = piece
        else:
            return "", None, False
    return side, unit, True


def _tall(match: re.Match[str], decimal: str) -> Cell:
    inches = number_of(match["inches"], decimal)
    before, after = _affix(match["before"] or ""), _affix(match["after"] or "")
    if inches is None or inches >= 12.0 or not (before[2] and after[2]):
        return Cell(problem="is no length in feet and inches")
    feet = int(match["feet"]) + inches / 12.0
    value = -feet if match["sign"] == "-" else feet
    return Cell(value=value, side=before[0] or after[0], unit=known_unit("ft"))


@lru_cache(maxsize=65536)
def read_cell(text: str, decimal: str = ".") -> Cell:
    """Return what a cell of numbers holds.

    Parameters
    ----------
    text : str
        The cell, such as ``148.2``, ``12.3 R``, ``L 4.1``, ``2.650``, ``12' 3"``, ``--``.
    decimal : str
        The decimal mark of the column.
    """
    plain = clean(text[:200])
    low = plain.casefold()
    if low in BLANKS:
        return _BLANK
    if low in _NOT_NUMBERS:
        return Cell(problem="is not a finite number")
    tall = _FEET_INCHES.fullmatch(plain)
    if tall is not None:
        return _tall(tall, decimal)
    if plain.endswith("*") or plain.startswith(("~", "≈", "*")):
        inner = read_cell(plain.strip("*~≈ "), decimal)
        if inner.value is not None:
            return Cell(problem="is marked as an estimate")
    match = _CELL.fullmatch(plain)
    if match is None:
        return Cell(problem="is no number")
    return _from_match(match, decimal)


def _from_match(match: re.Match[str], decimal: str) -> Cell:
    value = number_of(match["number"], decimal)
    before, after = _affix(match["before"] or ""), _affix(match["after"] or "")
    if value is None:
        return Cell(problem="is no number")
    if not (before[2] and after[2]) or (before[0] and after[0]):
        return Cell(problem="is a number with words that are not understood")
    side = before[0] or after[0]
    if side and match["number"].startswith("-"):
        return Cell(problem="has both a sign and a side")
    return Cell(value=value, side=strip_accents(side), unit=before[1] or after[1])


def decimal_of(texts: list[str], default: str) -> str:
    """Return the decimal mark that a column's cells prove, else the default."""
    marks = [decimal_evidence(text) for text in texts]
    points, commas = marks.count("."), marks.count(",")
    if points == commas:
        return default
    return "." if points > commas else ","

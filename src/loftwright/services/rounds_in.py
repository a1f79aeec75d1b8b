"""A table of rounds, read line by line; with one bad line nothing of it is taken."""

import csv
import re
from dataclasses import dataclass
from datetime import date
from io import StringIO
from typing import Final

from loftwright.constants import YARD
from loftwright.domain.after_acts import Round
from loftwright.errors import InputError, IntakeError
from loftwright.services.follow_up import day_must_be

HEADINGS: Final = ("day", "course", "drives", "fairways", "total_yd", "total_m", "measured")
NEEDED: Final = ("day", "drives", "fairways")
MOST_ROUNDS: Final = 200
MOST_BYTES: Final = 200_000
_SHOWN: Final = 60
_UNITS: Final = {"total_yd": YARD, "total_m": 1.0}
_FIGURE: Final = re.compile(r"\d{1,4}(?:[.,]\d+)?")
_NAMES: Final = ", ".join(HEADINGS[:4])
_MEND: Final = f"Give a first line such as: {_NAMES}, total_yd, measured; total_m for metres."


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedLine:
    """A line that cannot be a round.

    Attributes
    ----------
    number : int
        From 1, the headings among them.
    """

    number: int
    what: str
    mend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundsRead:
    """What a table of rounds says.

    Attributes
    ----------
    rounds : tuple of Round
        Empty as soon as one line was refused.
    refused : tuple of RefusedLine
    """

    rounds: tuple[Round, ...]
    refused: tuple[RefusedLine, ...]


def text_of(content: bytes) -> str:
    """Return a file as text.

    Raises
    ------
    IntakeError
        If it is no text in UTF-8, or larger than a table of rounds is.
    """
    if len(content) > MOST_BYTES:
        raise IntakeError(
            f"the file has {len(content):,} bytes, too many for rounds",
            place="table",
            mend=f"Give a table of {MOST_ROUNDS} rounds at most.",
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise IntakeError(
            "the file is no text in UTF-8",
            place="table",
            mend="Save it as CSV in UTF-8, or copy its lines into the field.",
        ) from None


def read_rounds(text: str, *, taken: date, today: date) -> RoundsRead:
    """Return the rounds of a table, or every line that is in the way.

    Parameters
    ----------
    text : str
        A line of headings, then one line a round; comma, semicolon or tab between cells.
    taken, today : date
        Between which rounds were played.

    Raises
    ------
    IntakeError
        If the headings are missing or unknown, or there is no round below them.
    """
    if len(text) > MOST_BYTES:
        raise IntakeError(
            f"the table has {len(text):,} letters, too many for rounds",
            place="table",
            mend=f"Give {MOST_ROUNDS} rounds at most.",
        )
    lines = text.lstrip("\ufeff").splitlines()
    first = next((place for place, line in enumerate(lines) if line.strip()), None)
    if first is None:
        raise IntakeError("the table is empty", place="table", mend=_MEND)
    mark = next((one for one in (";", "\t") if one in lines[first]), ",")
    headings = tuple(one.strip().lower() for one in _cells(lines[first], mark))
    _demand_headings(headings)
    rounds: list[Round] = []
    refused: list[RefusedLine] = []
    known: dict[tuple[date, str], int] = {}
    for number, line in enumerate(lines[first + 1 :], start=first + 2):
        if not line.strip():
            continue
        try:
            one = _round(_told(_cells(line, mark), headings), taken, today)
            key = _new_key(one, known)
        except InputError as error:
            place = f"{error.place}: " if error.place in HEADINGS else ""
            refused.append(RefusedLine(number=number, what=place + error.message, mend=error.mend))
            continue
        known[key] = number
        rounds.append(one)
    if not rounds and not refused:
        raise IntakeError("no round stands below the headings", place="table", mend=_MEND)
    if len(rounds) > MOST_ROUNDS:
        raise IntakeError(
            f"{len(rounds)} rounds are too many at once",
            place="table",
            mend=f"Give {MOST_ROUNDS} at most.",
        )
    return RoundsRead(rounds=() if refused else tuple(rounds), refused=tuple(refused))


def _new_key(one: Round, known: dict[tuple[date, str], int]) -> tuple[date, str]:
    key = (one.day, one.course.casefold())
    if key in known:
        raise InputError(
            f"this round stands in line {known[key]} already", mend="Leave one of the two out."
        )
    return key


def _cells(line: str, mark: str) -> list[str]:
    try:
        return [cell.strip() for cell in next(csv.reader(StringIO(line), delimiter=mark), [])]
    except csv.Error as error:
        raise InputError(
            f"it cannot be parted into cells ({error})", place="table", mend=_MEND
        ) from error


def _demand_headings(headings: tuple[str, ...]) -> None:
    unknown = [one for one in headings if one not in HEADINGS]
    missing = [one for one in NEEDED if one not in headings]
    twice = sorted({one for one in headings if headings.count(one) > 1})
    what = ""
    if missing:
        what = f"the headings lack {' and '.join(missing)}"
    elif unknown:
        what = f"the heading {unknown[0][:_SHOWN]!r} is unknown"
    elif twice:
        what = f"the heading {twice[0][:_SHOWN]!r} stands there twice"
    elif set(_UNITS) <= set(headings):
        what = "the total stands there in yards and in metres"
    elif ("measured" in headings) != any(one in headings for one in _UNITS):
        what = "total and measured go together"
    if what:
        raise IntakeError(what, place="table", mend=_MEND)


def _told(cells: list[str], headings: tuple[str, ...]) -> dict[str, str]:
    if len(cells) != len(headings):
        raise InputError(
            f"it has {len(cells)} cells below {len(headings)} headings",
            mend="Leave a cell empty where nothing is known; quote a course with a comma.",
        )
    return dict(zip(headings, cells, strict=True))


def _round(told: dict[str, str], taken: date, today: date) -> Round:
    day = _day(told["day"])
    day_must_be(day, taken, today)
    total = None
    for name, size in _UNITS.items():
        if told.get(name):
            total = _figure(told[name], name) * size
    measured = told.get("measured", "")
    return Round(
        day=day,
        course=told.get("course", ""),
        drives=_whole(told["drives"], "drives"),
        fairways=_whole(told["fairways"], "fairways"),
        total=total,
        measured=_whole(measured, "measured") if measured else 0,
    )


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(
            f"{text[:_SHOWN]!r} is no day", place="day", mend="Write it as 2026-11-25."
        ) from None


def _whole(text: str, place: str) -> int:
    if not (text.isascii() and text.isdecimal() and len(text) < 4):
        raise InputError(
            f"{text[:_SHOWN]!r} is no whole number", place=place, mend="Write 9, not 9.0."
        )
    return int(text)


def _figure(text: str, place: str) -> float:
    if not (text.isascii() and _FIGURE.fullmatch(text)):
        raise InputError(
            f"{text[:_SHOWN]!r} is no figure",
            place=place,
            mend="Write 238 or 238.5 without a unit: the heading has it.",
        )
    return float(text.replace(",", "."))

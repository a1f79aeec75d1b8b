"""Reads and writes the clubs of a bag as one table, a row a club."""

import csv
import difflib
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
)
from loftwright.domain.bag import BagClub, BagKind, Known, Swung, Timed
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.table_cell import as_typed, harmless
from loftwright.errors import InputError, IntakeError
from loftwright.physics.build.swingweight import LETTERS, index_of

MOST_BYTES: Final = 256 << 10
MOST_ROWS: Final = 60
HIGHEST_NUMBER: Final = 9.999
"""That stands behind a letter; beyond it the next letter begins."""

OWN_HEAD: Final = "head"
"""Stands for a weight on the tip where the club's own head was on it."""

_SIZES: Final = {
    "loft_deg": (Known.LOFT, DEGREE),
    "length_mm": (Known.LENGTH, MILLIMETRE),
    "mass_g": (Known.MASS, GRAM),
    "balance_mm": (Known.BALANCE, MILLIMETRE),
    "swingweight": (Known.SWINGWEIGHT, 1.0),
    "club_moi_kgcm2": (Known.INERTIA, KILOGRAM_SQUARE_CENTIMETRE),
    "frequency_cpm": (Known.FREQUENCY, CYCLE_PER_MINUTE),
}
_DOUBTS: Final = {
    "loft_u95_deg": (Known.LOFT, DEGREE),
    "length_u95_mm": (Known.LENGTH, MILLIMETRE),
    "mass_u95_g": (Known.MASS, GRAM),
    "balance_u95_mm": (Known.BALANCE, MILLIMETRE),
    "swingweight_u95": (Known.SWINGWEIGHT, 1.0),
    "club_moi_u95_kgcm2": (Known.INERTIA, KILOGRAM_SQUARE_CENTIMETRE),
    "frequency_u95_cpm": (Known.FREQUENCY, CYCLE_PER_MINUTE),
}
COLUMNS: Final = (
    *("name", "kind", "spare", "loft_deg", "length_mm", "length_method", "mass_g", "balance_mm"),
    *("swingweight", "club_moi_kgcm2", "pivot_mm", "period_s"),
    *("frequency_cpm", "clamp_mm", "tip_mass_g", *_DOUBTS, "source"),
)
_COLUMN_OF: Final = {
    "method": "length_method",
    "pivot": "pivot_mm",
    "period": "period_s",
    "clamp": "clamp_mm",
    "tip_mass": "tip_mass_g",
    **{known.value: column for column, (known, _) in _SIZES.items()},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BagTable:
    """A table as it was read.

    Attributes
    ----------
    clubs : tuple of BagClub
    wrong : tuple of IntakeError
        One for each line that cannot be; its place names line and column.
    """

    clubs: tuple[BagClub, ...]
    wrong: tuple[IntakeError, ...]


def bag_csv(clubs: Sequence[BagClub]) -> str:
    """Return clubs as text of a table; its figures read back to twelve digits."""
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    for club in clubs:
        writer.writerow({column: harmless(cell) for column, cell in _row(club).items()})
    return text.getvalue()


def read_bag_table(data: bytes, name: str) -> BagTable:
    """Return the clubs of a table, and every line of it that cannot be.

    Parameters
    ----------
    data : bytes
        CSV in UTF-8, a comma or a semicolon between cells. With a semicolon a comma may be the
        decimal mark.
    name : str
        What messages call the file.

    Raises
    ------
    IntakeError
        If it is no such table at all.
    """
    text = _text(data, name)
    delimiter = ";" if ";" in text.split("\n", 1)[0] else ","
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        columns = [one.strip().casefold() for one in next(reader, [])]
        rows = [(reader.line_num, row) for row in reader if any(cell.strip() for cell in row)]
    except csv.Error as error:
        place = f"{name}, line {reader.line_num}"
        raise IntakeError(
            f"it is no table: {error}", place=place, mend="Save it as CSV."
        ) from None
    _headed(columns, len(rows), name)
    clubs: dict[str, BagClub] = {}
    wrong: list[IntakeError] = []
    for line, cells in rows:
        try:
            club = _club(_cells(columns, list(map(as_typed, cells))), comma=delimiter == ";")
            _unlike(club.name, clubs)
        except InputError as error:
            column = _COLUMN_OF.get(error.place, error.place)
            place = f"{name}, line {line}" + (f", {column}" if column else "")
            wrong.append(IntakeError(error.message, place=place, mend=error.mend))
        else:
            clubs[club.name.casefold()] = club
    return BagTable(clubs=tuple(clubs.values()), wrong=tuple(wrong))


def _unlike(name: str, clubs: Mapping[str, BagClub]) -> None:
    if name.casefold() in clubs:
        raise InputError(f"another line is called {name!r}", place="name", mend="Rename one.")


def _text(data: bytes, name: str) -> str:
    if len(data) > MOST_BYTES:
        raise IntakeError(
            f"{len(data) >> 10} KB are no bag", place=name, mend="Give a table of clubs."
        )
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        raise IntakeError(
            f"it is not in UTF-8 from byte {error.start} on",
            place=name,
            mend="Save it as CSV in UTF-8.",
        ) from None


def _headed(columns: Sequence[str], rows: int, name: str) -> None:
    for column in columns:
        if column not in COLUMNS:
            near = difflib.get_close_matches(column, COLUMNS, n=1)
            mend = f"The nearest is {near[0]!r}." if near else f"Known are {', '.join(COLUMNS)}."
            raise IntakeError(
                f"a column {column!r} is not known", place=f"{name}, line 1", mend=mend
            )
    missing = [column for column in ("name", "kind") if column not in columns]
    if missing:
        raise IntakeError(
            f"it has no column {missing[0]!r}",
            place=f"{name}, line 1",
            mend="The first line names the columns, name and kind among them.",
        )
    if len(set(columns)) < len(columns):
        raise IntakeError("a column stands twice", place=f"{name}, line 1", mend="Leave one out.")
    if not 1 <= rows <= MOST_ROWS:
        raise IntakeError(
            f"{rows} clubs are no bag", place=name, mend=f"Give 1 to {MOST_ROWS} lines of clubs."
        )


def _cells(columns: Sequence[str], cells: Sequence[str]) -> dict[str, str]:
    if len(cells) > len(columns):
        raise InputError(
            f"{len(cells)} cells stand in {len(columns)} columns",
            mend="Put a cell with the separator in it between quotation marks.",
        )
    told = zip(columns, [*cells, *[""] * (len(columns) - len(cells))], strict=True)
    return {column: cell.strip() for column, cell in told}


def _club(cells: Mapping[str, str], *, comma: bool) -> BagClub:
    def number(column: str, size: float) -> float | None:
        text = cells.get(column, "")
        return None if not text else _number(text, column, comma=comma) * size

    values = {
        known.value: number(column, size)
        for column, (known, size) in _SIZES.items()
        if known not in {Known.SWINGWEIGHT, Known.FREQUENCY}
    }
    points = cells.get("swingweight", "")
    doubts = {known: number(column, size) for column, (known, size) in _DOUBTS.items()}
    return BagClub(
        name=cells["name"],
        kind=_word(cells["kind"], "kind"),
        spare=_truth(cells.get("spare", "")),
        method=_method(cells.get("length_method", "")),
        swingweight=index_of(points.replace(",", ".") if comma else points) if points else None,
        swung=_swung(number("pivot_mm", MILLIMETRE), number("period_s", 1.0)),
        timed=_timed(cells, number("frequency_cpm", CYCLE_PER_MINUTE), comma=comma),
        doubts={known: doubt for known, doubt in doubts.items() if doubt is not None},
        source=cells.get("source", ""),
        **values,
    )


def _number(text: str, column: str, *, comma: bool) -> float:
    try:
        value = float(text.replace(",", ".") if comma else text)
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        mark = "a point or a comma" if comma else "a point"
        raise InputError(
            f"{text!r} is no number", place=column, mend=f"Give a number with {mark} in it."
        )
    return value


def _word(text: str, column: str) -> BagKind:
    try:
        return BagKind(text.casefold())
    except ValueError:
        raise InputError(
            f"{text!r} is no kind of club", place=column, mend=f"Give {', '.join(BagKind)}."
        ) from None


def _truth(text: str) -> bool:
    if text.casefold() not in {"", "yes", "no"}:
        raise InputError(f"{text!r} cannot be", place="spare", mend="Give yes or no.")
    return text.casefold() == "yes"


def _method(text: str) -> LengthMethod:
    try:
        return LengthMethod(text.casefold()) if text else LengthMethod.PLANE
    except ValueError:
        raise InputError(
            f"{text!r} is no way to measure a length",
            place="length_method",
            mend=f"Give {' or '.join(LengthMethod)}.",
        ) from None


def _swung(pivot: float | None, period: float | None) -> Swung | None:
    if pivot is None and period is None:
        return None
    if pivot is None or period is None:
        raise InputError(
            "a pendulum needs the period and where the club hung",
            place="period_s" if period is None else "pivot_mm",
            mend="Give period_s and pivot_mm, or neither.",
        )
    return Swung(pivot=pivot, period=period)


def _timed(cells: Mapping[str, str], frequency: float | None, *, comma: bool) -> Timed | None:
    clamp, tip = cells.get("clamp_mm", ""), cells.get("tip_mass_g", "")
    if frequency is None and not clamp and not tip:
        return None
    if frequency is None or not clamp or not tip:
        raise InputError(
            "a frequency without its clamp and weight means nothing",
            place="frequency_cpm",
            mend=f"Give frequency_cpm, clamp_mm and tip_mass_g, the last as {OWN_HEAD!r} for the "
            "club’s own head, or none of them.",
        )
    weight = None
    if tip.casefold() != OWN_HEAD:
        weight = _number(tip, "tip_mass_g", comma=comma) * GRAM
    held = _number(clamp, "clamp_mm", comma=comma) * MILLIMETRE
    return Timed(frequency=frequency, clamp=held, tip_mass=weight)


def _row(club: BagClub) -> dict[str, str]:
    return {
        "name": club.name,
        "kind": club.kind.value,
        "spare": "yes" if club.spare else "no",
        "length_method": club.method.value if club.length is not None else "",
        "source": club.source,
        **dict(_told(club)),
    }


def _told(club: BagClub) -> Iterator[tuple[str, str]]:
    for column, (known, size) in _SIZES.items():
        value = club.value(known)
        if value is not None:
            points = known is Known.SWINGWEIGHT
            yield column, _points_text(value) if points else _shortest(value, size)
    for column, (known, size) in _DOUBTS.items():
        if known in club.doubts:
            yield column, _shortest(club.doubts[known], size)
    if club.swung is not None:
        yield "pivot_mm", _shortest(club.swung.pivot, MILLIMETRE)
        yield "period_s", _shortest(club.swung.period, 1.0)
    if club.timed is not None:
        yield "clamp_mm", _shortest(club.timed.clamp, MILLIMETRE)
        weight = club.timed.tip_mass
        yield "tip_mass_g", OWN_HEAD if weight is None else _shortest(weight, GRAM)


def _shortest(value: float, size: float) -> str:
    """Return the shortest figure that reads back as a value to twelve digits."""
    figure = f"{value / size:.12g}"
    return f"{float(figure):.15f}".rstrip("0").rstrip(".") if "e" in figure else figure


def _points_text(index: float) -> str:
    letter = min(int(index // 10.0), len(LETTERS) - 1)
    rest = index - 10.0 * letter
    if rest > HIGHEST_NUMBER and letter < len(LETTERS) - 1:
        letter, rest = letter + 1, 0.0
    return f"{LETTERS[letter]}{_shortest(rest, 1.0)}"

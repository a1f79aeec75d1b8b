"""Read rows of the rack's open format into values, or say which row cannot be, and the mend."""

import csv
import difflib
import io
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, fields, replace
from datetime import date, datetime
from decimal import Decimal
from math import isfinite
from typing import Any, Final

from loftwright.constants import DEGREE
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.table_cell import as_typed
from loftwright.errors import InputError
from loftwright.services.rack_fields import COLUMNS, FIELDS, FORMAT, TYPES, VERSION, Field, Form

MOST_ROWS: Final = 20_000
LONGEST: Final = 400
_ID: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._:-]{0,63}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a file.

    Attributes
    ----------
    where : str
        Its place in words: ``row 7``, ``item 3``.
    told : mapping of str to object
        By key, without its kind.
    """

    where: str
    kind: str
    told: Mapping[str, Any]


def rows_in(name: str, data: bytes) -> tuple[Row, ...]:
    """Return the rows of a file, of JSON or a table, whatever they say.

    Parameters
    ----------
    name : str
        Of the file, for messages.
    data : bytes

    Raises
    ------
    InputError
        If it is no rack in the open format at all.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refused(name, f"is no text at byte {error.start}", "Save it as UTF-8.") from error
    is_json = text.lstrip().startswith("{")
    rows = _json_rows(name, text) if is_json else _table_rows(name, text)
    if len(rows) > MOST_ROWS:
        raise _refused(name, f"has {len(rows)} rows", f"Give {MOST_ROWS} at most.")
    return rows


def value_of(row: Row, known: Any = None) -> Any:  # noqa: ANN401 - one type a kind
    """Return the value that a row tells, new or changed from what is known.

    Keys that the row does not have keep what is known, or take what is usual.

    Raises
    ------
    InputError
        Naming the key, if a value cannot be.
    """
    told = {}
    for field in FIELDS[row.kind]:
        if field.key in row.told:
            told[field.name] = _read(field, row.told[field.key])
        elif field.needed and known is None:
            raise InputError("it is missing", place=field.key, mend="Give it.")
    made = TYPES[row.kind]
    usual = {one.name: one.default for one in fields(made) if one.default is not MISSING}
    told = {name: usual.get(name) if one is None else one for name, one in told.items()}
    if known is not None:
        return replace(known, **told)
    if row.kind in {"head", "shaft"}:
        told.setdefault("maker", "")
    return made(**told)


def _json_rows(name: str, text: str) -> tuple[Row, ...]:
    try:
        told = json.loads(text, parse_float=Decimal, parse_constant=Decimal)
    except json.JSONDecodeError as error:
        raise _refused(
            name,
            f"breaks off as JSON in line {error.lineno}, column {error.colno}",
            "Write it anew with a program that writes JSON.",
        ) from error
    except (ValueError, RecursionError, ArithmeticError) as error:
        raise _refused(
            name,
            "is nested too deeply, or holds a number of thousands of digits",
            "Write numbers of a few digits, and items as the reference of rack files has them.",
        ) from error
    if told.get("format") != FORMAT:
        raise _refused(name, "is no rack", f'It begins with "format": "{FORMAT}".')
    if told.get("version") != VERSION:
        raise _refused(
            name,
            f"has version {told.get('version')!r} of the format",
            f"This program knows version {VERSION}.",
        )
    items = told.get("items")
    if not isinstance(items, list) or not all(isinstance(one, dict) for one in items):
        raise _refused(name, "has no list of items", 'Give "items": [{"kind": …}, …].')
    return tuple(_row(f"item {place}", one) for place, one in enumerate(items, start=1))


def _table_rows(name: str, text: str) -> tuple[Row, ...]:
    head = text.split("\n", 1)[0]
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=";" if ";" in head else ",")
    try:
        columns = [one.strip() for one in next(reader, [])]
        lines = [(reader.line_num, cells) for cells in reader if any(cells)]
    except csv.Error as error:
        raise _refused(name, f"is no table: {error}", "Save it as CSV.") from error
    if "kind" not in columns:
        raise _refused(
            name, "is no rack", "Its first line names the columns, and one of them is kind."
        )
    for column in columns:
        if column not in COLUMNS:
            raise _refused(name, f"has a column {column!r}", _nearest(column, COLUMNS))
    if len(set(columns)) < len(columns):
        raise _refused(name, "has a column twice", "Leave one of the two out.")
    found = []
    for line, cells in lines:
        if len(cells) > len(columns):
            raise _refused(
                name,
                f"has {len(cells)} cells in line {line} and {len(columns)} columns",
                "Put cells with a comma in them between quotation marks.",
            )
        told = dict(
            zip(columns, [*map(as_typed, cells), *[""] * (len(columns) - len(cells))], strict=True)
        )
        own = {field.key for field in FIELDS.get(told["kind"], ())} | {"kind"}
        # Columns of other kinds are there in every row of a table, and empty.
        found.append(
            _row(f"row {line}", {key: cell for key, cell in told.items() if cell or key in own})
        )
    return tuple(found)


def _row(where: str, told: dict[str, Any]) -> Row:
    kind = told.get("kind")
    if not isinstance(kind, str) or kind not in FIELDS:
        raise InputError(
            f"{where} is of the kind {_short(kind)}",
            place=where,
            mend=f"Give one of {', '.join(FIELDS)}.",
        )
    return Row(
        where=where, kind=kind, told={key: one for key, one in told.items() if key != "kind"}
    )


def check_keys(row: Row) -> None:
    """Refuse a key that its kind does not have.

    Raises
    ------
    InputError
        Naming the key and the nearest that is known.
    """
    known = [field.key for field in FIELDS[row.kind]]
    for key in row.told:
        if key not in known:
            raise InputError(f"a {row.kind} has no {key!r}", place=key, mend=_nearest(key, known))


def _read(field: Field, value: Any) -> Any:  # noqa: ANN401 - as many as there are forms
    if value is None or value == "":
        if field.needed:
            raise InputError("it is empty", place=field.key, mend="Give it.")
        return None if field.form is not Form.TEXT or field.name in _MAYBE else ""
    try:
        return _READERS[field.form](field, value)
    except InputError:
        raise
    except _UNREADABLE as error:
        raise InputError(
            f"{_short(value)} is no {_NAMES.get(field.form, field.form.value)}",
            place=field.key,
            mend=_mend(field),
        ) from error


_UNREADABLE: Final = (
    *(ValueError, TypeError, ArithmeticError),
    *(KeyError, AttributeError, IndexError),
)
_MAYBE: Final = frozenset({"replaces", "sleeve"})
_NAMES: Final = {Form.ANGLE: "number", Form.NUMBERS: "list of numbers", Form.SETTINGS: "settings"}


def _text(field: Field, value: Any) -> str:  # noqa: ANN401 - whatever a file holds
    if not isinstance(value, str):
        raise TypeError
    if len(value) > LONGEST:
        raise InputError(
            f"{len(value)} letters are too many", place=field.key, mend=f"Write {LONGEST} at most."
        )
    if field.key == "id" and not _ID.fullmatch(value):
        raise InputError(
            f"{_short(value)} is no id",
            place="id",
            mend="Give 1 to 64 of A to Z, a to z, 0 to 9, and . _ : - behind the first.",
        )
    return value


def _number(value: Any, shift: int) -> float:  # noqa: ANN401 - whatever a file holds
    if isinstance(value, bool):
        raise TypeError
    made = Decimal(value) if isinstance(value, int | Decimal) else Decimal(str(value).strip())
    if not made.is_finite():
        raise ValueError
    number = float(made.scaleb(shift))
    if not isfinite(number):
        raise ValueError
    return number


def _numbers(field: Field, value: Any) -> Any:  # noqa: ANN401 - whatever a file holds
    listed = value.split() if isinstance(value, str) else value
    return [_number(one, field.shift) for one in listed]


def _whole(_: Field, value: Any) -> int:  # noqa: ANN401 - whatever a file holds
    number = _number(value, 0)
    if number != int(number) or abs(number) >= 2**53:
        raise ValueError
    return int(number)


def _money(_: Field, value: Any) -> int:  # noqa: ANN401 - whatever a file holds
    return _whole(_, Decimal(str(value).strip()).scaleb(2))


def _instant(_: Field, value: Any) -> datetime:  # noqa: ANN401 - whatever a file holds
    made = datetime.fromisoformat(value)
    if made.tzinfo is None:
        raise ValueError
    return made


def _settings(_: Field, value: Any) -> tuple[SleeveSetting, ...]:  # noqa: ANN401 - as above
    told = _cells(value) if isinstance(value, str) else value
    return tuple(
        SleeveSetting(
            name=one["name"],
            bore=_number(one.get("bore_deg", 0), 0) * DEGREE,
            azimuth=_number(one.get("lean_deg", 0), 0) * DEGREE,
        )
        for one in told
    )


def _cells(text: str) -> list[dict[str, str]]:
    """Return settings of a cell: name; bore; lean, with bars between."""
    found = []
    for part in _split(text, "|"):
        name, *angles = (one.strip() for one in _split(part, ";"))
        if len(angles) not in {0, 2}:
            raise ValueError(part)
        unescaped = re.sub(r"\\(.)", r"\1", name)
        found.append(
            {"name": unescaped} | dict(zip(("bore_deg", "lean_deg"), angles, strict=False))
        )
    return found


def _split(text: str, mark: str) -> list[str]:
    """Return the parts of a text between marks that no backslash stands before."""
    parts, start = [], 0
    for found in re.finditer(r"\\.|" + re.escape(mark), text):
        if found.group() == mark:
            parts.append(text[start : found.start()])
            start = found.end()
    return [*parts, text[start:]]


_READERS: Final[dict[Form, Callable[[Field, Any], Any]]] = {
    Form.TEXT: _text,
    Form.NUMBER: lambda field, value: _number(value, field.shift),
    Form.ANGLE: lambda _, value: _number(value, 0) * DEGREE,
    Form.WHOLE: _whole,
    Form.MONEY: _money,
    Form.WORD: lambda field, value: field.words(value) if field.words else value,
    Form.INSTANT: _instant,
    Form.DAY: lambda _, value: date.fromisoformat(value),
    Form.NUMBERS: _numbers,
    Form.SETTINGS: _settings,
}


def _mend(field: Field) -> str:
    if field.words is not None:
        return f"Give {', '.join(field.words)}."
    return {
        Form.TEXT: "Give text.",
        Form.WHOLE: "Give a whole number.",
        Form.MONEY: "Give an amount such as 450 or 450.50.",
        Form.INSTANT: "Give an instant with its zone, such as 2026-11-25T12:00:00+00:00.",
        Form.DAY: "Give a day such as 2026-11-25.",
        Form.NUMBERS: "Give numbers with a point as decimal mark and spaces between.",
        Form.SETTINGS: "Give name; bore; lean in degrees, with bars between.",
    }.get(field.form, "Give a number with a point as decimal mark.")


def _nearest(key: str, known: tuple[str, ...] | list[str]) -> str:
    near = difflib.get_close_matches(key, known, n=1)
    return f"The nearest is {near[0]!r}." if near else f"Known are {', '.join(known)}."


def _refused(name: str, message: str, mend: str) -> InputError:
    return InputError(f"{name} {message}", place=name, mend=mend)


def _short(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 40 else f"{text[:37]}…"

"""Write the rack in its open format, as JSON or as one table."""

import csv
import io
import json
import re
from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal
from typing import Any, Final

from loftwright.constants import DEGREE
from loftwright.domain.inspection import Inspection
from loftwright.domain.lineage import forebears
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import HeadModel, Rack, RackItem, ShaftModel, SleeveSetting
from loftwright.domain.table_cell import harmless
from loftwright.services.rack_fields import COLUMNS, FIELDS, FORMAT, TYPES, VERSION, Field, Form
from loftwright.services.studio import Studio

_ESCAPED: Final = re.compile(r"([\\;|])")


def rack_json(studio: Studio) -> str:
    """Return the shop's rack as JSON; numbers keep every digit."""
    return json_of(rows_of(studio))


def json_of(told: Iterable[dict[str, Any]]) -> str:
    """Return rows as a file in JSON.

    Parameters
    ----------
    told : iterable of dict
        As `row_of` gives them.
    """
    rows = ",\n".join(f"  {_json(row)}" for row in told)
    head = f'{{"format": "{FORMAT}", "version": {VERSION}, "items": ['
    return f"{head}\n{rows}\n]}}\n" if rows else f"{head}]}}\n"


def rack_csv(studio: Studio) -> str:
    """Return the shop's rack as a table: one row an item, a column a key."""
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    for row in rows_of(studio):
        writer.writerow({key: _cell(value) for key, value in row.items()})
    return text.getvalue()


def rows_of(studio: Studio) -> Iterator[dict[str, Any]]:
    """Yield every row of the shop's rack, each after what it names.

    Golfers' own clubs are no part of it, nor what only they are made of.
    """
    rack = studio.store.rack()
    kinds = {kind: name for name, kind in TYPES.items()}
    pieces = {one.id for one in shop_items(rack)}
    for item in shop_items(rack):
        yield row_of(kinds[type(item)], item)
    for looks in studio.store.inspections().values():
        yield from (row_of("look", one) for one in looks if one.piece in pieces)
    for profiles in studio.store.profiles().values():
        yield from (row_of("profile", one) for one in profiles if one.piece in pieces)


def shop_items(rack: Rack) -> tuple[RackItem, ...]:
    """Return what belongs to the shop, each after what it names.

    A model that only golfers own stays where a model of the shop replaces it.
    """
    owned = [one for one in rack.assemblies.values() if one.owner is not None]
    parts = {piece for one in owned for piece in (one.head, one.shaft)}
    pieces = [one for one in rack.pieces.values() if one.id not in parts]
    models: list[HeadModel | ShaftModel] = [*rack.heads.values(), *rack.shafts.values()]
    only_owned = {rack.pieces[piece].model for piece in parts} - {one.model for one in pieces}
    for head in rack.heads.keys() - only_owned:
        only_owned -= {before.id for before in forebears(rack.heads, head)}
    for shaft in rack.shafts.keys() - only_owned:
        only_owned -= {before.id for before in forebears(rack.shafts, shaft)}
    return (
        *rack.sleeves.values(),
        *(one for one in models if one.id not in only_owned),
        *pieces,
        *(one for one in rack.assemblies.values() if one.owner is None),
    )


def every_item(rack: Rack) -> dict[str, RackItem]:
    """Return everything in a rack by its id, each after what it names."""
    kinds = (rack.sleeves, rack.heads, rack.shafts, rack.pieces, rack.assemblies)
    return {item: value for kind in kinds for item, value in kind.items()}


def row_of(kind: str, value: RackItem | Inspection | MeasuredProfile) -> dict[str, Any]:
    """Return a value as a row of every key; what is not known is None."""
    return {"kind": kind} | {
        field.key: _written(field, getattr(value, field.name)) for field in FIELDS[kind]
    }


def degrees_of(angle: float) -> Decimal:
    """Return the shortest figure in degrees that reads back as an angle.

    An angle that no figure gives, as one that was calculated, is written with 17 digits.
    """
    turned = angle / DEGREE
    for digits in range(1, 18):
        figure = f"{turned:.{digits}g}"
        if float(figure) * DEGREE == angle:
            return Decimal(figure)
    return Decimal(f"{turned:.17g}")


def _written(field: Field, value: Any) -> Any:  # noqa: ANN401 - as many as there are forms
    if value is None or field.form not in _WRITERS:
        return value
    return _WRITERS[field.form](value, field.shift)


def _shifted(value: float, shift: int) -> Decimal:
    """Return a value over a power of ten, exactly."""
    return Decimal(repr(value)).scaleb(-shift)


def _setting(one: SleeveSetting) -> dict[str, Any]:
    return {
        "name": one.name,
        "bore_deg": degrees_of(one.bore),
        "lean_deg": degrees_of(one.azimuth),
    }


_WRITERS: Final[dict[Form, Callable[[Any, int], Any]]] = {
    Form.NUMBER: _shifted,
    Form.NUMBERS: lambda value, shift: [_shifted(one, shift) for one in value.tolist()],
    Form.ANGLE: lambda value, _: degrees_of(value),
    Form.MONEY: lambda value, _: Decimal(value).scaleb(-2),
    Form.INSTANT: lambda value, _: value.isoformat(),
    Form.DAY: lambda value, _: value.isoformat(),
    Form.WORD: lambda value, _: value.value,
    Form.SETTINGS: lambda value, _: [_setting(one) for one in value],
}


def _json(value: Any) -> str:  # noqa: ANN401 - any value of JSON
    """Return JSON in one line; the standard writer would round what is exact."""
    match value:
        case Decimal():
            return _plain(value)
        case list():
            return f"[{', '.join(_json(one) for one in value)}]"
        case dict():
            told = (f"{json.dumps(key)}: {_json(one)}" for key, one in value.items())
            return f"{{{', '.join(told)}}}"
    return json.dumps(value, ensure_ascii=False)


def _cell(value: Any) -> str:  # noqa: ANN401 - any value of a row
    match value:
        case None:
            return ""
        case Decimal():
            return _plain(value)
        case [dict(), *_]:
            return harmless(" | ".join(_setting_text(one) for one in value))
        case list():
            return " ".join(_plain(one) for one in value)
        case str():
            return harmless(value)
    return str(value)


def _setting_text(one: dict[str, Any]) -> str:
    name = _ESCAPED.sub(r"\\\1", one["name"])
    return f"{name}; {_plain(one['bore_deg'])}; {_plain(one['lean_deg'])}"


def _plain(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text

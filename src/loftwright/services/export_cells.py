"""Tables and objects of an export: cells that no spreadsheet takes for a formula, plain JSON."""

import csv
import io
import json
from collections.abc import Iterable, Sequence
from typing import Any

from pydantic import TypeAdapter

from loftwright.domain.table_cell import harmless


def table(header: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Return a table as CSV: UTF-8, comma, one header row."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writerow(header)
    writer.writerows([harmless(cell) for cell in row] for row in rows)
    return out.getvalue().encode()


def told(value: object) -> bytes:
    """Return something as JSON that a person can read."""
    return f"{json.dumps(value, ensure_ascii=False, indent=1)}\n".encode()


def plain(value: object) -> Any:  # noqa: ANN401 - whatever a value holds
    """Return a domain value as what JSON holds: numbers in SI and radians, days as ISO 8601."""
    return TypeAdapter(type(value)).dump_python(value, mode="json")

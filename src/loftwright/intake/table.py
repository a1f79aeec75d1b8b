"""Reads a table of shots."""

import csv
from pathlib import Path
from typing import Any

from loftwright.domain.device import Column, Origin
from loftwright.domain.shot import Shot, ShotTable
from loftwright.errors import IntakeError
from loftwright.intake.options import ReadOptions
from loftwright.intake.own_table import _NUMBERS, HEADER
from loftwright.units import factor

__all__ = ["ReadOptions", "read_shots"]


def read_shots(path: Path, options: ReadOptions) -> ShotTable:  # noqa: ARG001 - to come
    """Read a table of shots."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    if not rows or tuple(rows[0]) != HEADER:
        raise IntakeError("is not our own shot table", place=str(path))
    dims = {"mph": "speed", "deg": "angle", "rpm": "spin", "mm": "length", "yd": "length"}
    shots: list[Shot] = []
    for line, row in enumerate(rows[1:], start=2):
        cells = dict(zip(HEADER, row, strict=True))
        values: dict[str, Any] = {}
        for heading, (field, unit, _) in _NUMBERS.items():
            scale, _zero = factor(unit, dims[unit])
            values[field] = float(cells[heading]) * scale if cells[heading] else None
        shots.append(
            Shot(
                row=line,
                order=len(shots),
                club=cells["club"],
                ball=cells["ball"] or None,
                time=cells["time"] or None,
                mark_set=cells["mark_set"] or None,
                read=cells["read"] != "no",
                **values,
            )
        )
    columns = tuple(
        Column(
            column=heading,
            means=_NUMBERS[heading][0].replace("_", " ") if heading in _NUMBERS else heading,
            unit=_NUMBERS[heading][1] if heading in _NUMBERS else "",
            origin=Origin.MEASURED,
            source="our own shot table",
        )
        for heading in HEADER
    )
    return ShotTable(read=len(shots), shots=tuple(shots), columns=columns)

"""Makes the quantities that a table gives in another form: total spin, axis, face."""

import math
from collections.abc import Callable, Mapping, Sequence

from loftwright.domain.device import Column, Origin

Values = list[float | None]


def _each(function: Callable[..., float | None], *columns: Sequence[float | None]) -> Values:
    made: Values = []
    for cells in zip(*columns, strict=True):
        made.append(None if any(cell is None for cell in cells) else function(*cells))
    return made


def _from_total(spin: float, side: float) -> float | None:
    return math.asin(side / spin) if spin > 0.0 and abs(side) <= spin else None


def _column(means: str, unit: str, parts: Sequence[Column]) -> Column:
    calculated = any(part.origin is Origin.CALCULATED for part in parts)
    origins = {part.origin for part in parts}
    origin = origins.pop() if len(origins) == 1 else Origin.UNKNOWN
    return Column(
        column=", ".join(part.column for part in parts),
        means=means,
        unit=unit,
        origin=Origin.CALCULATED if calculated else origin,
        source=" and ".join(part.means for part in parts),
    )


def derive(
    values: dict[str, Values], columns: Mapping[str, Column]
) -> tuple[list[Column], list[str]]:
    """Add total spin, axis and face where a table gives what they follow from.

    Parameters
    ----------
    values : dict of str to list of float or None
        Columns in SI by meaning; what follows is added.
    columns : mapping of str to Column
        What the table gives, by meaning.

    Returns
    -------
    list of Column, list of str
        What was added, and what had to be taken for granted.

    Notes
    -----
    Back spin turns about the horizontal and side spin about the vertical, so the tilt of the
    axis from the horizontal is atan2(side spin, back spin).
    """
    added: list[Column] = []
    warnings: list[str] = []

    def add(means: str, unit: str, made: Values, parts: Sequence[str]) -> None:
        if any(value is not None for value in made):
            values[means] = made
            added.append(_column(means, unit, [columns[part] for part in parts]))

    has = {means for means, column in values.items() if any(v is not None for v in column)}
    if {"back spin", "side spin"} <= has:
        back, side = values["back spin"], values["side spin"]
        both = ("back spin", "side spin")
        if "spin" not in has:
            add("spin", columns["back spin"].unit, _each(math.hypot, back, side), both)
        if "axis" not in has:
            tilt = _each(lambda b, s: math.atan2(s, b), back, side)
            add("axis", "deg", tilt, both)
    elif {"spin", "side spin"} <= has and "axis" not in has:
        tilt = _each(_from_total, values["spin"], values["side spin"])
        add("axis", "deg", tilt, ("spin", "side spin"))
    elif "back spin" in has and "spin" not in has:
        back = values["back spin"]
        if "axis" in has:
            total = _each(lambda b, a: b / math.cos(a), back, values["axis"])
            add("spin", columns["back spin"].unit, total, ("back spin", "axis"))
        else:
            add("spin", columns["back spin"].unit, list(back), ("back spin",))
            warnings.append("spin is taken as back spin alone: the table gives no side spin")
    if "face" not in has and {"face to path", "path"} <= has:
        face = _each(lambda f, p: f + p, values["face to path"], values["path"])
        add("face", columns["path"].unit, face, ("face to path", "path"))
    if "path" not in has and {"face to path", "face"} <= has:
        path = _each(lambda f, p: f - p, values["face"], values["face to path"])
        add("path", columns["face"].unit, path, ("face", "face to path"))
    return added, warnings

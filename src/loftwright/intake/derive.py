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


class _Maker:
    """Adds quantities to a table's numbers, and remembers what they were made from."""

    def __init__(self, values: dict[str, Values], columns: Mapping[str, Column]) -> None:
        self.values, self.columns = values, columns
        self.added: list[Column] = []
        self.warnings: list[str] = []

    def has(self, *names: str) -> bool:
        """Whether the table gives all of these."""
        return all(
            any(value is not None for value in self.values.get(means, ())) for means in names
        )

    def make(
        self, means: str, unit: str, parts: Sequence[str], function: Callable[..., float | None]
    ) -> None:
        """Make one quantity ball by ball from others."""
        made = _each(function, *(self.values[part] for part in parts))
        if any(value is not None for value in made):
            self.values[means] = made
            self.added.append(_column(means, unit, [self.columns[part] for part in parts]))

    def spin(self) -> None:
        """Make total spin, from back spin and what else there is."""
        if self.has("spin") or not self.has("back spin"):
            return
        unit = self.columns["back spin"].unit
        if self.has("side spin"):
            self.make("spin", unit, ("back spin", "side spin"), math.hypot)
        elif self.has("axis"):
            self.make(
                "spin", unit, ("back spin", "axis"), lambda back, axis: back / math.cos(axis)
            )
        else:
            self.make("spin", unit, ("back spin",), lambda back: back)
            self.warnings.append("spin is taken as back spin alone: the table gives no side spin")

    def axis(self) -> None:
        """Make the tilt of the axis from side spin and back spin or total spin."""
        if self.has("axis") or not self.has("side spin"):
            return
        if self.has("back spin"):
            parts = ("back spin", "side spin")
            self.make("axis", "deg", parts, lambda back, side: math.atan2(side, back))
        elif self.has("spin"):
            self.make("axis", "deg", ("spin", "side spin"), _from_total)

    def face_and_path(self) -> None:
        """Make face or path from the other and face to path."""
        if not self.has("face to path"):
            return
        if self.has("path") and not self.has("face"):
            unit, parts = self.columns["path"].unit, ("face to path", "path")
            self.make("face", unit, parts, lambda to_path, path: to_path + path)
        elif self.has("face") and not self.has("path"):
            unit, parts = self.columns["face"].unit, ("face", "face to path")
            self.make("path", unit, parts, lambda face, to_path: face - to_path)


def derive(
    values: dict[str, Values], columns: Mapping[str, Column]
) -> tuple[list[Column], list[str]]:
    """Add total spin, axis, face and path where a table gives what they follow from.

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
    maker = _Maker(values, columns)
    maker.spin()
    maker.axis()
    maker.face_and_path()
    return maker.added, maker.warnings

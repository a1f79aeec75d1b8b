"""Decides the unit of a column: told, shown by its values, or open; and whether they agree."""

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.intake.doubts import Doubt, quoted_option, samples_of
from loftwright.intake.numbers import NumberColumn, middle
from loftwright.intake.quantities import Quantity
from loftwright.units import Unit, unit_of

# Carry per ball speed [s] and ball speed per head speed of any golfer's full shots [judgement].
_CARRY_TIME: Final = (2.1, 4.5)
_SPEED_RATIO: Final = (1.0, 1.65)
_DRIVE_RATIO: Final = (1.2, 1.6)
_AGREEMENTS: Final = (
    ("ball speed", "head speed", _SPEED_RATIO, ""),
    ("carry", "ball speed", _CARRY_TIME, " s"),
)
# Slower drives are a child's; where another unit makes them a grown golfer's, that is asked.
_SLOW_DRIVE: Final = 80.0 * MILE_PER_HOUR
_FEW: Final = 3
_ENOUGH: Final = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A column's unit and what showed it.

    Attributes
    ----------
    unit : Unit, optional
        None while it is open.
    source : str
        `heading`, `cells`, `values`, `user`, ...
    """

    unit: Unit | None
    source: str


def _unit(quantity: Quantity, name: str) -> Unit:
    return unit_of(name, quantity.dimension, place=quantity.means)


def _inside(value: float, limits: tuple[float, float]) -> bool:
    return limits[0] <= value <= limits[1]


def told_unit(column: NumberColumn) -> Scale:
    """Return the unit told by the user, the heading or every cell."""
    plan = column.plan
    if plan.unit is not None:
        return Scale(unit=plan.unit, source=plan.source)
    pairs = zip(column.values, column.units, strict=True)
    named = [unit for value, unit in pairs if value is not None]
    if named and all(unit is not None for unit in named):
        return Scale(unit=named[0], source="cells")
    return Scale(unit=None, source="")


def candidates(quantity: Quantity, values: Sequence[float], *, drives: bool = True) -> list[str]:
    """Return the units under which a column's middle is that of drives (or of any shot)."""
    limits = quantity.typical if drives else quantity.possible
    size = middle(quantity, values)
    return [name for name in quantity.units if _inside(size * _unit(quantity, name).scale, limits)]


def shown_unit(
    column: NumberColumn,
    others: Mapping[str, tuple[NumberColumn, Scale]],
) -> Scale:
    """Return the unit that the values show, alone or with the other columns.

    Parameters
    ----------
    column : NumberColumn
        A column whose unit is not told.
    others : mapping
        The table's other columns by meaning, with their units as far as known.
    """
    quantity = column.plan.quantity
    held = column.held
    if not held:
        return Scale(unit=None, source="")
    if quantity.dimension in {"angle", "spin"}:
        # Small angles may look like radians; no table mixes the two.
        same = _same_as_others(quantity, held, others)
        if same.unit is not None:
            return same
    found = candidates(quantity, held)
    if quantity.means == "carry":
        # Yards and metres lie too near each other for any drive to tell them apart.
        found = []
    if len(found) > 1 and quantity.dimension == "speed":
        found = _agreeing(column, found, others)
    if len(found) == 1:
        return Scale(unit=_unit(quantity, found[0]), source="values")
    return Scale(unit=None, source="")


def _paired_ratio(top: NumberColumn, bottom: NumberColumn) -> float | None:
    """Return the median ratio of two columns as written, over balls that have both."""
    ratios = [
        a / b
        for a, b in zip(top.values, bottom.values, strict=True)
        if a is not None and b is not None and b > 0.0
    ]
    return statistics.median(ratios) if len(ratios) >= _FEW else None


def _agreeing(
    column: NumberColumn,
    found: list[str],
    others: Mapping[str, tuple[NumberColumn, Scale]],
) -> list[str]:
    """Keep the units of a speed that agree with carry and with the other speed."""
    quantity = column.plan.quantity
    scales = {name: _unit(quantity, name).scale for name in found}
    if quantity.means == "ball speed" and "carry" in others:
        carry, scale = others["carry"]
        ratio = _paired_ratio(carry, column)
        lengths = [scale.unit.scale] if scale.unit is not None else [YARD, 1.0]
        if ratio is not None:
            scales = {
                name: size
                for name, size in scales.items()
                if any(_inside(ratio * length / size, _CARRY_TIME) for length in lengths)
            }
    partner, scale = others.get(
        "head speed" if quantity.means == "ball speed" else "ball speed",
        (column, Scale(unit=None, source="")),
    )
    if scale.unit is not None:
        ball, head = (column, partner) if quantity.means == "ball speed" else (partner, column)
        ratio = _paired_ratio(ball, head)
        if ratio is not None:
            known = scale.unit.scale
            scales = {
                name: size
                for name, size in scales.items()
                if _inside(
                    ratio * (size / known if ball is column else known / size), _DRIVE_RATIO
                )
            }
    return list(scales)


def _same_as_others(
    quantity: Quantity,
    held: Sequence[float],
    others: Mapping[str, tuple[NumberColumn, Scale]],
) -> Scale:
    """Return the unit that every other column of the dimension has, if the values can have it."""
    units = {
        scale.unit.name: scale.unit
        for other, scale in others.values()
        if scale.unit is not None and scale.unit.dimension == quantity.dimension
    }
    if len(units) == 1:
        (unit,) = units.values()
        if middle(quantity, held) * unit.scale <= quantity.possible[1]:
            return Scale(unit=unit, source="the other columns")
    return Scale(unit=None, source="")


def unit_doubt(column: NumberColumn, rows: list[int], texts: list[str]) -> Doubt:
    """Return the question for a column whose unit nothing shows."""
    plan = column.plan
    quantity = plan.quantity
    fitting = candidates(quantity, column.held, drives=False) or list(quantity.units)
    return Doubt(
        column=plan.name,
        question=f"{plan.name!r} is {quantity.means}, but nothing tells its unit",
        samples=samples_of(rows, texts),
        options=_ways(plan.name, quantity, fitting),
    )


def _ways(name: str, quantity: Quantity, units: Sequence[str]) -> tuple[str, ...]:
    ways = [quoted_option("--column", f"{name}={quantity.means}[{unit}]") for unit in units]
    return (*ways, quoted_option("--column", f"{name}=ignore"))


def contradiction(
    column: NumberColumn, unit: Unit, rows: list[int], texts: list[str]
) -> Doubt | None:
    """Return the question for a column whose middle cannot be in the unit it names."""
    plan = column.plan
    quantity = plan.quantity
    held = column.held
    if not held or plan.told_now:
        return None
    size = middle(quantity, held)
    low, high = quantity.possible
    if len(held) < _FEW and size * unit.scale <= quantity.limits[1]:
        return None
    enough = not quantity.sided or len(held) >= _ENOUGH
    too_small = 0.0 < size * unit.scale < low and enough
    fitting = [name for name in candidates(quantity, held) if name != unit.name]
    slow = quantity.means == "ball speed" and size * unit.scale < _SLOW_DRIVE and fitting
    if size * unit.scale <= high and not too_small and not slow:
        return None
    hint = f"; as {' or '.join(fitting)} they fit" if fitting else ""
    reach = (
        f"is slow for a drive{hint}"
        if slow and not too_small
        else f"is beyond {low / unit.scale:.3g} to {high / unit.scale:.3g}{hint}"
    )
    return Doubt(
        column=plan.name,
        question=(
            f"{plan.name!r} is told in {unit.name}, but {quantity.means} of about {size:.4g} "
            f"{unit.name} {reach}"
        ),
        samples=samples_of(rows, texts),
        options=_ways(plan.name, quantity, (*fitting, unit.name)),
    )


def disagreement(
    scales: Mapping[str, tuple[NumberColumn, Scale]],
    rows: list[int],
    texts: Mapping[str, list[str]],
) -> list[Doubt]:
    """Return questions for speeds and carry whose units cannot all be right.

    Parameters
    ----------
    scales : mapping
        The table's columns by meaning, with their units.
    rows, texts : list, mapping
        Lines of the file and cells of the columns, for the samples.
    """
    known = {
        means: (column, scale.unit)
        for means, (column, scale) in scales.items()
        if scale.unit is not None
    }
    doubts = []
    for top, bottom, limits, suffix in _AGREEMENTS:
        if top in known and bottom in known:
            doubt = _ratio_doubt(known[top], known[bottom], limits, suffix)
            if doubt is not None:
                doubts.append(replace(doubt, samples=samples_of(rows, texts[top])))
    return doubts


def _ratio_doubt(
    top: tuple[NumberColumn, Unit],
    bottom: tuple[NumberColumn, Unit],
    limits: tuple[float, float],
    suffix: str,
) -> Doubt | None:
    """Return the question for two columns whose ratio no golfer reaches."""
    plans = [column.plan for column, _ in (top, bottom)]
    raw = _paired_ratio(top[0], bottom[0])
    if raw is None or any(plan.told_now for plan in plans):
        return None
    units = [top[1], bottom[1]]
    ratio = raw * units[0].scale / units[1].scale
    if _inside(ratio, limits):
        return None
    options = []
    for place, plan in enumerate(plans):
        for name in plan.quantity.units:
            tried = list(units)
            tried[place] = _unit(plan.quantity, name)
            other = raw * tried[0].scale / tried[1].scale
            # What mends the ratio, and what the heading says, should it be right after all.
            if _inside(other, limits) or (place == 1 and name == units[1].name):
                text = f"{plan.name}={plan.means}[{name}]"
                options.append(quoted_option("--column", text))
    return Doubt(
        column=plans[0].name,
        question=(
            f"{plans[0].name!r} and {plans[1].name!r} cannot both have the units they are given: "
            f"{plans[0].means} per {plans[1].means} is {ratio:.2f}{suffix}, outside "
            f"{limits[0]:g} to {limits[1]:g}{suffix}"
        ),
        options=tuple(options),
    )

"""Turns the number columns of a table into SI, one column a quantity, or asks."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from loftwright.domain.device import Column, Origin
from loftwright.intake.body import Row
from loftwright.intake.cells import is_blank
from loftwright.intake.columns import Plan
from loftwright.intake.doubts import Doubt, quoted_option, samples_of
from loftwright.intake.numbers import NumberColumn, read_numbers, table_decimal, unreadable
from loftwright.intake.options import Handedness
from loftwright.intake.quantities import QUANTITIES
from loftwright.intake.scales import (
    Scale,
    contradiction,
    disagreement,
    shown_unit,
    told_unit,
    unit_doubt,
)

_NAMED_ROWS: Final = 8
_SAME: Final = 0.015
# What others' units rest on comes first.
_ORDER: Final = ("carry", "launch", "spin", "back spin", "ball speed", "head speed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """The numbers of a table in SI, with what is open about them.

    Attributes
    ----------
    values : dict of str to list of float or None
        One column a quantity, one value a row.
    plans : dict of str to Plan
        The column each quantity is read from, its unit filled in.
    sources : dict of str to str
        What told the unit.
    left_out : dict of int to str
        Columns that are not used, and why.
    doubts, warnings : list
        Questions, and what single cells lost.
    """

    values: dict[str, list[float | None]] = field(default_factory=dict)
    plans: dict[str, Plan] = field(default_factory=dict)
    sources: dict[str, str] = field(default_factory=dict)
    left_out: dict[int, str] = field(default_factory=dict)
    doubts: list[Doubt] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)


def _texts(rows: Sequence[Row], plan: Plan) -> list[str]:
    return [row.cells[plan.index] for row in rows]


def number_columns(
    rows: Sequence[Row], plans: Sequence[Plan], hand: Handedness
) -> list[NumberColumn]:
    """Return the columns of numbers as written, before their units are known."""
    numeric = [plan for plan in plans if plan.numeric]
    decimal = table_decimal(rows, [plan.index for plan in numeric])
    return [read_numbers(plan, plan.quantity, rows, decimal, hand) for plan in numeric]


def _si(column: NumberColumn, scale: Scale) -> list[float | None]:
    values: list[float | None] = []
    for value, own in zip(column.values, column.units, strict=True):
        unit = own or scale.unit
        made = None if value is None or unit is None else value * unit.scale + unit.offset
        values.append(made)
    return values


def _rows_named(lines: Sequence[int]) -> str:
    shown = ", ".join(map(str, lines[:_NAMED_ROWS]))
    more = f" and {len(lines) - _NAMED_ROWS} more" if len(lines) > _NAMED_ROWS else ""
    return f"row {shown}{more}" if len(lines) == 1 else f"rows {shown}{more}"


def _bad_cells(column: NumberColumn, rows: Sequence[Row]) -> list[str]:
    """Return a warning for every way in which cells of a column give no number."""
    by_problem: dict[str, list[int]] = {}
    shown: dict[str, str] = {}
    for row, problem in zip(rows, column.problems, strict=True):
        if problem:
            by_problem.setdefault(problem, []).append(row.line)
            shown.setdefault(problem, row.cells[column.plan.index][:40])
    return [
        f"{column.plan.name!r}, {_rows_named(lines)}: {shown[problem]!r} {problem}; "
        "read as not measured"
        for problem, lines in by_problem.items()
    ]


def _within_limits(
    column: NumberColumn, scale: Scale, values: list[float | None], rows: Sequence[Row]
) -> tuple[list[float | None], list[str]]:
    """Return values with those that cannot be taken out, and a warning that names them."""
    quantity = column.plan.quantity
    low, high = quantity.limits
    kept: list[float | None] = []
    lines = []
    for row, value in zip(rows, values, strict=True):
        good = value is None or low <= value <= high
        kept.append(value if good else None)
        if not good:
            lines.append(row.line)
    if not lines or scale.unit is None:
        return kept, []
    unit = scale.unit
    first = next(row for row in rows if row.line == lines[0])
    return kept, [
        f"{column.plan.name!r}, {_rows_named(lines)}: {first.cells[column.plan.index][:40]!r} "
        f"cannot be {quantity.means} ({low / unit.scale:.3g} to {high / unit.scale:.3g} "
        f"{unit.name}); read as not measured"
    ]


def _same_numbers(first: list[float | None], other: list[float | None]) -> bool:
    pairs = [(a, b) for a, b in zip(first, other, strict=True) if a is not None and b is not None]
    return bool(pairs) and all(abs(a - b) <= _SAME * max(abs(a), abs(b), 1e-3) for a, b in pairs)


def _preferred(
    group: list[NumberColumn], rows: Sequence[Row], measures: Measures
) -> NumberColumn | None:
    """Return the one column of several that give the same quantity, or ask."""
    filled = [column for column in group if column.held] or group[:1]
    for column in group:
        if column not in filled:
            measures.left_out[column.plan.index] = "blank"
    straight = [column for column in filled if column.plan.origin is not Origin.CALCULATED]
    if len(straight) == 1:
        filled, dropped = straight, [column for column in filled if column not in straight]
        for column in dropped:
            measures.left_out[column.plan.index] = "calculated; another column is not"
    first = filled[0]
    scale = told_unit(first)
    rivals = []
    for other in filled[1:]:
        other_scale = told_unit(other)
        told = scale.unit is not None and other_scale.unit is not None
        if told and _same_numbers(_si(first, scale), _si(other, other_scale)):
            measures.left_out[other.plan.index] = f"says the same as {first.plan.name!r}"
        else:
            rivals.append(other)
    if not rivals:
        return first
    names = [column.plan.name for column in (first, *rivals)]
    means = first.plan.means
    measures.doubts.append(
        Doubt(
            column=first.plan.name,
            question=f"{' and '.join(map(repr, names))} both give {means} and differ",
            samples=tuple(
                (row.line, " | ".join(row.cells[c.plan.index] for c in (first, *rivals)))
                for row in rows[:3]
            ),
            options=tuple(quoted_option("--column", f"{name}={means}") for name in names),
        )
    )
    return None


def measure(rows: Sequence[Row], columns: Sequence[NumberColumn]) -> Measures:
    """Return a table's numbers in SI, or what is open about them.

    Parameters
    ----------
    rows : sequence of Row
        The balls, in the order of the file.
    columns : sequence of NumberColumn
        Their numbers as written.
    """
    measures = Measures()
    groups: dict[str, list[NumberColumn]] = {}
    for column in columns:
        groups.setdefault(column.plan.means, []).append(column)
    chosen: dict[str, NumberColumn] = {}
    for means in sorted(groups, key=lambda word: _ORDER.index(word) if word in _ORDER else 99):
        preferred = _preferred(groups[means], rows, measures)
        if preferred is not None:
            chosen[means] = preferred
    scales = _scales(chosen)
    lines = [row.line for row in rows]
    for means, (column, scale) in scales.items():
        _take(means, column, scale, rows, measures)
    texts = {means: _texts(rows, column.plan) for means, column in chosen.items()}
    if not measures.doubts:
        measures.doubts.extend(disagreement(scales, lines, texts))
    return measures


def _scales(chosen: Mapping[str, NumberColumn]) -> dict[str, tuple[NumberColumn, Scale]]:
    """Return every column with its unit: told first, then shown by values and neighbours."""
    scales = {means: (column, told_unit(column)) for means, column in chosen.items()}
    # Twice, because one speed's unit may show the other's.
    for _ in range(2):
        for means, (column, scale) in list(scales.items()):
            if scale.unit is None:
                others = {other: pair for other, pair in scales.items() if other != means}
                scales[means] = column, shown_unit(column, others)
    return scales


def _take(
    means: str, column: NumberColumn, scale: Scale, rows: Sequence[Row], measures: Measures
) -> None:
    """Take one column into the measures, or note what is open about it."""
    plan, quantity = column.plan, QUANTITIES[means]
    lines, texts = [row.line for row in rows], _texts(rows, column.plan)
    measures.warnings.extend(_bad_cells(column, rows))
    if not column.held:
        words = unreadable(texts, column)
        if words and quantity.asked and not any(map(is_number_problem, column.problems)):
            measures.doubts.append(_wordy(plan, lines, texts))
        return
    if scale.unit is None:
        if quantity.asked:
            measures.doubts.append(unit_doubt(column, lines, texts))
        else:
            measures.left_out[plan.index] = "nothing tells its unit"
            measures.warnings.append(f"{plan.name!r} is not used: nothing tells its unit")
        return
    doubt = contradiction(column, scale.unit, lines, texts)
    if doubt is not None and quantity.asked:
        measures.doubts.append(doubt)
        return
    if doubt is not None:
        measures.left_out[plan.index] = "its values cannot be in its unit"
        measures.warnings.append(f"{plan.name!r} is not used: {doubt.question}")
        return
    values, warnings = _within_limits(column, scale, _si(column, scale), rows)
    measures.warnings.extend(warnings)
    measures.values[means] = values
    measures.plans[means] = replace(plan, unit=scale.unit)
    measures.sources[means] = scale.source


def is_number_problem(problem: str) -> bool:
    """Return whether a cell held a number that is not finite or is an estimate."""
    return "finite" in problem or "estimate" in problem


def _wordy(plan: Plan, lines: list[int], texts: list[str]) -> Doubt:
    held = [(line, text) for line, text in zip(lines, texts, strict=True) if not is_blank(text)]
    return Doubt(
        column=plan.name,
        question=f"{plan.name!r} is {plan.means}, but its cells give no numbers that are "
        "understood",
        samples=samples_of([line for line, _ in held], [text for _, text in held]),
        options=(quoted_option("--column", f"{plan.name}=ignore"),),
    )


def column_entry(plan: Plan, measures: Measures) -> Column:
    """Return what became of one column of the file."""
    used = measures.plans.get(plan.means)
    if not plan.means or plan.means == "ignore":
        source = plan.source if plan.settled else "its heading says nothing used here"
        return Column(
            column=plan.name, means="ignore", unit="", origin=Origin.UNKNOWN, source=source
        )
    if plan.index in measures.left_out:
        why = measures.left_out[plan.index]
        return Column(column=plan.name, means="ignore", unit="", origin=Origin.UNKNOWN, source=why)
    unit = plan.unit.name if plan.unit is not None else ""
    if plan.numeric and used is None:
        return Column(
            column=plan.name, means=plan.means, unit=unit, origin=Origin.ABSENT, source="blank"
        )
    if used is not None and plan.numeric:
        told = measures.sources[plan.means]
        unit = used.unit.name if used.unit is not None else ""
        source = plan.source if told in {"", plan.source} else f"{plan.source}; unit by {told}"
        return Column(
            column=plan.name, means=plan.means, unit=unit, origin=plan.origin, source=source
        )
    return Column(
        column=plan.name, means=plan.means, unit="", origin=plan.origin, source=plan.source
    )

"""Says of every column where its numbers come from, and lists those that are absent."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from loftwright.domain.device import Column, Origin
from loftwright.intake.body import Row
from loftwright.intake.checks import is_combination, never_changes
from loftwright.intake.columns import Plan
from loftwright.intake.measure import Measures, column_entry
from loftwright.intake.numbers import last_digit
from loftwright.intake.quantities import IMPORTANT

# A column that may have been calculated, and what from.
_FORMULAS: Final = (
    ("head speed", ("ball speed",)),
    ("face", ("direction", "path")),
    ("face", ("direction",)),
    ("dynamic loft", ("launch",)),
)


def calculated(rows: Sequence[Row], measures: Measures) -> dict[str, str]:
    """Return the columns that follow from others to the last digit, with what they follow from.

    Parameters
    ----------
    rows : sequence of Row
        The balls.
    measures : Measures
        Their numbers.
    """
    found: dict[str, str] = {}
    for means, sources in _FORMULAS:
        if means in found or not {means, *sources} <= measures.plans.keys():
            continue
        steps = [_step(rows, measures.plans[word]) for word in (means, *sources)]
        columns = [measures.values[word] for word in sources]
        if is_combination(measures.values[means], columns, steps[0], steps[1:]):
            found[means] = f"the values: it follows from {' and '.join(sources)} to the last digit"
    for means in ("ball speed", "launch", "spin", "axis", "head speed", "carry"):
        if means in measures.plans and never_changes(measures.values[means]):
            found[means] = "the values: they never change"
    return found


def _step(rows: Sequence[Row], plan: Plan) -> float:
    scale = plan.unit.scale if plan.unit is not None else 1.0
    return last_digit([row.cells[plan.index] for row in rows]) * scale


def named_columns(rows: Sequence[Row], plans: Sequence[Plan]) -> list[Plan]:
    """Return the columns without those that have neither heading nor cells."""
    return [
        plan
        for plan in plans
        if plan.means
        or plan.name != f"column {plan.index + 1}"
        or any(row.cells[plan.index] for row in rows)
    ]


def list_columns(
    rows: Sequence[Row],
    plans: Sequence[Plan],
    measures: Measures,
    derived: Sequence[Column],
    follows: Mapping[str, str],
) -> tuple[Column, ...]:
    """Return every column of the file, what was derived, and what is absent.

    Parameters
    ----------
    rows : sequence of Row
        The balls.
    plans : sequence of Plan
        The columns of the file.
    measures : Measures
        Their numbers.
    derived : sequence of Column
        Quantities made from others.
    follows : mapping of str to str
        Columns that were found to be calculated, with the reason.
    """
    listed = []
    made = {column.means for column in derived}
    for plan in plans:
        entry = column_entry(plan, measures)
        if entry.means != "ignore" and not any(row.cells[plan.index] for row in rows):
            entry = replace(entry, origin=Origin.ABSENT, source="blank")
        if entry.means in made:
            # A blank column of what could be derived does not make it absent.
            entry = replace(entry, means="ignore", origin=Origin.UNKNOWN)
        told = plan.settled and plan.origin is not Origin.UNKNOWN
        if entry.means in follows and entry.origin is not Origin.ABSENT and not told:
            entry = replace(entry, origin=Origin.CALCULATED, source=follows[entry.means])
        listed.append(entry)
    listed += derived
    there = {column.means for column in listed}
    absent = [
        Column(column="", means=means, unit="", origin=Origin.ABSENT, source="no such column")
        for means in IMPORTANT
        if means not in there
    ]
    return (*listed, *absent)

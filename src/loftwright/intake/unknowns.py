"""Asks about columns that no word settles, where their values could be what is missing."""

from collections.abc import Sequence

from loftwright.intake.body import Row
from loftwright.intake.cells import is_blank
from loftwright.intake.columns import Plan
from loftwright.intake.doubts import Doubt, quoted_option, samples_of
from loftwright.intake.numbers import is_count, read_numbers
from loftwright.intake.quantities import LAUNCH_NUMBERS, QUANTITIES
from loftwright.intake.scales import candidates

_NUMBER_SHARE = 0.6
_FEWEST = 2


def missing_numbers(taken: set[str]) -> list[str]:
    """Return the launch numbers that no column gives."""
    given = set(taken)
    if "back spin" in given:
        given.add("spin")
    if "side spin" in given:
        given.add("axis")
    return [means for means in LAUNCH_NUMBERS if means not in given]


def _could_be(plan: Plan, rows: Sequence[Row], decimal: str, wanted: Sequence[str]) -> list[str]:
    """Return `meaning[unit]` for everything a column of numbers could be."""
    texts = [row.cells[plan.index] for row in rows if not is_blank(row.cells[plan.index])]
    ways = []
    for means in wanted:
        quantity = QUANTITIES[means]
        if plan.unit is not None and plan.unit.dimension != quantity.dimension:
            continue
        column = read_numbers(plan, quantity, rows, decimal, "right")
        held = column.held
        if len(held) < max(_FEWEST, _NUMBER_SHARE * len(texts)) or is_count(held):
            continue
        both_sides = min(held) < 0.0 < max(held)
        if both_sides != quantity.sided or (quantity.sided and len(held) < 3):
            continue
        # Nobody writes a table's angles or spins in anything but degrees and rpm without a word.
        common = quantity.units if quantity.dimension == "speed" else quantity.units[:1]
        units = [unit for unit in candidates(quantity, held) if unit in common]
        if plan.unit is not None:
            told = plan.unit.name
            units = [unit for unit in candidates(quantity, held) if unit == told]
        ways += [f"{means}[{unit}]" for unit in units]
    return ways


def unknown_doubts(rows: Sequence[Row], plans: Sequence[Plan], decimal: str) -> list[Doubt]:
    """Return questions about columns that no word settles.

    Parameters
    ----------
    rows : sequence of Row
        The rows.
    plans : sequence of Plan
        The columns.
    decimal : str
        The table's decimal mark.
    """
    taken = {plan.means for plan in plans if plan.means}
    missing = missing_numbers(taken)
    doubts = []
    for plan in plans:
        texts = [row.cells[plan.index] for row in rows]
        if plan.means or all(is_blank(text) for text in texts):
            continue
        if plan.meanings:
            question, ways = _open_word(plan)
        else:
            question, ways = _no_word(plan, rows, decimal, missing, taken)
        if ways:
            options = [
                quoted_option("--column", f"{plan.name}={way}") for way in (*ways, "ignore")
            ]
            doubts.append(
                Doubt(
                    column=plan.name,
                    question=question,
                    samples=samples_of([row.line for row in rows], texts),
                    options=tuple(options),
                )
            )
    return doubts if "club" in taken else doubts + _club_doubts(rows, plans)


def _no_word(
    plan: Plan, rows: Sequence[Row], decimal: str, missing: Sequence[str], taken: set[str]
) -> tuple[str, list[str]]:
    """Return the question about a column whose heading is no word of the trade."""
    ways = _could_be(plan, rows, decimal, missing)
    if ways and "head speed" not in taken:
        ways += _could_be(plan, rows, decimal, ["head speed"])
    could = " or ".join(dict.fromkeys(way.partition("[")[0] for way in ways))
    return f"nothing tells what {plan.name!r} is, and its numbers could be {could}", ways


def _open_word(plan: Plan) -> tuple[str, list[str]]:
    """Return the question about a word with several meanings, or with another's unit."""
    asked = any(QUANTITIES[means].asked for means in plan.meanings)
    ways = _meant(plan, asked=asked)
    if len(plan.meanings) == 1 and plan.unit is not None:
        return (
            f"{plan.name!r} is called {plan.meanings[0]}, but {plan.unit.name} is no unit of it",
            ways,
        )
    return f"{plan.name!r} could be {' or '.join(plan.meanings)}", ways


def _meant(plan: Plan, *, asked: bool) -> list[str]:
    """Return `meaning[unit]` for every meaning of an open word; nothing for one of no use."""
    if not asked:
        return []
    ways = []
    for means in plan.meanings:
        quantity = QUANTITIES[means]
        told = plan.unit is not None and plan.unit.dimension == quantity.dimension
        unit = plan.unit.name if told and plan.unit is not None else ""
        units = [unit] if unit else list(quantity.units[:2])
        ways += [f"{means}[{name}]" for name in units]
    return ways


def _club_doubts(rows: Sequence[Row], plans: Sequence[Plan]) -> list[Doubt]:
    """Return questions about columns of words that could name the club."""
    doubts = []
    for plan in plans:
        if plan.means or plan.meanings:
            continue
        texts = [row.cells[plan.index] for row in rows if not is_blank(row.cells[plan.index])]
        distinct = set(texts)
        words = [text for text in distinct if any(ch.isalpha() for ch in text)]
        repeated = 2 <= len(distinct) <= 24 and len(distinct) <= 0.5 * len(rows)
        if repeated and len(words) > 0.5 * len(distinct) and len(texts) > 0.5 * len(rows):
            doubts.append(
                Doubt(
                    column=plan.name,
                    question=f"no column names the club; {plan.name!r} could",
                    samples=samples_of(
                        [row.line for row in rows], [row.cells[plan.index] for row in rows]
                    ),
                    options=(
                        quoted_option("--club-column", plan.name),
                        quoted_option("--column", f"{plan.name}=ignore"),
                    ),
                )
            )
    return doubts

"""Sums over balls, as one expression that any engine of SQL can run.

Notes
-----
The normal equations of a linear model need its data only through sums of products, and these
add up over parts of the data, whoever adds them.
"""

from collections.abc import Iterator
from itertools import combinations_with_replacement
from typing import TYPE_CHECKING, Any, Final

from loftwright.constants import MILLIMETRE
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH
from loftwright.shop.columns import (
    DELIVERY,
    FEATURES,
    KEYS,
    LONG,
    MARKS,
    PARTS,
    RESPONSES,
    STRIKE_UNIT,
    WARM_UP,
    Scaled,
)

if TYPE_CHECKING:
    from ibis.expr.types import Table, Value

MARK_ERROR: Final = 1.75 * MILLIMETRE
"""Of a mark that a fitter reads (judgement)."""
MEAN_MARKS: Final = 4.0
"""Marks in the middle of the face that the mean strike is believed to be worth."""
SPREAD_MARKS: Final = 8.0
"""Marks that the usual spread is believed to be worth."""
SPREADS: Final = {"toe": 8.0 * MILLIMETRE, "high": 6.0 * MILLIMETRE}
LEAST_SPREAD: Final = 2.0 * MILLIMETRE
_FACE: Final = {"toe": FACE_HALF_WIDTH, "high": FACE_HALF_HEIGHT}

_RESPONSE_NAMES: Final = tuple(one.column for one in RESPONSES)
_FACTORS: Final = (*FEATURES[1:], *_RESPONSE_NAMES)
_SHIFTS: Final = tuple(one.column for one in PARTS)
_BESIDE_MARKS: Final = (*(one.column for one in DELIVERY), "warm_up", "drift")


def sums_of(balls: "Table") -> "Table":
    """Return the sums of products of a table of balls, one row a club of a fitting.

    Parameters
    ----------
    balls : ibis Table
        With the columns of the open table. A ball without its five launch numbers or without
        its delivery is in no sum. A mark beyond the face is one on its rim.

    Returns
    -------
    ibis Table
        The keys, the count `n`, the sum of weights `weight`, and weighted sums: ``toe``,
        ``toe__spin`` and so on. Marked balls and others have rows of their own. Sums with
        ``toe_mark`` and ``high_mark`` mean something in rows of marked balls alone.
    """
    scaled = _scaled(_calibrated(balls))
    weight = scaled["weight"]
    sums = {"n": scaled.count(), "weight": weight.sum()}
    for name in _SHIFTS:
        sums[name] = (weight * scaled[name]).sum()
    for name, factors in pairs():
        product: Any = weight
        for factor in factors:
            product = product * scaled[factor]
        sums[name] = product.sum()
    return scaled.group_by(list(KEYS)).aggregate(**sums)


def merged(parts: "Table") -> "Table":
    """Return the sums of rows of sums that belong together, as of partial runs."""
    names = ("n", "weight", *_SHIFTS, *(name for name, _ in pairs()))
    return parts.group_by(list(KEYS)).aggregate(**{name: parts[name].sum() for name in names})


def pairs() -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield the name of every sum and what is multiplied in it."""
    for name in _FACTORS:
        yield name, (name,)
    for one, other in combinations_with_replacement(_FACTORS, 2):
        yield f"{one}__{other}", (one, other)
    for name in MARKS:
        yield name, (name,)
        for other in _BESIDE_MARKS:
            yield f"{other}__{name}", (other, name)
    for one, other in combinations_with_replacement(MARKS, 2):
        yield f"{one}__{other}", (one, other)


def _calibrated(balls: "Table") -> "Table":
    """Return balls with what is expected of the strike and of its square, given the mark.

    Notes
    -----
    Regression calibration: E[strike | mark] = mean + k (mark - mean) with k the share of the
    marks' variance that is the golfer's (Carroll, Ruppert, Stefanski & Crainiceanu 2006,
    Measurement Error in Nonlinear Models, chapter 4, from memory).
    """
    import ibis  # noqa: PLC0415 - only the shop record needs an engine

    there = balls.mutate(
        marked=balls["strike_toe"].notnull() & balls["strike_high"].notnull(),
    )
    clear = ibis.literal(0.0)
    for way in SPREADS:
        mark = there[f"strike_{way}"].clip(-_FACE[way], _FACE[way])
        there = there.mutate(**{f"{way}_mark": mark.fill_null(0.0)})
    marks = there["marked"].cast("float64")
    stats = there.group_by("fitting").aggregate(
        marks=marks.sum(),
        **{f"{way}_sum": (marks * there[f"{way}_mark"]).sum() for way in SPREADS},
        **{
            f"{way}_squares": (marks * there[f"{way}_mark"] * there[f"{way}_mark"]).sum()
            for way in SPREADS
        },
    )
    found = there.left_join(stats, "fitting")
    for way, usual in SPREADS.items():
        count, total = found["marks"], found[f"{way}_sum"]
        mean = total / (count + MEAN_MARKS)
        scatter = found[f"{way}_squares"] - 2.0 * mean * total + count * mean * mean
        own = ibis.greatest(scatter - count * MARK_ERROR**2, count * LEAST_SPREAD**2)
        spread = (own + SPREAD_MARKS * usual**2) / (count + SPREAD_MARKS)
        share = spread / (spread + MARK_ERROR**2)
        strike = mean + ibis.ifelse(found["marked"], share * (found[f"{way}_mark"] - mean), clear)
        left = ibis.ifelse(found["marked"], spread * (1.0 - share), spread)
        found = found.mutate(
            **{
                way: strike / STRIKE_UNIT,
                f"{way}_squared": (strike * strike + left) / STRIKE_UNIT**2,
            }
        )
    return found


def _scaled(balls: "Table") -> "Table":
    """Return whole balls with every factor of the sums, from its origin and in its unit."""
    whole = balls.mutate(face_to_path=balls["face"] - balls["path"])
    columns = (*DELIVERY, *RESPONSES)
    for one in columns:
        whole = whole.filter(whole[one.column].notnull())
    whole = whole.mutate(**{one.column: _from_origin(whole, one) for one in (*columns, *PARTS)})
    whole = whole.mutate(**{name: whole[name] / STRIKE_UNIT for name in MARKS})
    # A whole number divided by a literal would be a decimal of six places to some engines.
    order = whole["order"].cast("float64")
    return whole.mutate(warm_up=(order / -WARM_UP).exp(), drift=order / LONG)


def _from_origin(table: "Table", one: Scaled) -> "Value":
    return (table[one.column] - one.origin) / one.unit

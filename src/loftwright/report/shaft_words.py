"""A shaft's figures in words: each with its range and its set-up, or why there is none."""

from collections.abc import Sequence
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, FOOT_POUND, GRAM, MILLIMETRE
from loftwright.domain.bench_figures import BenchFigures, SetUp
from loftwright.domain.sections import Section
from loftwright.physics.bench.piece import Estimate
from loftwright.report.numbers import fixed, listed

NINE_IN_TEN: Final = 1.645
NOT_MEASURED: Final = "not measured"
TIP_UNREAD: Final = "The tip is not read: load or swing the shaft with its tip in the clamp."
SAYS_NO_PART: Final = "One frequency sees the whole shaft and hardly its tip."


def figure_rows(figures: BenchFigures, set_up: SetUp) -> list[tuple[str, str]]:
    """Return the figures of a whole shaft, one a row, the set-up under what needs one.

    Parameters
    ----------
    figures : BenchFigures
    set_up : SetUp
    """
    swings, turns = figures.frequency, figures.torque
    rows = [
        ("Weight of the bare shaft", ranged(figures.mass, GRAM, "g")),
        ("Balance point from the butt", ranged(figures.balance, MILLIMETRE, "mm")),
        ("Frequency", ranged(swings, CYCLE_PER_MINUTE, "cpm")),
    ]
    if swings is not None:
        rows.append(("  its set-up", swung(set_up, figures.length)))
    rows.append(("Torque", ranged(turns, DEGREE, "deg", 2)))
    if turns is not None:
        rows.append(("  its set-up", twisted(set_up, figures.length)))
    return rows


def ranged(found: Estimate | None, unit: float, name: str, digits: int = 1) -> str:
    """Return a figure with its range of nine in ten, or that nobody measured it.

    Parameters
    ----------
    found : Estimate, optional
    unit : float
        Size of the unit in SI.
    name : str
        Of the unit.
    digits : int
    """
    if found is None:
        return NOT_MEASURED
    value, spread = found.value / unit, NINE_IN_TEN * found.spread / unit
    low, high = fixed(value - spread, digits), fixed(value + spread, digits)
    return f"{fixed(value, digits)} {name} ({low} to {high})"


def swung(set_up: SetUp, length: float) -> str:
    """Return the set-up of a frequency in words."""
    return (
        f"{millimetres(set_up.clamp)} held, {fixed(set_up.weight / GRAM)} g on the tip, "
        f"{millimetres(set_up.free_length(length))} free"
    )


def twisted(set_up: SetUp, length: float) -> str:
    """Return the set-up of a torque in words."""
    usual = " (1 lbf ft)" if abs(set_up.moment / FOOT_POUND - 1.0) < 1e-6 else ""
    return (
        f"{fixed(set_up.moment, 3)} N m{usual} over "
        f"{millimetres(set_up.gauge_length(length))} from the clamp"
    )


def millimetres(length: float) -> str:
    """Return a length in whole millimetres."""
    return f"{fixed(length / MILLIMETRE)} mm"


def missing(figures: BenchFigures, *, whole: bool = True) -> list[str]:
    """Return why figures are not told, a sentence a reason.

    Parameters
    ----------
    figures : BenchFigures
    whole : bool
        Whether the shaft's length is known.
    """
    if not whole:
        return [
            "The shaft's length was not given: frequency, torque, weight and balance point are "
            "not told."
        ]
    said = []
    if figures.mass is None and figures.frequency is None:
        said.append("The shaft was not weighed: no frequency and no weight is told.")
    elif figures.mass is None:
        said.append("The shaft was not weighed: no weight is told.")
    if figures.balance is None:
        even = " and its weight counts as spread evenly" if figures.mass is not None else ""
        said.append(f"It was not balanced: no balance point is told{even}.")
    if figures.torque is None:
        said.append("It was not twisted: no torque is told.")
    return said


def unseen(sections: Sequence[Section]) -> str:
    """Return which sections were not seen, as a sentence; nothing if all were."""
    if not sections:
        return ""
    names = listed([f"the {one.value}" for one in sections])
    return f"Not seen on the bench, and nothing is said of it: {names}."

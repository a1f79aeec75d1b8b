"""What a person types on a bench sheet: an invented shaft read in 22 places, and a slip."""

import numpy as np

from bench_readings import PLAIN, noisy, swapped_digits, three_points
from loftwright.constants import MILLIMETRE
from loftwright.physics.bench.readings import ThreePoint

SLIPPED = 8
"""The row, from 0, whose digits are swapped."""

STEP_MM = 38.1
FIRST_MM = 150.0
LENGTH_MM = f"{PLAIN.length / MILLIMETRE:g}"


def deflections(seed: int = 3, count: int = 22) -> list[str]:
    """Return what the gauge shows in mm, to thousandths, row by row."""
    step = STEP_MM * MILLIMETRE
    readings = noisy(three_points(PLAIN, count, step), np.random.default_rng(seed))
    return [one.typed for one in readings if isinstance(one, ThreePoint)]


def slipped(seed: int = 3) -> list[str]:
    """Return the same with two digits swapped in one row."""
    digits = deflections(seed)
    digits[SLIPPED] = swapped_digits(digits[SLIPPED])
    return digits


def station(row: int) -> str:
    """Return where a row stands, in mm."""
    return f"{FIRST_MM + STEP_MM * row:.1f}"


def typed(digits: list[str], length: str = LENGTH_MM) -> dict[str, str]:
    """Return the fields of a sheet with these readings, its set-up at the head alone."""
    fields = {"length": f"{length} mm", "bench": "Bench 1", "s0-span": "300 mm", "s0-load": "50"}
    for row, text in enumerate(digits):
        fields[f"s0r{row}-station"] = f"{station(row)} mm"
        fields[f"s0r{row}-deflection"] = text
    return fields

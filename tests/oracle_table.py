"""How far the comparison lies from what was sampled, as the tables of docs/truth/oracle.md.

`PYTHONPATH=src:tests .venv/bin/python -m oracle_table` prints them.
"""

import json
from functools import cache
from pathlib import Path
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from oracle_fittings import FITTINGS
from oracle_side import EXACT, MIXED, Stated, ours, variants_of

FOLDER: Final = Path(__file__).parent / "published" / "oracle"
EXACT_LINES: Final = ("same", "shift")
"""As the golfer swings it is a product of two regressions and value bends: neither is exact."""

SHOWN: Final = ("same", "swung", "value")


@cache
def stored(name: str) -> dict[str, Any]:
    """Return what is kept of a fitting."""
    found: dict[str, Any] = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
    return found


def lines_of(name: str, variant: str) -> dict[str, dict[str, FloatArray]]:
    """Return the sampled figures of every line."""
    lines = stored(name)["variants"][variant]["lines"]
    return {
        line: {key: np.array(value) for key, value in figures.items()}
        for line, figures in lines.items()
    }


def both(name: str, variant: str, line: str) -> tuple[Stated, dict[str, FloatArray]]:
    """Return ours and the sampled."""
    return ours(name, variant)[line], lines_of(name, variant)[line]


def mean_apart(name: str, variant: str, line: str) -> FloatArray:
    """Return how far the means lie apart, in sampled sds."""
    stated, sampled = both(name, variant, line)
    return np.asarray((stated.mean - sampled["mean"]) / sampled["sd"])


def sd_ratio(name: str, variant: str, line: str) -> FloatArray:
    """Return our sds over the sampled ones."""
    stated, sampled = both(name, variant, line)
    return np.asarray(stated.sd / sampled["sd"])


def errors_apart(name: str, variant: str, line: str) -> tuple[FloatArray, FloatArray]:
    """Return how far means and sds lie apart, in Monte Carlo errors."""
    stated, sampled = both(name, variant, line)
    return (
        np.abs(stated.mean - sampled["mean"]) / sampled["mean_error"],
        np.abs(stated.sd - sampled["sd"]) / sampled["sd_error"],
    )


def exact_rows() -> list[str]:
    """Return a row for every fitting and variant in which the equations are exact."""
    rows = []
    for name in FITTINGS:
        for variant in variants_of(name):
            if variant not in {EXACT, MIXED}:
                continue
            lines = [line for line in EXACT_LINES if line in lines_of(name, variant)]
            apart = [errors_apart(name, variant, line) for line in lines]
            count = sum(mean.size for mean, _ in apart)
            mean, sd = (max(float(one[place].max()) for one in apart) for place in (0, 1))
            rows.append(f"| {name} | {variant} | {count} | {mean:.1f} | {sd:.1f} |")
    return rows


def close_rows() -> list[str]:
    """Return a row for every fitting and variant in which the comparison approximates."""
    rows = []
    for name in FITTINGS:
        for variant in variants_of(name):
            if variant in {EXACT, MIXED}:
                continue
            cells = [name, variant]
            for line in SHOWN:
                if line not in lines_of(name, variant):
                    cells += ["", ""]
                    continue
                apart, ratio = mean_apart(name, variant, line), sd_ratio(name, variant, line)
                cells += [
                    f"{np.sqrt(np.mean(apart**2)):.2f} / {np.abs(apart).max():.2f}",
                    f"{ratio.min():.2f} to {ratio.max():.2f}",
                ]
            rows.append(f"| {' | '.join(cells)} |".replace("|  |  |", "| | |"))
    return rows


def sampling_rows() -> list[str]:
    """Return a row for every fitting: how well and how long it was sampled."""
    rows = []
    for name in FITTINGS:
        kept = stored(name)
        stages = [
            stage for variant in kept["variants"].values() for stage in variant["stages"].values()
        ]
        lines = [
            line for variant in kept["variants"].values() for line in variant["lines"].values()
        ]
        rhat = max(stage["worst_rhat"] for stage in stages)
        ess = min(stage["least_ess"] for stage in stages)
        lost = sum(stage["divergences"] for stage in stages)
        minutes = sum(stage["seconds"] for stage in stages) / 60.0
        told = min(line["least_ess"] for line in lines)
        rows.append(
            f"| {name} | {kept['why']} | {rhat:.4f} | {ess} | {told} | {lost} | {minutes:.0f} |"
        )
    return rows


if __name__ == "__main__":
    print("\n".join([*sampling_rows(), "", *exact_rows(), "", *close_rows()]))  # noqa: T201

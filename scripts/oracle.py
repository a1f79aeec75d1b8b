"""Sample the comparison's equations and keep the figures that it is held against.

`make oracle` samples every fitting in every variant with seeds of its own, some half an hour on
one core, and writes tests/published/oracle; `--only NAME` does one fitting. What is read there:
versions, seeds, time, the worst R-hat and least effective sample size of anything sampled,
divergences, and mean, sd and Monte Carlo errors of every pairwise difference.
"""

import argparse
import json
import os
import platform
import time
from importlib.metadata import version
from itertools import combinations
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault(
    "XLA_FLAGS", "--xla_cpu_multi_thread_eigen=false intra_op_parallelism_threads=1"
)

import numpy as np
from oracle_model import Draws, Spec, sample, summary

from loftwright.evidence.flight_map import OFFLINE, TOTAL
from loftwright.evidence.value import Drives, value
from oracle_fittings import FITTINGS, digest
from oracle_rows import UNIT, Floats, Layout
from oracle_side import EQUATIONS, EXACT, LATENT, MIXED, SPREADS, flights_of, setup_of, variants_of
from oracle_stages import layout_of

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "tests" / "published" / "oracle"
SPECS = {
    EXACT: Spec(tail_df=np.inf, fixed_scale=True),
    EQUATIONS: Spec(),
    LATENT: Spec(),
    SPREADS: Spec(spreads=True),
    MIXED: Spec(tail_df=np.inf),
}
CHAINS = 4
LONG = {"warm_up": 1000, "draws": 3000}
SHORT = {"warm_up": 600, "draws": 1500}
LARGE = ("marks-in-sets", "coarse-and-few")
"""Fittings of most unknowns: each draw takes long, and 6000 of them are enough."""

VALUED = 1500
SEED = 20_261


def contrasts(draws: Floats) -> Floats:
    """Return every pair's difference; clubs are the last axis and become the last but one."""
    found = [draws[..., a] - draws[..., b] for a, b in combinations(range(draws.shape[-1]), 2)]
    return np.stack(found, axis=-2) if draws.ndim > 3 else np.stack(found, axis=-1)


def swung_levels(layout: Layout, launch: Draws, swing: Draws | None, row: Floats) -> Floats:
    """Return launch of every club as swung, working units, shape (chains, draws, R, S)."""
    columns = layout.launch.mean.shape[1]
    slopes, effects = launch.theta[..., :columns], launch.theta[..., columns:]
    level = (slopes @ row)[..., None] + effects
    if swing is None or layout.swing is None:
        return level
    moved = swing.theta[..., layout.swing.mean.shape[1] :]
    moved = moved - moved.mean(axis=-1, keepdims=True)
    names = len(layout.delivery)
    delivery = slopes[..., layout.offset : layout.offset + names]
    level = level + delivery @ moved[..., :names, :]
    if layout.strike is None:
        return level
    at = launch.pattern_mean
    if at is None:
        at = np.broadcast_to(layout.strike.mean / 10.0, (*moved.shape[:2], 2))
    shift = 0.5 * moved[..., names:, :]
    level = level + slopes[..., 1:3] @ shift
    return level + slopes[..., 3:5] @ (2.0 * at[..., None] * shift + shift**2)


def value_draws(name: str, levels: Floats) -> Floats:
    """Return the value of every club [m] for a share of the draws, shape (chains, draws, S)."""
    setup = setup_of(name)
    flights, home, scatter = flights_of(setup)
    step = max(levels.shape[0] * levels.shape[1] // VALUED, 1)
    kept = levels[:, ::step]
    spread = flights.spread(scatter)
    launches = setup.slopes.origin + np.moveaxis(kept, -1, -2) * UNIT
    outcome = flights.mean(launches.reshape(-1, 5), scatter)
    worth = [
        value(home, Drives(total=t, offline=o, total_sd=spread[TOTAL], offline_sd=spread[OFFLINE]))
        for t, o in outcome[:, [TOTAL, OFFLINE]].tolist()
    ]
    return np.array(worth).reshape(*kept.shape[:2], -1)


def told(values: Floats) -> dict[str, Any]:
    """Return a summary as it is kept."""
    found = summary(values)
    kept: dict[str, Any] = {
        key: np.round(found[key], 6).tolist() for key in ("mean", "sd", "mean_error", "sd_error")
    }
    kept["least_ess"] = round(float(found["ess"].min()))
    kept["worst_rhat"] = round(float(found["rhat"].max()), 5)
    return kept


def diagnosed(draws: Draws) -> dict[str, Any]:
    """Return how well a stage was sampled."""
    return {
        "worst_rhat": round(draws.worst_rhat, 5),
        "least_ess": round(draws.least_ess),
        "divergences": draws.divergences,
        "seconds": round(draws.seconds, 1),
    }


def run(name: str, variant: str) -> dict[str, Any]:
    """Sample a fitting in one variant."""
    setup, spec = setup_of(name), SPECS[variant]
    latent = variant in {LATENT, SPREADS}
    beliefs = FITTINGS[name].beliefs
    layout = layout_of(FITTINGS[name].make(), setup.slopes, beliefs, latent=latent)
    seed = SEED + 100 * list(FITTINGS).index(name) + 10 * list(SPECS).index(variant)
    short = name in LARGE or variant == MIXED
    length = {"chains": CHAINS, **(SHORT if short else LONG)}
    launch = sample(layout.launch, spec, seed=seed, **length)
    stages = {"launch": diagnosed(launch)}
    swing = None
    if layout.swing is not None:
        swing = sample(layout.swing, spec, seed=seed + 1, **length)
        stages["swing"] = diagnosed(swing)
    calibrated = layout_of(FITTINGS[name].make(), setup.slopes, beliefs, latent=False).launch
    row = calibrated.covariates.mean(axis=0)
    order = layout.offset + len(layout.delivery)
    row[order : order + 2] = 0.0
    columns = layout.launch.mean.shape[1]
    levels = swung_levels(layout, launch, swing, row)
    lines = {"same": told(contrasts(launch.theta[..., columns:]))}
    if swing is not None and layout.swing is not None:
        lines["shift"] = told(contrasts(swing.theta[..., layout.swing.mean.shape[1] :]))
        lines["swung"] = told(contrasts(levels))
    lines["value"] = told(contrasts(value_draws(name, levels)))
    return {"seed": seed, "length": length, "stages": stages, "lines": lines}


def made_by() -> dict[str, str]:
    """Return what the figures were made by."""
    names = ("numpyro", "jax", "jaxlib", "numpy")
    return {"python": platform.python_version(), **{name: version(name) for name in names}}


def main() -> None:
    """Run what is asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", choices=list(FITTINGS), action="append")
    parser.add_argument("--variant", choices=list(SPECS), action="append")
    asked = parser.parse_args()
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name in asked.only or FITTINGS:
        path = FOLDER / f"{name}.json"
        balls = FITTINGS[name].make()
        kept: dict[str, Any] = {"variants": {}}
        if path.exists():
            before = json.loads(path.read_text(encoding="utf-8"))
            kept = before if before["digest"] == digest(balls) else kept
        kept = {
            "fitting": name,
            "why": FITTINGS[name].why,
            "digest": digest(balls),
            "clubs": len(balls.clubs),
            "balls": len(balls),
            "made_by": made_by(),
            "variants": kept["variants"],
        }
        for variant in asked.variant or variants_of(name):
            begun = time.perf_counter()
            kept["variants"][variant] = run(name, variant)
            path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")
            stages = kept["variants"][variant]["stages"]
            print(f"{name} {variant} {time.perf_counter() - begun:.0f} s {stages}", flush=True)


if __name__ == "__main__":
    main()

"""Sums over balls: what they are, and that they add up."""

from typing import Any

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.shop.columns import FEATURES, KEYS, MARKS, PARTS, RESPONSES
from loftwright.shop.sums import MARK_ERROR, merged, pairs, sums_of

ibis = pytest.importorskip("ibis")


def balls(count: int = 60, seed: int = 1) -> dict[str, np.ndarray]:
    """Return invented balls of three fittings with two clubs each."""
    rng = np.random.default_rng(seed)
    marked = rng.random(count) < 0.7
    toe = np.where(marked, rng.normal(2.0, 8.0, count), np.nan) * MILLIMETRE
    high = np.where(marked, rng.normal(1.0, 6.0, count), np.nan) * MILLIMETRE
    return {
        "fitting": np.array([f"f{one % 3}" for one in range(count)]),
        "golfer": np.array([f"g{one % 3}" for one in range(count)]),
        "visit": np.zeros(count, dtype=int),
        "bay": np.array(["b"] * count),
        "device": np.array(["d"] * count),
        "head": np.array(["h"] * count),
        "club": np.array([f"c{one % 2}" for one in range(count)]),
        "order": np.arange(count, dtype=float),
        "weight": rng.uniform(0.2, 1.0, count),
        "ball_speed": rng.normal(150.0, 3.0, count) * MILE_PER_HOUR,
        "launch": rng.normal(12.0, 1.0, count) * DEGREE,
        "spin": rng.normal(270.0, 30.0, count),
        "axis": rng.normal(0.0, 4.0, count) * DEGREE,
        "direction": rng.normal(0.0, 2.0, count) * DEGREE,
        "head_speed": rng.normal(101.0, 1.5, count) * MILE_PER_HOUR,
        "attack": rng.normal(1.0, 1.0, count) * DEGREE,
        "path": rng.normal(0.0, 2.0, count) * DEGREE,
        "face": rng.normal(0.0, 2.0, count) * DEGREE,
        "strike_toe": toe,
        "strike_high": high,
        **{one.column: np.full(count, 0.5 * one.unit) for one in PARTS},
    }


def run(*tables: dict[str, np.ndarray]) -> list[dict[str, Any]]:
    """Return the sums of tables of balls, added up, by the engine that is there by default."""
    import pyarrow as pa  # noqa: PLC0415 - beside the engine

    found = []
    for table in tables:
        made = pa.table({name: pa.array(one, from_pandas=True) for name, one in table.items()})
        found.append(sums_of(ibis.memtable(made)))
    together = found[0] if len(found) == 1 else merged(ibis.union(*found))
    rows: list[dict[str, Any]] = ibis.duckdb.connect().to_pyarrow(together).to_pylist()
    return sorted(rows, key=lambda row: [str(row[name]) for name in KEYS])


def by_numpy(table: dict[str, np.ndarray]) -> dict[tuple[Any, ...], dict[str, float]]:
    """Return the sums by plain loops."""
    found: dict[tuple[Any, ...], dict[str, float]] = {}
    for fitting in np.unique(table["fitting"]):
        there = table["fitting"] == fitting
        marked = np.isfinite(table["strike_toe"]) & there
        strike: dict[str, np.ndarray] = {}
        for way, usual in (("toe", 8.0e-3), ("high", 6.0e-3)):
            marks = table[f"strike_{way}"][marked]
            mean = marks.sum() / (len(marks) + 4.0)
            own = max(((marks - mean) ** 2).sum() - len(marks) * MARK_ERROR**2, len(marks) * 4e-6)
            spread = (own + 8.0 * usual**2) / (len(marks) + 8.0)
            share = spread / (spread + MARK_ERROR**2)
            one = np.where(marked, mean + share * (table[f"strike_{way}"] - mean), mean)
            strike[way] = one / 0.01
            left = np.where(marked, spread * (1.0 - share), spread)
            strike[f"{way}_squared"] = (one**2 + left) / 1e-4
        for club in np.unique(table["club"]):
            for flag in (True, False):
                rows = there & (table["club"] == club) & (marked == flag)
                whole = (fitting, f"g{fitting[1]}", 0, "b", "d", "h", club, flag)
                found[whole] = _sums(table, strike, rows)
    return found


def _sums(
    table: dict[str, np.ndarray], strike: dict[str, np.ndarray], rows: np.ndarray
) -> dict[str, float]:
    factors = {
        **strike,
        "head_speed": table["head_speed"] / MILE_PER_HOUR - 101.0,
        "attack": table["attack"] / DEGREE,
        "face_to_path": (table["face"] - table["path"]) / DEGREE,
        "face": table["face"] / DEGREE,
        "warm_up": np.exp(-table["order"] / 8.0),
        "drift": table["order"] / 60.0,
        **{one.column: (table[one.column] - one.origin) / one.unit for one in RESPONSES},
        **{f"{way}_mark": np.nan_to_num(table[f"strike_{way}"]) / 0.01 for way in ("toe", "high")},
    }
    weight = table["weight"][rows]
    return {
        name: float((weight * np.prod([factors[one][rows] for one in names], axis=0)).sum())
        for name, names in pairs()
    } | {
        "n": float(rows.sum()),
        "weight": float(weight.sum()),
        **{one.column: float(0.5 * weight.sum()) for one in PARTS},
    }


def test_every_sum_is_that_of_a_plain_loop() -> None:
    table = balls()
    wanted = by_numpy(table)
    for row in run(table):
        expected = wanted[tuple(row[name] for name in KEYS)]
        for name, value in expected.items():
            assert row[name] == pytest.approx(value, rel=1e-12, abs=1e-10), name


def test_sums_of_parts_add_up_to_those_of_the_whole() -> None:
    table = balls()
    parts = [
        {name: one[table["fitting"] == fitting] for name, one in table.items()}
        for fitting in ("f0", "f1", "f2")
    ]
    whole, added = run(table), run(*parts)
    assert [[row[name] for name in KEYS] for row in whole] == [
        [row[name] for name in KEYS] for row in added
    ]
    for one, other in zip(whole, added, strict=True):
        for name, _ in pairs():
            assert one[name] == pytest.approx(other[name], rel=1e-10, abs=1e-10)


def test_a_ball_without_a_launch_number_or_its_delivery_is_in_no_sum() -> None:
    table = balls()
    table["spin"][3] = np.nan
    table["face"][10] = np.nan
    assert sum(row["n"] for row in run(table)) == 58


def test_there_is_a_sum_for_every_pair_of_factors() -> None:
    factors = len(FEATURES) - 1 + len(RESPONSES)
    beside = len(MARKS) * (1 + 6) + 3
    assert len(list(pairs())) == factors + factors * (factors + 1) // 2 + beside


def test_a_mark_beyond_the_face_counts_as_one_on_its_rim() -> None:
    table = balls()
    table["strike_toe"][:] = 0.09
    table["strike_high"][:] = -0.05
    for row in run(table):
        assert row["toe_mark"] == pytest.approx(3.5 * row["weight"])
        assert row["high_mark"] == pytest.approx(-2.4 * row["weight"])

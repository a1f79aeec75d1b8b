"""The shop record summed by Spark: the same sums as by DuckDB, from the same expression.

Skipped where pyspark or Java is not there; `make spark` makes an environment that has both.
"""

import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from loftwright.shop.columns import KEYS
from loftwright.shop.engine import Sums, sums_in
from loftwright.shop.record import keep
from loftwright.shop.sums import pairs
from shop_samples import a_fitting, shaft_effects

pytest.importorskip("pyspark")
pytestmark = [
    pytest.mark.spark,
    pytest.mark.skipif(shutil.which("java") is None, reason="Java is not installed"),
    # What pyspark and py4j do in their own code is not ours to mend.
    pytest.mark.filterwarnings("default"),
]

FITTINGS = 40
DIGITS = 1e-10


def by_key(rows: Sums) -> dict[tuple[str, ...], np.ndarray]:
    names = ("n", "weight", *(name for name, _ in pairs()))
    return {
        tuple(str(row[name]) for name in KEYS): np.array(
            [row[name] for name in names], dtype=float
        )
        for row in rows
    }


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("record")
    effects = shaft_effects(3)
    for seed in range(FITTINGS):
        keep(made, a_fitting(seed, effects))
    return made


def test_sums_are_those_of_duckdb_to_ten_digits(folder: Path, say: Callable[[str], None]) -> None:
    ducks, sparks = by_key(sums_in(folder)), by_key(sums_in(folder, engine="spark"))
    assert set(ducks) == set(sparks)
    assert len(ducks) == 4 * FITTINGS
    # Sums of figures of either sign may come out near nought: digits are those of their scale.
    scale = np.max(np.abs(list(ducks.values())), axis=0)
    worst = max(float(np.max(np.abs(sparks[key] - ducks[key]) / scale)) for key in ducks)
    say(f"sums by Spark differ by {worst:.1e} of the largest such sum")
    assert worst < DIGITS

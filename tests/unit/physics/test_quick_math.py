"""Quick functions against the standard library, over the ranges the lanes use."""

from collections.abc import Callable

import numpy as np
import pytest
from numba import njit

from loftwright.arrays import FloatArray
from loftwright.physics._quick_math import (
    quick_arctangent,
    quick_cosine,
    quick_inverse_root,
    quick_logarithm,
    quick_sine,
)

CASES = [
    pytest.param(quick_logarithm, np.log, np.geomspace(1.0, 1e5, 4001), 3e-7, id="logarithm"),
    pytest.param(
        quick_inverse_root,
        lambda x: 1.0 / np.sqrt(x),
        np.geomspace(1e-24, 1e5, 4001),
        0.0,
        id="inverse root",
    ),
    pytest.param(quick_arctangent, np.arctan, np.linspace(0.0, 0.71, 501), 3e-9, id="arctangent"),
    pytest.param(quick_sine, np.sin, np.linspace(-1.0, 1.0, 501), 1e-12, id="sine"),
    pytest.param(quick_cosine, np.cos, np.linspace(-1.0, 1.0, 501), 1e-12, id="cosine"),
]


@pytest.mark.parametrize(("quick", "exact", "values", "error"), CASES)
def test_quick_functions_follow_the_library(
    quick: Callable[[float], float],
    exact: Callable[[FloatArray], FloatArray],
    values: FloatArray,
    error: float,
) -> None:
    found = np.array([quick(value) for value in values.tolist()])
    np.testing.assert_allclose(found, exact(values), atol=error, rtol=2e-8)


def test_compiled_quick_functions_are_the_plain_ones() -> None:
    @njit(cache=False)
    def both(value: float) -> tuple[float, float]:
        return quick_logarithm(value), quick_inverse_root(value)

    for value in (1.0, 1.5, 3.7, 1234.5, 9.9e4):
        plain = (quick_logarithm(value), quick_inverse_root(value))
        assert both(value) == pytest.approx(plain, rel=1e-14, abs=1e-14)

"""Vectors as tuples agree with matrices."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from loftwright.physics.vectors import combine, cross, dot, inverse, scaled, times, unit

numbers = st.floats(-100.0, 100.0)
vectors = st.tuples(numbers, numbers, numbers)


@given(vectors, vectors, numbers)
def test_vectors_are_those_of_arrays(
    a: tuple[float, float, float], b: tuple[float, float, float], factor: float
) -> None:
    assert np.isclose(dot(a, b), np.dot(a, b))
    assert np.allclose(cross(a, b), np.cross(a, b))
    assert np.allclose(combine(a, factor, b), np.array(a) + factor * np.array(b))
    assert np.allclose(scaled(a, factor), factor * np.array(a))


@given(vectors, vectors)
def test_a_symmetric_matrix_times_its_inverse_is_one(
    row: tuple[float, float, float], a: tuple[float, float, float]
) -> None:
    full = 10.0 * np.eye(3) + 0.01 * np.outer(row, row)
    packed = (full[0, 0], full[1, 1], full[2, 2], full[0, 1], full[0, 2], full[1, 2])
    assert np.allclose(times(packed, a), full @ np.array(a))
    assert np.allclose(times(inverse(packed), times(packed, a)), a)


def test_a_direction_has_length_one_and_nothing_has_none() -> None:
    assert unit((3.0, 0.0, -4.0)) == (0.6000000000000001, 0.0, -0.8)
    assert unit((0.0, 0.0, 0.0)) == (0.0, 0.0, 0.0)

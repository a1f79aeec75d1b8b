"""Vectors and symmetric matrices of three as plain tuples, for formulas that loops compile."""

from math import sqrt
from typing import TypeAlias

from numba.extending import register_jitable

Vector: TypeAlias = tuple[float, float, float]
Symmetric: TypeAlias = tuple[float, float, float, float, float, float]
"""A symmetric 3 x 3 matrix as (xx, yy, zz, xy, xz, yz)."""


@register_jitable
def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


@register_jitable
def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


@register_jitable
def combine(a: Vector, factor: float, b: Vector) -> Vector:
    """Return a + factor b."""
    return (a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2])


@register_jitable
def scaled(a: Vector, factor: float) -> Vector:
    """Return factor a."""
    return (factor * a[0], factor * a[1], factor * a[2])


@register_jitable
def unit(a: Vector) -> Vector:
    """Return the direction of `a`, or zero where it has none."""
    length = sqrt(dot(a, a))
    if length == 0.0:
        return (0.0, 0.0, 0.0)
    return scaled(a, 1.0 / length)


@register_jitable
def times(m: Symmetric, a: Vector) -> Vector:
    """Return the product of a symmetric matrix and a vector."""
    xx, yy, zz, xy, xz, yz = m
    return (
        xx * a[0] + xy * a[1] + xz * a[2],
        xy * a[0] + yy * a[1] + yz * a[2],
        xz * a[0] + yz * a[1] + zz * a[2],
    )


@register_jitable
def inverse(m: Symmetric) -> Symmetric:
    """Return the inverse of a symmetric matrix by its cofactors.

    Parameters
    ----------
    m : tuple of 6 floats
        xx, yy, zz, xy, xz, yz.
    """
    xx, yy, zz, xy, xz, yz = m
    c_xx = yy * zz - yz * yz
    c_xy = xz * yz - xy * zz
    c_xz = xy * yz - xz * yy
    share = 1.0 / (xx * c_xx + xy * c_xy + xz * c_xz)
    return (
        c_xx * share,
        (xx * zz - xz * xz) * share,
        (xx * yy - xy * xy) * share,
        c_xy * share,
        c_xz * share,
        (xy * xz - xx * yz) * share,
    )

"""Positive definite systems, straight through LAPACK: the update's time goes into little else."""

import numpy as np
from scipy.linalg import lapack

from loftwright.arrays import FloatArray
from loftwright.errors import ConvergenceError


def cholesky(matrix: FloatArray) -> FloatArray:
    """Return the lower Cholesky factor; its upper triangle holds nothing.

    Raises
    ------
    ConvergenceError
        If the matrix is not positive definite.
    """
    factor, info = lapack.dpotrf(matrix, lower=1, clean=1)
    if info != 0:
        raise ConvergenceError(
            "the balls and what is believed of them contradict each other beyond precision",
            place="comparison",
            mend="Check the units of the columns.",
        )
    return np.asarray(factor)


def solve(factor: FloatArray, right: FloatArray) -> FloatArray:
    """Return the solution of a system whose lower factor is known."""
    solution, _ = lapack.dpotrs(factor, right, lower=1)
    return np.asarray(solution).ravel()


def inverse(factor: FloatArray) -> FloatArray:
    """Return the inverse of a matrix whose lower factor is known."""
    # Above the diagonal stand the zeros of the factor.
    half, _ = lapack.dpotri(factor, lower=1)
    whole = np.asarray(half + half.T)
    np.fill_diagonal(whole, half.diagonal())
    return whole


def log_determinant(factor: FloatArray) -> float:
    """Return the log determinant of a matrix whose lower factor is known."""
    return 2.0 * float(np.log(np.diag(factor)).sum())


def inverse_of_factor(factor: FloatArray) -> FloatArray:
    """Return the inverse of a lower triangular factor."""
    lower, _ = lapack.dtrtri(factor, lower=1)
    return np.asarray(lower)

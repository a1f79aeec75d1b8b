"""Elementary functions that neither branch nor call a library, for loops over vector lanes.

They are good to a few parts in 1e7, far beyond what a flight can tell. Each is checked against the
standard library.

References
----------
Lomont 2003, Fast inverse square root: a first guess from the bits of a floating-point number.
"""

from collections.abc import Callable
from math import log
from typing import Final

import numpy as np
from numba.extending import register_jitable
from numpy.polynomial import Chebyshev, Polynomial

from loftwright.arrays import FloatArray

_MANTISSA_BITS: Final = 52
_MANTISSA: Final = (1 << _MANTISSA_BITS) - 1
_EXPONENT_BIAS: Final = 1023
_ONE: Final = _EXPONENT_BIAS << _MANTISSA_BITS
_ROOT_GUESS: Final = 0x5FE6_EB50_C7B5_37A9
_LOG_OF_TWO: Final = log(2.0)


def _series(
    function: Callable[[FloatArray], FloatArray], low: float, high: float
) -> tuple[float, ...]:
    """Return the eight coefficients of a power series that follows a function in a range."""
    fit = Chebyshev.interpolate(function, 7, domain=[low, high])
    series = fit.convert(kind=Polynomial).coef
    return tuple(map(float, np.pad(series, (0, 8 - len(series)))))


# Range of the steepness tangent is 0 to 0.71, of the apparent tilt 0 to 1 rad.
_LOGARITHM: Final = _series(lambda t: np.log(1.5 + t), -0.5, 0.5)
_ARCTANGENT: Final = _series(lambda q: np.arctan(np.sqrt(q)) / np.sqrt(q), 1e-6, 0.51)
_SINE: Final = _series(lambda q: np.sin(np.sqrt(q)) / np.sqrt(q), 1e-6, 1.0)
_COSINE: Final = _series(lambda q: np.cos(np.sqrt(q)), 0.0, 1.0)


@register_jitable
def _sum(c: tuple[float, ...], t: float) -> float:
    low = c[0] + t * (c[1] + t * (c[2] + t * c[3]))
    return low + t * t * (t * t) * (c[4] + t * (c[5] + t * (c[6] + t * c[7])))


@register_jitable
def quick_logarithm(value: float) -> float:
    """Return the natural logarithm of a positive number."""
    bits = np.float64(value).view(np.int64)
    exponent = float((bits >> _MANTISSA_BITS) - _EXPONENT_BIAS)
    mantissa = np.int64((bits & _MANTISSA) | _ONE).view(np.float64)
    return exponent * _LOG_OF_TWO + _sum(_LOGARITHM, mantissa - 1.5)


@register_jitable
def quick_inverse_root(value: float) -> float:
    """Return one over the square root of a positive number."""
    bits = np.float64(value).view(np.int64)
    guess = np.int64(_ROOT_GUESS - (bits >> 1)).view(np.float64)
    excess = value * guess * guess
    better = guess * (1.875 - excess * (1.25 - 0.375 * excess))
    return better * (1.5 - 0.5 * value * better * better)


@register_jitable
def quick_arctangent(value: float) -> float:
    """Return the angle whose tangent is a number of 0 to 0.71."""
    return value * _sum(_ARCTANGENT, value * value)


@register_jitable
def quick_sine(angle: float) -> float:
    """Return the sine of an angle of at most 1 rad."""
    return angle * _sum(_SINE, angle * angle)


@register_jitable
def quick_cosine(angle: float) -> float:
    """Return the cosine of an angle of at most 1 rad."""
    return _sum(_COSINE, angle * angle)

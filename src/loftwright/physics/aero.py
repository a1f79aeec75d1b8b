"""Drag and lift coefficients of a golf ball.

References
----------
Lieberman, Smits, Quintavalla, Thomas and Winfield 2001, US 6,186,002 B1: coefficients fitted to
    an indoor range, example ball; Reynolds number 0.8 to 2.0e5, spin ratio 0.044 to 0.218.
Bearman and Harvey 1976, Golf ball aerodynamics, Aeronautical Quarterly 27:112-122: the slopes at
    greater spin ratios.
"""

from typing import Final

from numba.extending import register_jitable

LEAST_REYNOLDS: Final = 0.60e5
GREATEST_REYNOLDS: Final = 2.50e5
LEAST_FITTED_SPIN_RATIO: Final = 0.044
GREATEST_FITTED_SPIN_RATIO: Final = 0.22


@register_jitable
def clamp(value: float, low: float, high: float) -> float:
    """Return the value, or the bound it lies beyond."""
    return low if value < low else (min(value, high))


@register_jitable
def drag_coefficient(reynolds: float, spin_ratio: float) -> float:
    """Return the drag coefficient of the published example ball.

    Parameters
    ----------
    reynolds : float
        Reynolds number on the diameter.
    spin_ratio : float
        Surface speed of the spin across the flow over air speed.

    Returns
    -------
    float

    Notes
    -----
    Fitted for Reynolds numbers 0.8 to 2.0e5 and spin ratios 0.044 to 0.22, held at its value
    beyond 0.6 and 2.5e5, and continued with a measured slope at greater spin ratios.

    References
    ----------
    Lieberman et al. 2001, example fit; Bearman and Harvey 1976, slope above 0.22.
    """
    r = clamp(reynolds, LEAST_REYNOLDS, GREATEST_REYNOLDS) * 1e-5
    s = clamp(spin_ratio, 0.0, GREATEST_FITTED_SPIN_RATIO)
    beyond = clamp(spin_ratio, GREATEST_FITTED_SPIN_RATIO, 1.0) - GREATEST_FITTED_SPIN_RATIO
    return 0.2028 + 2.8466 * s * s + 0.0165 * r - 0.2159 * s + 0.38 * beyond


@register_jitable
def lift_coefficient(reynolds: float, spin_ratio: float) -> float:
    """Return the lift coefficient of the published example ball.

    Parameters
    ----------
    reynolds : float
        Reynolds number on the diameter.
    spin_ratio : float
        Surface speed of the spin across the flow over air speed.

    Returns
    -------
    float

    Notes
    -----
    As `drag_coefficient`; below a spin ratio of 0.044 a straight line to zero.

    References
    ----------
    Lieberman et al. 2001, example fit; Bearman and Harvey 1976, slopes above 0.22.
    """
    r = clamp(reynolds, LEAST_REYNOLDS, GREATEST_REYNOLDS) * 1e-5
    return lift_from_inverse_square(1.0 / (r * r), spin_ratio)


@register_jitable
def lift_from_inverse_square(inverse_square: float, spin_ratio: float) -> float:
    """Return the lift coefficient from one over the square of the Reynolds number in 1e5."""
    s = clamp(spin_ratio, LEAST_FITTED_SPIN_RATIO, GREATEST_FITTED_SPIN_RATIO)
    fitted = 0.0860 + 0.6463 * s - 0.0122 * inverse_square + 1.4789 * s * s
    start = clamp(spin_ratio * (1.0 / LEAST_FITTED_SPIN_RATIO), 0.0, 1.0)
    middle = clamp(spin_ratio, GREATEST_FITTED_SPIN_RATIO, 0.30) - GREATEST_FITTED_SPIN_RATIO
    high = clamp(spin_ratio, 0.30, 0.80) - 0.30
    return fitted * start + 0.55 * middle + 0.25 * high

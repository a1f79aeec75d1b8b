"""Two ways to state a spin axis: across the launch direction, or tilted from the horizontal."""

from typing import overload

import numpy as np

from loftwright.arrays import FloatArray


@overload
def tilt_from_axis(axis: float, launch: float) -> float: ...
@overload
def tilt_from_axis(axis: FloatArray, launch: FloatArray) -> FloatArray: ...
def tilt_from_axis(axis: float | FloatArray, launch: float | FloatArray) -> float | FloatArray:
    """Turn an axis across the launch direction into its tilt from the horizontal.

    Parameters
    ----------
    axis, launch : float or FloatArray, shape (n,)
        [rad]

    Returns
    -------
    float or FloatArray, shape (n,)
        The tilt whose part across the launch direction points the same way [rad]:
        tan(axis) = tan(tilt) cos(launch), in every quadrant.
    """
    tilt: float | FloatArray = np.arctan2(np.sin(axis), np.cos(axis) * np.cos(launch))
    return tilt


@overload
def axis_from_tilt(tilt: float, launch: float) -> float: ...
@overload
def axis_from_tilt(tilt: FloatArray, launch: FloatArray) -> FloatArray: ...
def axis_from_tilt(tilt: float | FloatArray, launch: float | FloatArray) -> float | FloatArray:
    """Turn a tilt from the horizontal into the axis across the launch direction.

    Parameters
    ----------
    tilt, launch : float or FloatArray, shape (n,)
        [rad]

    Returns
    -------
    float or FloatArray, shape (n,)
        [rad]
    """
    axis: float | FloatArray = np.arctan2(np.sin(tilt) * np.cos(launch), np.cos(tilt))
    return axis

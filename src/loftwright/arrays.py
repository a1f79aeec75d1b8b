"""Array types and the read-only copies that frozen values keep."""

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray: TypeAlias = NDArray[np.float64]
IntArray: TypeAlias = NDArray[np.int64]
BoolArray: TypeAlias = NDArray[np.bool_]


def frozen_array(values: ArrayLike) -> FloatArray:
    """Return a read-only float64 copy of `values`."""
    copy = np.array(values, dtype=np.float64)
    copy.flags.writeable = False
    return copy


def frozen_index(values: ArrayLike) -> IntArray:
    """Return a read-only int64 copy of `values`."""
    copy = np.array(values, dtype=np.int64)
    copy.flags.writeable = False
    return copy

"""A mark is read with an error, so the strike lies a little nearer to the usual one.

    E[strike | mark] = mu + v / (v + s^2) (mark - mu),   s = 1.75 mm

Expected: with a usual strike of 0 +- 8 mm, a mark 12 mm towards the toe means 11.45 mm.
"""

import numpy as np

from loftwright.constants import MILLIMETRE
from loftwright.evidence.marks import StrikeModel

EXPECTED = 12.0 * 64.0 / (64.0 + 1.75**2)
WITHIN = 1e-9


def main() -> float:
    """Return the expected strike towards the toe in millimetres."""
    variance = (8.0 * MILLIMETRE) ** 2 * np.ones(2)
    usual = StrikeModel(mean=np.zeros(2), variance=variance, marked_variance=np.zeros(2))
    mark = np.array([[12.0 * MILLIMETRE, 0.0]])
    return float(usual.expected(mark)[0, 0] / MILLIMETRE)


if __name__ == "__main__":
    print(f"{main():.2f} mm")  # noqa: T201 - the example's answer

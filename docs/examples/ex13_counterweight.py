"""A counterweight moves the scale and hardly the inertia.

    d(points) = m (x − 14 in) / 1.75 oz in        d(inertia) = m x²

Of a gram 0.875 in from the top of the grip. Expected: -0.2646 points, 0.0049 kg cm2.
"""

from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.physics.build.swingweight import FULCRUM, POINT

EXPECTED = (-0.2646, 0.0049)
WITHIN = 5e-5


def main() -> tuple[float, float]:
    """Return what a gram in the butt does to swingweight and inertia."""
    place = 0.875 * INCH
    points = 1.0 * GRAM * (place - FULCRUM) / POINT
    inertia = 1.0 * GRAM * place**2 / KILOGRAM_SQUARE_CENTIMETRE
    return points, inertia


if __name__ == "__main__":
    print("{:.4f} points, {:.4f} kg cm2".format(*main()))  # noqa: T201 - the example's answer

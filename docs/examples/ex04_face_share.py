"""A ball starts mostly where the face points.

    share = (direction - path) / (face - path)

Expected: 0.61 to 0.83, the driver at the upper end (Wood, Henrikson and Broadie 2018,
Proceedings 2(6):249, abstract).
"""

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.physics.impact import REFERENCE_HEAD, Delivery, strike

EXPECTED = 0.72
WITHIN = 0.11


def main() -> float:
    """Return the share of the face in the start direction."""
    face = 2.0 * DEGREE
    delivery = Delivery(
        head_speed=100.0 * MILE_PER_HOUR, attack=0.0, path=0.0, face=face, loft=13.0 * DEGREE
    )
    return strike(REFERENCE_HEAD, delivery).direction / face


if __name__ == "__main__":
    print(f"{100.0 * main():.0f} % of the way to the face")  # noqa: T201 - the example's answer

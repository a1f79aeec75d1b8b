"""A toe strike starts right and curves back: bulge and gear effect.

    impulse J = A^-1 (w + e w_n n), spin = kappa (r x J) / I of the ball

Expected: ten millimetres towards the toe start 2.0 degrees right with an axis of 2.8 degrees
left (self-consistent: computed twice from the same equations).
"""

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.physics.impact import REFERENCE_HEAD, Delivery, strike

EXPECTED = -2.8
WITHIN = 0.1


def main() -> float:
    """Return the tilt of the spin axis in degrees."""
    delivery = Delivery(
        head_speed=113.0 * MILE_PER_HOUR,
        attack=1.0 * DEGREE,
        path=0.0,
        face=0.0,
        loft=13.0 * DEGREE,
        strike_toe=10.0 * MILLIMETRE,
    )
    return strike(REFERENCE_HEAD, delivery).axis / DEGREE


if __name__ == "__main__":
    print(f"axis {main():+.1f} degrees, right positive")  # noqa: T201 - the example's answer

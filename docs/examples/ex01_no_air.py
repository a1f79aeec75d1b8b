"""Without air a ball flies a parabola.

    carry = v^2 sin(2 launch) / g

Expected: the closed form, 70 m/s at 12 degrees: 222.3 yd.
"""

from math import sin

from loftwright.constants import DEGREE, GRAVITY, YARD
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, Launch, fly

SPEED, LAUNCH = 70.0, 12.0 * DEGREE
EXPECTED = SPEED**2 * sin(2.0 * LAUNCH) / GRAVITY / YARD
WITHIN = 1e-6


def main() -> float:
    """Return the carry in yards."""
    vacuum = Conditions(air=air(297.0, 0.0, 0.5), drag_scale=0.0, lift_scale=0.0)
    return fly(Launch(ball_speed=SPEED, launch=LAUNCH, spin=280.0), vacuum).carry / YARD


if __name__ == "__main__":
    print(f"{main():.1f} yd of carry")  # noqa: T201 - the example's answer

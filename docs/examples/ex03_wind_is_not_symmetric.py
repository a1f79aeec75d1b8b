"""A head wind takes more than a tail wind gives.

    drag and lift grow with the square of the air speed, and steeper flights lose most

Expected: 10 mph against costs 1.3 times what 10 mph from behind gives (self-consistent).
"""

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, Launch, fly

EXPECTED = 1.3
WITHIN = 0.1
BALL = Launch(
    ball_speed=160.0 * MILE_PER_HOUR,
    launch=12.0 * DEGREE,
    spin=2500.0 * REVOLUTION_PER_MINUTE,
)


def carry(wind: float) -> float:
    """Return the carry in a wind from behind [m s^-1]."""
    return fly(BALL, Conditions(air=air(297.04, 0.0, 0.5), wind_along=wind)).carry


def main() -> float:
    """Return loss over gain."""
    wind = 10.0 * MILE_PER_HOUR
    return (carry(0.0) - carry(-wind)) / (carry(wind) - carry(0.0))


if __name__ == "__main__":
    print(f"against costs {main():.2f} times what from behind gives")  # noqa: T201 - the answer

"""How many balls each of two clubs needs.

    n = 2 (scatter / difference)^2 (1.96 + 0.84)^2

Expected: three yards in a scatter of ten take 175 balls with each club.
"""

from loftwright.constants import YARD
from loftwright.evidence.power import balls_needed

EXPECTED = 175.0
WITHIN = 0.0


def main() -> float:
    """Return the balls with each club."""
    return balls_needed(3.0 * YARD, 10.0 * YARD)


if __name__ == "__main__":
    print(f"{main():.0f} balls with each club")  # noqa: T201 - the example's answer

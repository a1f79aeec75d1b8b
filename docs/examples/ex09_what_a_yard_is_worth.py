"""Score as a length: what ten yards more are worth.

    value = - (mean strokes left after the drive) / 0.0045 strokes a yard

Expected: a little over nine, from the table's rows about 160 yd left (Broadie 2012). Fairway
2.91 at 140 yd and 3.08 at 180, rough 3.15 and 3.31: 0.0425 and 0.040 strokes for ten yards.
"""

from dataclasses import replace

from loftwright.constants import YARD
from loftwright.domain.home import Hole, Home
from loftwright.evidence.value import Drives, value

EXPECTED = 10.0 * (0.71 * 0.00425 + 0.29 * 0.0040) / 0.0045
WITHIN = 0.5


def main() -> float:
    """Return the value of ten yards in yards, on a hole that leaves about 160 yd."""
    home = Home(holes=(Hole(length=415.0 * YARD),))
    drives = Drives(total=250.0 * YARD, offline=0.0, total_sd=8.0 * YARD, offline_sd=15.0 * YARD)
    longer = replace(drives, total=260.0 * YARD)
    return (value(home, longer) - value(home, drives)) / YARD


if __name__ == "__main__":
    print(f"{main():.1f} yd of value for 10 yd of total")  # noqa: T201 - the example's answer

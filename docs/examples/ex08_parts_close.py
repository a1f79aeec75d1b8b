"""Why two plain averages differ, in parts that sum to the difference.

    raw = odd balls + strike + swing + warm-up + club + left over

Expected: nothing is lost, to 1e-9 yd.
"""

from pathlib import Path
from tempfile import TemporaryDirectory

from loftwright.constants import YARD
from loftwright.services.read import read_fitting
from loftwright.services.training import DealOptions, deal_fitting

EXPECTED = 0.0
WITHIN = 1e-9


def main() -> float:
    """Return the greatest sum of parts less its difference over all pairs, in yards."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "shots.csv"
        deal_fitting(DealOptions(seed=2, clubs=4, balls=28), path)
        pairs = read_fitting(path, own="Own").decision.pairs
    return max(
        abs(pair.parts.sum() - pair.raw_total) / YARD
        for pair in pairs
        if pair.parts is not None and pair.raw_total is not None
    )


if __name__ == "__main__":
    print(f"{main():.1e} yd are lost")  # noqa: T201 - the example's answer

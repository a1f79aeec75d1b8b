"""A range means what it says: hold many fittings against their hidden truth.

    share of true differences that lie in their 80 % range, over pairs of clubs and golfers

Expected: about 0.80; twenty golfers give it to within 0.1 (one standard error is about 0.03).
"""

import numpy as np

from loftwright.training.study import Scenario, simulate

EXPECTED = 0.80
WITHIN = 0.10
GOLFERS = 20


def main() -> float:
    """Return the share of differences of value in their 80 % range after 40 balls."""
    scenario = Scenario(ability="low")
    return float(
        np.mean([simulate(scenario, seed, [40])[0].value_80 for seed in range(1, GOLFERS + 1)])
    )


if __name__ == "__main__":
    print(f"{100.0 * main():.0f} % lie in their 80 % range")  # noqa: T201 - the example's answer

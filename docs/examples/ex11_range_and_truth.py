"""A range means what it says: hold many fittings against their hidden truth.

    share of true differences that lie in their 80 % range, over pairs of clubs and golfers

Expected: about 0.80; twenty golfers give it to within 0.1 (one standard error is about 0.03).
"""

import numpy as np

from loftwright.training.scenarios import SCENARIOS
from loftwright.training.truth_study import study_fitting

EXPECTED = 0.80
WITHIN = 0.10
GOLFERS = 20


def main() -> float:
    """Return the share of differences of value in their 80 % range after 40 balls."""
    scenario = SCENARIOS["delivery, no marks"]
    fittings = [study_fitting(scenario, "low", number, [40]) for number in range(1, GOLFERS + 1)]
    return float(np.mean([one.model.outcomes[0].value_80 for one in fittings]))


if __name__ == "__main__":
    print(f"{100.0 * main():.0f} % lie in their 80 % range")  # noqa: T201 - the example's answer

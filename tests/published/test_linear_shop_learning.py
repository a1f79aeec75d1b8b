"""Many fittings of the linear bay teach the figures that it was made with.

The figures and their bay are the project's own (`loftwright.training.linear`), so this is
self-consistent; the method is that of Laird & Ware 1982, Random-effects models for longitudinal
data, Biometrics 38:963.
"""

import numpy as np
import pytest

from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.learned import ShopLearned
from loftwright.shop.learning import learn_from
from loftwright.shop.levels import Belongs
from loftwright.shop.record import Recorded
from loftwright.training.linear import LAUNCH_UNITS, LinearWorld, simulate_linear
from shop_samples import sums

pytestmark = pytest.mark.study
pytest.importorskip("ibis")

FITTINGS, BALLS, CLUBS = 250, 40, 6
TO_PRINT = np.array([one.unit for one in RESPONSES]) / LAUNCH_UNITS


def fitting(number: int) -> Recorded:
    """Return a fitting in blocks that hold every club once."""
    bay = simulate_linear(LinearWorld(clubs=CLUBS, mishits=0.0, misreads=0.0), number)
    rng = np.random.default_rng(number)
    blocks = -(-BALLS // CLUBS)
    order = np.concatenate([rng.permutation(CLUBS) for _ in range(blocks)])[:BALLS]
    balls = bay.play(order)
    return Recorded(
        fitting=f"f{number:03d}",
        golfer=f"g{number:03d}",
        left_handed=False,
        bays=("Bay",),
        devices=("Device",),
        balls=balls,
        belongs={club: Belongs() for club in balls.clubs},
    )


@pytest.fixture(scope="module")
def learned() -> ShopLearned:
    return learn_from(sums([fitting(number) for number in range(FITTINGS)]), {})


def test_what_clubs_do_is_found(learned: ShopLearned) -> None:
    """Standard deviations 0.70 mph, 0.50 degrees, 150 rpm and 0.60 degrees; its own is 3 %."""
    found = np.sqrt(np.diag(learned.launch.clubs)) * TO_PRINT
    assert found[:4] == pytest.approx([0.70, 0.50, 150.0, 0.60], rel=0.1)


@pytest.mark.parametrize(
    ("response", "feature", "truth"),
    [("spin", "high", -600.0), ("launch", "high", 1.5), ("axis", "toe", -6.0)],
)
def test_slopes_of_strike_are_found(
    learned: ShopLearned, response: str, feature: str, truth: float
) -> None:
    """A fifth of each slope differs between golfers; physics keeps its share of the mean."""
    row, column = FEATURES.index(feature), [one.column for one in RESPONSES].index(response)
    physics = learned.physics[row, column] * TO_PRINT[column]
    found = physics + learned.launch.slopes[row, column] * TO_PRINT[column]
    wanted = learned.physics_share * physics + (1.0 - learned.physics_share) * truth
    error = 0.2 * abs(truth) / np.sqrt(FITTINGS)
    assert found == pytest.approx(wanted, abs=4.0 * error)

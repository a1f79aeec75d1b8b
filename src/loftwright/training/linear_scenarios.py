"""The engine on the linear bay, with the constants printed for it.

It asks whether the machinery is right where its assumptions hold. Nothing found here may be said
of golfers: their launch follows the impact model, and their clubs act on the swing.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.domain.home import Hole, Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import Comparison, fly_home
from loftwright.evidence.flight_map import OFFLINE, TOTAL, conditions_at, outcomes
from loftwright.evidence.value import Drives, value
from loftwright.evidence.visit import Beliefs, fit_visit, set_up
from loftwright.training.linear import LinearFitting, LinearWorld, simulate_linear
from loftwright.training.linear_beliefs import printed_setup, printed_slopes
from loftwright.training.plain_methods import plain_means
from loftwright.training.scenarios import steeper
from loftwright.training.truth import ClubTruth, true_values
from loftwright.training.world import TRUE_SWINGS

LINEAR_HOME: Final = Home(re_aim=False, holes=(Hole(),))
"""One hole of 430 yd, aimed at its middle whatever the club does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearScenario:
    """One kind of fitting of the linear bay, ranked on *from the same swing*.

    Attributes
    ----------
    world : LinearWorld
    slopes : float
        Factor on the strike slopes that the model starts from.
    order : str
        How the clubs take turns, unless guided.
    well_specified : bool
        Belief and truth agree; set before the study was run.
    guided : bool
        Also played with the next club taken from the model's own advice.
    """

    world: LinearWorld = field(default_factory=LinearWorld)
    slopes: float = 1.0
    order: str = "blocks"
    well_specified: bool = False
    guided: bool = True

    def draw(self, _ability: str, seed: int, /) -> "LinearDrawn":
        """Draw one fitting; golfers of this bay have no ability."""
        simulated = simulate_linear(self.world, seed)
        truth = simulated.truth(LINEAR_HOME, TRUE_SWINGS)
        if truth.from_the_same_swing is None:
            raise AssertionError("the linear bay measures everything")
        truth = replace(truth, as_you_swing_it=truth.from_the_same_swing)
        return LinearDrawn(
            scenario=self,
            simulated=simulated,
            truth=truth,
            worth=true_values(truth.as_you_swing_it, LINEAR_HOME),
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearDrawn:
    """One golfer of the linear bay, and how the fitting is read.

    Attributes
    ----------
    truth : ClubTruth
        What the clubs do from the same swing, which is what they are ranked on here.
    worth : FloatArray, shape (S,)
        Every club's true value [m].
    """

    scenario: LinearScenario
    simulated: LinearFitting
    truth: ClubTruth
    worth: FloatArray

    @property
    def clubs(self) -> int:
        """How many there are."""
        return len(self.simulated.names)

    def play(self, sequence: IntArray) -> Balls:
        """Return the balls of a sequence of clubs, as a fitter reads them."""
        return self.simulated.play(sequence)

    def compare(self, balls: Balls) -> Comparison:
        """Return the comparison of the clubs after some balls."""
        slopes = steeper(printed_slopes(), self.scenario.slopes)
        setup = printed_setup(set_up(balls, Beliefs(), slopes))
        return fly_home(fit_visit(setup), LINEAR_HOME)

    def plain_worth(self, balls: Balls) -> list[FloatArray]:
        """Return the value of each club's plain mean total and side, by each plain method."""
        flown = outcomes(balls.launch, conditions_at(LINEAR_HOME))[:, [TOTAL, OFFLINE]]
        spread = np.nanstd(flown, axis=0)
        return [
            np.array([_worth(*mean, *spread) for mean in zip(total, offline, strict=True)])
            for total, offline in zip(
                plain_means(balls, flown[:, 0]),
                plain_means(balls, flown[:, 1]),
                strict=True,
            )
        ]


def _worth(total: float, offline: float, total_sd: float, offline_sd: float) -> float:
    if not np.isfinite(total):
        return float("-inf")
    drives = Drives(total=total, offline=offline, total_sd=total_sd, offline_sd=offline_sd)
    return value(LINEAR_HOME, drives)


LINEAR_SCENARIOS: Final[Mapping[str, LinearScenario]] = MappingProxyType(
    {
        "linear bay, six clubs": LinearScenario(well_specified=True),
        "linear bay, three clubs": LinearScenario(world=LinearWorld(clubs=3), well_specified=True),
        "linear bay, eight clubs": LinearScenario(world=LinearWorld(clubs=8), well_specified=True),
        "linear bay, no difference": LinearScenario(world=LinearWorld(no_difference=True)),
        "linear bay, hidden shifts at hand-over": LinearScenario(world=LinearWorld(handovers=1.0)),
        "linear bay, hidden shifts, one club after the other": LinearScenario(
            world=LinearWorld(handovers=1.0), order="one after the other", guided=False
        ),
        "linear bay, strike slopes believed half as steep": LinearScenario(slopes=0.5),
    }
)
"""The linear bay's scenarios by name."""

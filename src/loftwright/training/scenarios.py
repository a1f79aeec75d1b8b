"""The scenarios of the truth study: how fittings are, and what is believed of them.

Which of them are well specified was written down before the study was run: there the table that
the model starts from is the one that the golfers and clubs were drawn from, and nothing disturbs
the fitting that the model has no place for. Elsewhere belief and truth part on purpose.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, IntArray
from loftwright.constants import MILLIMETRE
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.column_doubts import HEAD_SPEED_COLUMN, calculated_columns
from loftwright.evidence.compare import Comparison, compare, fly_home
from loftwright.evidence.flight_map import TOTAL, conditions_at, outcomes
from loftwright.evidence.slopes import Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import CLUB_FLOOR, JUDGED, SpreadTable
from loftwright.evidence.value import with_holes
from loftwright.evidence.visit import Beliefs, fit_visit, set_up
from loftwright.training.device import DEVICES, Device
from loftwright.training.plain_methods import plain_means
from loftwright.training.truth import ClubTruth, true_values
from loftwright.training.world import SimulatedFitting, World, simulate_fitting

OF_THE_WORLD: Final = SpreadTable(club_floor=0.2 * CLUB_FLOOR)
"""The table that virtual golfers and clubs are drawn from. They do nothing beyond the swing, so
the floor is no more than keeps the matrices regular."""

_FULL: Final = World(device=DEVICES["full"])
_MARKS_ONLY: Final = Device(delivery=False)
_SPEED_ONLY: Final = Device(marks=False, columns=(True, False, False, False))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """One kind of fitting, and how it is read.

    Attributes
    ----------
    world : World
    table : SpreadTable
    doubt : float
        Factor on the variance of what clubs do.
    heads_known : bool
        Whether it is known which clubs share a head.
    slopes : float
        Factor on the strike slopes that the model starts from.
    order : str
        blocks, sets or one after the other.
    leaves_out : bool
        Head speed is left out once it is found to be calculated.
    learned : bool
        The table comes from other fittings of the study instead.
    well_specified : bool
        Belief and truth agree; set before the study was run.
    guided : bool
        Also played with the next club taken from the model's own advice.
    """

    world: World
    table: SpreadTable = OF_THE_WORLD
    doubt: float = 1.0
    heads_known: bool = True
    slopes: float = 1.0
    order: str = "blocks"
    leaves_out: bool = False
    learned: bool = False
    well_specified: bool = False
    guided: bool = False

    def draw(self, ability: str, seed: int, /) -> "GolferFitting":
        """Draw a golfer with clubs, and every ball that could be hit."""
        simulated = simulate_fitting(self.world, ability, seed)
        swung = simulated.truth.as_you_swing_it
        worth = true_values(swung, with_holes(Home(), float(swung.total[0])))
        return GolferFitting(scenario=self, simulated=simulated, worth=worth)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GolferFitting:
    """One golfer of a scenario, and how the fitting is read.

    Attributes
    ----------
    worth : FloatArray, shape (S,)
        Every club's true value at home, as the golfer swings it [m].
    """

    scenario: Scenario
    simulated: SimulatedFitting
    worth: FloatArray

    @property
    def clubs(self) -> int:
        """How many there are."""
        return len(self.simulated.names)

    @property
    def truth(self) -> ClubTruth:
        """What the clubs truly do."""
        return self.simulated.truth

    @property
    def beliefs(self) -> Beliefs:
        """What is believed before the first ball."""
        scenario, fitting = self.scenario, self.simulated
        traits = tuple(
            ClubTraits(head=head.name, shaft=name)
            for head, name in zip(fitting.heads, fitting.names, strict=True)
        )
        known = traits if scenario.heads_known else ()
        return Beliefs(doubt=scenario.doubt, traits=known, table=scenario.table)

    def play(self, sequence: IntArray) -> Balls:
        """Return the balls of a sequence of clubs, as a fitter reads them."""
        return self.simulated.play(sequence)

    def compare(self, balls: Balls) -> Comparison:
        """Return the comparison of the clubs after some balls."""
        if self.scenario.leaves_out:
            balls = _without_calculated_speed(balls)
        if self.scenario.slopes == 1.0:
            return compare(balls, Home(), self.beliefs)
        slopes = slopes_at(operating_delivery(balls, self.beliefs.head), self.beliefs.head)
        wrong = steeper(slopes, self.scenario.slopes)
        return fly_home(fit_visit(set_up(balls, self.beliefs, wrong)), Home())

    def plain_worth(self, balls: Balls) -> list[FloatArray]:
        """Return what each plain method holds the clubs for, in the order of `PLAIN`."""
        return plain_means(balls, outcomes(balls.launch, conditions_at(Home()))[:, TOTAL])


def steeper(slopes: Slopes, factor: float) -> Slopes:
    """Return slopes whose strike is believed steeper by a factor."""
    return replace(slopes, strike=factor * slopes.strike, curvature=factor * slopes.curvature)


def _without_calculated_speed(balls: Balls) -> Balls:
    if not any(found.column == HEAD_SPEED_COLUMN for found in calculated_columns(balls)):
        return balls
    delivery = balls.delivery.copy()
    delivery[:, 0] = np.nan
    return replace(balls, delivery=delivery)


_BASE: Final = Scenario(world=_FULL, well_specified=True)
_READ: Final = Scenario(world=_FULL, table=JUDGED, doubt=2.0, heads_known=False)


def _with(
    scenario: Scenario = _BASE, /, *, world: Mapping[str, object], **rest: object
) -> Scenario:
    return replace(scenario, world=replace(scenario.world, **world), **rest)  # type: ignore[arg-type]


SCENARIOS: Final[Mapping[str, Scenario]] = MappingProxyType(
    {
        "everything measured": replace(_BASE, guided=True),
        "delivery, no marks": _with(world={"device": DEVICES["no-marks"]}),
        "marks, no delivery": _with(world={"device": _MARKS_ONLY}),
        "ball and head speed": _with(world={"device": _SPEED_ONLY}),
        "ball data only": _with(world={"device": DEVICES["ball-only"]}, guided=True),
        "three clubs": _with(world={"clubs": 3}),
        "eight clubs": _with(world={"clubs": 8}),
        "sets of three in rotation": replace(_BASE, order="sets"),
        "sets of three, marks in unknown order": _with(world={"unordered_marks": 3}, order="sets"),
        "clubs twice as strong, believed so": _with(
            world={"strength": 2.0}, doubt=4.0, guided=True
        ),
        "own club best": _with(world={"own_best": True}, well_specified=False),
        "table learned from other fittings": replace(_BASE, learned=True, well_specified=False),
        "as it is read today": replace(_READ, guided=True),
        "as it is read today, ball data only": _with(
            _READ, world={"device": DEVICES["ball-only"]}
        ),
        "no difference, as it is read today": _with(_READ, world={"no_difference": True}),
        "no difference, ball data only": _with(
            _READ, world={"device": DEVICES["ball-only"], "no_difference": True}
        ),
        "clubs twice as strong, as it is read today": _with(_READ, world={"strength": 2.0}),
        "clubs that move strike and speed, as it is read today": _with(
            _READ, world={"moves_strike": True}
        ),
        "clubs half as strong": _with(world={"strength": 0.5}, well_specified=False),
        "clubs twice as strong, not believed": _with(
            world={"strength": 2.0}, well_specified=False
        ),
        "clubs that move strike and speed": _with(
            world={"moves_strike": True}, well_specified=False
        ),
        "marks twice as bad as believed": _with(
            world={"mark_error": 3.5 * MILLIMETRE}, well_specified=False
        ),
        "marks twice as good as believed": _with(
            world={"mark_error": 0.875 * MILLIMETRE}, well_specified=False
        ),
        "spin setting differs by golfer": _with(
            world={"spin_factor_sd": 0.08}, well_specified=False
        ),
        "strike slopes believed half as steep": replace(_BASE, slopes=0.5, well_specified=False),
        "two heads with slopes of their own": _with(
            world={"two_heads": True}, well_specified=False
        ),
        "heavy tails": _with(world={"mishits": 0.15, "misreads": 0.10}, well_specified=False),
        "hidden shifts at hand-over": _with(world={"handovers": 1.0}, well_specified=False),
        "hidden shifts at hand-over, sets of three": _with(
            world={"handovers": 1.0}, order="sets", well_specified=False
        ),
        "one club after the other": replace(
            _BASE, order="one after the other", well_specified=False
        ),
        "head speed calculated from ball speed": _with(
            world={"derived_speed": True}, well_specified=False
        ),
        "head speed calculated, found and left out": _with(
            world={"derived_speed": True}, leaves_out=True, well_specified=False
        ),
        "spin from a formula": _with(world={"formula_spin": True}, well_specified=False),
    }
)
"""Every scenario by its name, the well-specified ones first."""

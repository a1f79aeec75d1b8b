"""The scenarios of the truth study: how fittings are, and what is believed of them.

Which of them are well specified was written down before the study was run: there the table that
the model starts from is the one that the golfers and clubs were drawn from, and nothing disturbs
the fitting that the model has no place for. Elsewhere belief and truth part on purpose.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import IntArray
from loftwright.constants import MILLIMETRE
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.spreads import CLUB_FLOOR, JUDGED, SpreadTable
from loftwright.evidence.visit import Beliefs
from loftwright.training.device import DEVICES, Device
from loftwright.training.sequence import shuffled_blocks, shuffled_sets
from loftwright.training.world import SimulatedFitting, World

ABILITIES: Final = ("tour", "low", "mid", "high", "senior")

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
    learned: bool = False
    well_specified: bool = False
    guided: bool = False

    def beliefs(self, fitting: SimulatedFitting) -> Beliefs:
        """Return what is believed before the first ball."""
        traits = tuple(
            ClubTraits(head=head.name, shaft=name)
            for head, name in zip(fitting.heads, fitting.names, strict=True)
        )
        return Beliefs(
            doubt=self.doubt, traits=traits if self.heads_known else (), table=self.table
        )


def one_after_the_other(clubs: int, balls: int, rng: np.random.Generator) -> IntArray:
    """Return an order in which each club gets all its balls before the next one's first."""
    return np.sort(shuffled_blocks(clubs, balls, rng))


ORDERS: Final[Mapping[str, Callable[[int, int, np.random.Generator], IntArray]]] = (
    MappingProxyType(
        {
            "blocks": shuffled_blocks,
            "sets": shuffled_sets,
            "one after the other": one_after_the_other,
        }
    )
)

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
        "spin from a formula": _with(world={"formula_spin": True}, well_specified=False),
    }
)
"""Every scenario by its name, the well-specified ones first."""

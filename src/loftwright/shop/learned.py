"""What a shop's record taught at one time."""

from dataclasses import dataclass, field
from datetime import date

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.spreads import SpreadTable
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.levels import Effects
from loftwright.shop.population import Population, physics_share


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeadSlopes:
    """How slopes with one head differ from the common ones, shrunk to nought.

    Attributes
    ----------
    head : str
    fittings : int
    slopes : FloatArray, shape (P, R)
    sd : FloatArray, shape (P, R)
    """

    head: str
    fittings: int
    slopes: FloatArray
    sd: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Offset:
    """By how much a device or a bay reads differently from the others.

    Attributes
    ----------
    kind : {"device", "bay"}
    name : str
    fittings : int
    mean, sd : FloatArray, shape (R,)
        In units of the sums.
    """

    kind: str
    name: str
    fittings: int
    mean: FloatArray
    sd: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Leverage:
    """How much one golfer, device or bay moves what was learned of one thing.

    Attributes
    ----------
    kind : {"golfer", "device", "bay"}
    name : str
        A golfer by the record's code.
    level, member : str
        Of what is moved most.
    response : str
    share : float
        Change without it, in standard errors of what was learned.
    """

    kind: str
    name: str
    level: str
    member: str
    response: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShopLearned:
    """What a shop's fittings taught; everything in the golfer's signs and the units of the sums.

    Attributes
    ----------
    version : int
        From 1.
    program : str
    made : date
    fittings, golfers, balls : int
        That taught it.
    launch : Population
        Of launch on strike, delivery and order: slopes are what physics leaves out.
    swing : Population
        Of delivery and strike (head speed, attack, face to path, face, toe, high) on one, warm-up
        and drift.
    heads : tuple of HeadSlopes
    offsets : tuple of Offset
    table : SpreadTable
        What follows from both for a mid golfer.
    effects, swing_effects : Effects
        What clubs' parts do, from the same swing and to the swing.
    leverage : tuple of Leverage
        Of golfers, devices and bays that move something most, the largest first.
    physics : FloatArray, shape (P, R)
        Mean over these golfers of physics' own slopes, to which those of `launch` add.
    """

    version: int
    program: str
    made: date
    fittings: int
    golfers: int
    balls: int
    launch: Population
    swing: Population
    heads: tuple[HeadSlopes, ...]
    offsets: tuple[Offset, ...]
    table: SpreadTable
    effects: Effects
    swing_effects: Effects
    leverage: tuple[Leverage, ...] = ()
    physics: FloatArray = field(
        default_factory=lambda: frozen_array(np.zeros((len(FEATURES), len(RESPONSES))))
    )

    @property
    def physics_share(self) -> float:
        """How much of what was learned is still physics, from 1 to 0."""
        return physics_share(self.fittings)

    def slopes_with(self, head: str) -> tuple[FloatArray, bool]:
        """Return the slopes with a head, and whether they are borrowed from other heads."""
        own = next((one for one in self.heads if one.head == head), None)
        return (
            (self.launch.slopes, True)
            if own is None
            else (
                self.launch.slopes + own.slopes,
                False,
            )
        )

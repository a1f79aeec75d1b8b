"""How simulated shops truly are: as the learning assumes, or not.

Which of them are well specified was written down before any of them was learned from.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Final

from loftwright.constants import REVOLUTION_PER_MINUTE
from loftwright.training.device import MISREAD_SHARE
from loftwright.training.shop_catalogue import NOTHING_SHARED, PIECE_ALONE, SHARES
from loftwright.training.visit import MISHIT_SHARE

GOLFERS: Final[Mapping[str, float]] = MappingProxyType(
    {"tour": 0.05, "low": 0.2, "mid": 0.35, "high": 0.25, "senior": 0.15}
)
"""Who comes to a shop, as shares (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopKind:
    """A kind of shop.

    Attributes
    ----------
    linear : bool
        Golfers of the linear bay, whose clubs act on launch, in place of those made by impact.
    strength : float
        Factor on what clubs do.
    on_strike : float
        Further factor on what they do to the strike.
    shares : mapping of str to float
        Of the variance of what clubs do, by what they belong to.
    loading : float
        What models do by the golfer's loading, as a share of what clubs do.
    heads : float
        Factor on how heads differ in what turns a strike into launch.
    mishits, misreads : float
        Shares of the balls.
    dominant : bool
        One golfer, for whom shafts do three times what they do for others, hits a third of all
        balls of the record.
    spin_bias : float
        By which one device reads spin too high [rad s^-1].
    golfers, fresh_golfers : mapping of str to float
        Abilities of those of the record, and of those who come afterwards.
    well_specified : bool
        The learning's assumptions hold.
    """

    linear: bool = False
    strength: float = 1.0
    on_strike: float = 1.0
    shares: Mapping[str, float] = field(default_factory=lambda: SHARES)
    loading: float = 0.0
    heads: float = 1.0
    mishits: float = MISHIT_SHARE
    misreads: float = MISREAD_SHARE
    dominant: bool = False
    spin_bias: float = 0.0
    golfers: Mapping[str, float] = field(default_factory=lambda: GOLFERS)
    fresh_golfers: Mapping[str, float] = field(default_factory=lambda: GOLFERS)
    well_specified: bool = False


_USUAL: Final = ShopKind(well_specified=True)
_WRONG: Final = replace(_USUAL, well_specified=False)

SHOP_KINDS: Final[Mapping[str, ShopKind]] = MappingProxyType(
    {
        "golfers made by impact": _USUAL,
        "the linear bay": replace(_USUAL, linear=True),
        "clubs twice as strong": replace(_WRONG, strength=2.0),
        "clubs half as strong": replace(_WRONG, strength=0.5),
        "shafts that move the strike": replace(_WRONG, on_strike=3.0),
        "shafts that act by loading": replace(_WRONG, loading=0.7),
        "heads with strike slopes of their own": replace(_WRONG, heads=2.0),
        "heavy tails": replace(_WRONG, mishits=0.15, misreads=0.10),
        "one golfer with a third of all balls": replace(_WRONG, dominant=True),
        "one device biased in spin": replace(_WRONG, spin_bias=300.0 * REVOLUTION_PER_MINUTE),
        "every sample on its own": replace(_WRONG, shares=PIECE_ALONE),
        "no structure at all": replace(_WRONG, shares=NOTHING_SHARED),
        "other golfers than those of the record": replace(
            _WRONG,
            golfers=MappingProxyType({"tour": 0.3, "low": 0.7}),
            fresh_golfers=MappingProxyType({"high": 0.6, "senior": 0.4}),
        ),
    }
)
"""Every kind of shop by its name, the well-specified ones first: there clubs do as much as
physics alone believes, and the learning has a place for all that is true."""

"""How often the balls of simulated golfers fall in the ranges that were predicted for them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from loftwright.arrays import BoolArray
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import compare
from loftwright.evidence.flight_map import CARRY, TOTAL, conditions_at, outcomes
from loftwright.evidence.predict import NextBall, predict_ball
from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.spreads import ABILITY_FACTOR
from loftwright.evidence.visit import Beliefs
from loftwright.training.balls import balls_of
from loftwright.training.clubs import make_clubs
from loftwright.training.device import DEVICES
from loftwright.training.golfer import make_golfer
from loftwright.training.sequence import ORDERS
from loftwright.training.summary import Mean, mean_of
from loftwright.training.visit import simulate_visit

CLUBS = 6
AFTER = (10, 20, 30, 40, 50, 60)
"""Balls after which the next one is predicted."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Foresight:
    """The balls of one golfer that were predicted.

    Attributes
    ----------
    inside : dict of str to BoolArray, shape (k, 3)
        By quantity, which of the three ranges held each ball.
    """

    inside: dict[str, BoolArray]


def foresee(
    ability: str, device: str, seed: int, *, stated: bool = False, after: Sequence[int] = AFTER
) -> Foresight:
    """Simulate one golfer's visit and predict single balls of it.

    Parameters
    ----------
    ability : str
    device : str
    seed : int
    stated : bool
        Whether the ability is known beforehand, where the product believes something of it.
    after : sequence of int
        Numbers of balls after which the next one is predicted.
    """
    rng = np.random.default_rng(np.random.PCG64(seed))
    for_golfer, for_clubs, for_order, for_balls = rng.spawn(4)
    golfer = make_golfer(ability, for_golfer)
    clubs = make_clubs(CLUBS, for_clubs)
    # Whole blocks, of which the last is broken off after the ball that is predicted last.
    whole = CLUBS * (max(after) // CLUBS + 1)
    sequence = ORDERS["blocks"](CLUBS, whole, for_order)[: max(after) + 1]
    names = (OWN, *TREES)[:CLUBS]
    balls = balls_of(simulate_visit(golfer, clubs, sequence, for_balls, DEVICES[device]), names)
    beliefs = Beliefs(
        ability=ability if stated and ability in ABILITY_FACTOR else None,
        traits=tuple(ClubTraits(head="one", shaft=name) for name in names),
    )
    found: dict[str, list[tuple[bool, bool, bool]]] = {}
    for count in after:
        read = _read(balls, count)
        comparison = compare(balls.take(np.arange(count)), Home(), beliefs)
        ball = NextBall(club=names[balls.club[count]], order=float(balls.order[count]))
        for one in predict_ball(comparison, ball, Home()).forecasts:
            if np.isfinite(read[one.quantity]):
                found.setdefault(one.quantity, []).append(one.holds(read[one.quantity]))
    return Foresight(inside={name: np.array(told) for name, told in found.items()})


def _read(balls: Balls, place: int) -> dict[str, float]:
    """Return what was read of a ball, and how it flew."""
    launch = balls.launch[place : place + 1]
    flown = outcomes(launch, conditions_at(Home()))[0]
    told = dict(zip(LAUNCH_NAMES, launch[0].tolist(), strict=True))
    return told | {"carry": float(flown[CARRY]), "total": float(flown[TOTAL])}


def share_inside(golfers: Sequence[Foresight], quantity: str, place: int) -> Mean:
    """Return how many balls fell in a range, per cent, with an error clustered by golfer.

    Parameters
    ----------
    golfers : sequence of Foresight
    quantity : str
    place : int
        0, 1, 2 for the ranges that are to hold 50, 80 and 95 %.
    """
    shares = [100.0 * float(one.inside[quantity][:, place].mean()) for one in golfers]
    return mean_of(shares)

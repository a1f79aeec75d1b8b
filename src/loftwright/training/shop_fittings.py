"""Fittings of a simulated shop played: balls as they are recorded, and what clubs truly do."""

from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.balls import Balls
from loftwright.evidence.value import with_holes
from loftwright.shop.record import Recorded
from loftwright.training.device import Device
from loftwright.training.golfer import HEAD_SPEED, VirtualGolfer, make_golfer
from loftwright.training.linear import (
    LAUNCH_UNITS,
    LinearWorld,
    make_linear_golfer,
    simulate_linear,
)
from loftwright.training.pick_up_study import DAY_FORM
from loftwright.training.shop_world import (
    CLUBS,
    Drawn,
    Shop,
    ShopFitting,
    does,
    draw_fresh,
    draw_recorded,
    in_world_signs,
)
from loftwright.training.truth import (
    ClubTruth,
    even_normals,
    figures_of,
    true_figures,
    true_values,
)
from loftwright.training.world import World, fitting_of

NAMES: Final = (OWN, *TREES)[:CLUBS]
TRUE_SWINGS: Final = 512
FEW_SWINGS: Final = 32
"""Where nobody asks what is true of a fitting's clubs."""
SPEEDS: Final = ((85.0 * MILE_PER_HOUR, "slow"), (100.0 * MILE_PER_HOUR, "middle"))
_LOADINGS: Final = {1.0: "quick", -1.0: "smooth"}
_SWINGER, _DAY, _BALLS = range(10, 13)


def recorded_fittings(shop: Shop, fittings: int) -> tuple[ShopFitting, ...]:
    """Return the fittings of a shop's record.

    Parameters
    ----------
    shop : Shop
    fittings : int
    """
    return tuple(
        play(shop, draw_recorded(shop, number, fittings), FEW_SWINGS) for number in range(fittings)
    )


def fresh_fitting(shop: Shop, number: int, row: str) -> ShopFitting:
    """Return a fitting that comes after the record.

    Parameters
    ----------
    shop : Shop
    number : int
    row : str
        Of `loftwright.training.shop_world.ROWS`.
    """
    return play(shop, draw_fresh(shop, number, row))


def play(shop: Shop, drawn: Drawn, swings: int = TRUE_SWINGS) -> ShopFitting:
    """Hit the balls of a fitting and work out what is true of its clubs.

    Parameters
    ----------
    shop : Shop
    drawn : Drawn
    swings : int
        With each club, of which the truth is the mean.

    Returns
    -------
    ShopFitting
    """
    hit = _in_the_linear_bay if shop.kind.linear else _by_impact
    balls, truth, head_speed = hit(shop, drawn, swings)
    offset = shop.devices[drawn.device] + shop.bays[drawn.bay]
    speed = next((name for limit, name in SPEEDS if head_speed < limit), "fast")
    loading = _LOADINGS[drawn.loading]
    home = with_holes(Home(), float(truth.as_you_swing_it.total[0]))
    return ShopFitting(
        recorded=Recorded(
            fitting=drawn.fitting,
            golfer=f"golfer {drawn.number:04d}",
            left_handed=drawn.left_handed,
            bays=(drawn.bay,),
            devices=(drawn.device,),
            balls=in_world_signs(balls, offset, left=drawn.left_handed),
            belongs={
                club: replace(told, speed=speed, loading=loading)
                for club, told in zip(NAMES, drawn.told, strict=True)
            },
            speed=speed,
            loading=loading,
        ),
        head=drawn.told[1].head,
        truth=truth,
        worth=true_values(truth.as_you_swing_it, home),
    )


def golfer_of(shop: Shop, drawn: Drawn) -> VirtualGolfer:
    """Return the golfer of a fitting as he swings that day."""
    golfer = make_golfer(
        drawn.ability,
        shop.stream(_SWINGER, drawn.number),
        hand="left" if drawn.left_handed else "right",
    )
    form = DAY_FORM * _by_name(shop, _DAY, drawn).standard_normal(7)
    return replace(golfer, mean=golfer.mean + form)


def _by_impact(shop: Shop, drawn: Drawn, swings: int) -> tuple[Balls, ClubTruth, float]:
    golfer, shifts = golfer_of(shop, drawn), does(shop, drawn)
    heads = tuple(shop.heads[one.head] for one in drawn.shafts)
    beyond = np.array([shop.beyond[one.head] for one in drawn.shafts])
    figures = true_figures(golfer, shifts, Home(), swings, heads, beyond)
    truth = ClubTruth(as_you_swing_it=figures, from_the_same_swing=None)
    world = World(
        device=drawn.measured,
        clubs=CLUBS,
        mishits=shop.kind.mishits,
        misreads=shop.kind.misreads,
    )
    rng = _by_name(shop, _BALLS, drawn)
    hit = fitting_of(world, golfer, shifts, heads, truth, rng, beyond)
    return hit.play(drawn.sequence), truth, float(golfer.mean[HEAD_SPEED])


def _in_the_linear_bay(shop: Shop, drawn: Drawn, swings: int) -> tuple[Balls, ClubTruth, float]:
    """Play by straight lines; clubs act on launch, and golfers who return are as they were."""
    world = LinearWorld(clubs=CLUBS, mishits=shop.kind.mishits, misreads=shop.kind.misreads)
    seed = int(_by_name(shop, _BALLS, drawn).integers(2**62))
    fitting = replace(
        simulate_linear(world, seed),
        golfer=make_linear_golfer(shop.stream(_SWINGER, drawn.number)),
        effects=does(shop, drawn),
    )
    spread = fitting.launch_covariance
    launches = fitting.as_you_swing_it[:, None] + _even(spread, swings)
    side = -1.0 if drawn.left_handed else 1.0
    figures = figures_of(launches * [1.0, 1.0, 1.0, side, side], Home())
    truth = ClubTruth(as_you_swing_it=figures, from_the_same_swing=None)
    balls = _shown(fitting.play(drawn.sequence), drawn.measured)
    return balls, truth, fitting.golfer.head_speed * float(LAUNCH_UNITS[0])


def _even(covariance: FloatArray, swings: int) -> FloatArray:
    return np.asarray(even_normals(swings)[:, :5] @ np.linalg.cholesky(covariance).T)


def _shown(balls: Balls, device: Device) -> Balls:
    """Return what of balls a device shows."""
    return replace(
        balls,
        delivery=balls.delivery if device.delivery else np.full_like(balls.delivery, np.nan),
        marks=balls.marks if device.marks else np.full_like(balls.marks, np.nan),
    )


def _by_name(shop: Shop, purpose: int, drawn: Drawn) -> np.random.Generator:
    """Return a generator of the fitting's own, whatever row it stands in."""
    kind, number = drawn.fitting.split()
    return shop.stream(purpose, int(kind == "fresh"), int(number))

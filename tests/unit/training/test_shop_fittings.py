"""Fittings of a simulated shop, played."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.training.golfer import HEAD_SPEED
from loftwright.training.shop_fittings import fresh_fitting, golfer_of, play
from loftwright.training.shop_kinds import SHOP_KINDS, ShopKind
from loftwright.training.shop_world import (
    FRESH_BALLS,
    ROWS,
    Shop,
    draw_fresh,
    draw_shop,
    in_world_signs,
)

KINDS = ("golfers made by impact", "the linear bay")
NOTHING = 1e-12


def shop(kind: str = KINDS[0]) -> Shop:
    return draw_shop(SHOP_KINDS[kind], 3)


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_fitting_is_played_alike_twice(kind: str) -> None:
    one, other = (fresh_fitting(shop(kind), 4, ROWS[0]) for _ in range(2))
    assert np.array_equal(one.recorded.balls.launch, other.recorded.balls.launch)
    assert np.array_equal(one.worth, other.worth)
    assert len(one.recorded.balls) == FRESH_BALLS


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("number", "delivery", "marks"), [(0, 1, 1), (1, 0, 1), (2, 0, 0)])
def test_a_fitting_shows_what_is_measured(
    kind: str, number: int, delivery: int, marks: int
) -> None:
    balls = fresh_fitting(shop(kind), number, ROWS[0]).recorded.balls
    assert np.isfinite(balls.delivery).any() == bool(delivery)
    assert np.isfinite(balls.marks).any() == bool(marks)
    assert np.isfinite(balls.launch).all()


@pytest.mark.parametrize("kind", KINDS)
def test_clubs_of_one_head_that_do_nothing_are_worth_the_same(kind: str) -> None:
    idle = draw_shop(ShopKind(linear=SHOP_KINDS[kind].linear, strength=NOTHING), 3)
    worth = fresh_fitting(idle, 4, ROWS[0]).worth
    assert worth[1:] == pytest.approx(worth[1], abs=1e-6)


@pytest.mark.parametrize("kind", KINDS)
def test_a_left_handers_clubs_are_worth_as_much_in_the_mirror(kind: str) -> None:
    drawn = draw_fresh(shop(kind), 4, ROWS[0])
    right, left = (play(shop(kind), replace(drawn, left_handed=one)) for one in (False, True))
    assert left.worth == pytest.approx(right.worth, abs=1e-6)
    offset = shop(kind).devices[drawn.device] + shop(kind).bays[drawn.bay]
    mirrored = in_world_signs(right.recorded.balls, -offset, left=False)
    again = in_world_signs(mirrored, offset, left=True)
    assert left.recorded.balls.launch == pytest.approx(again.launch)


def test_a_device_that_reads_apart_moves_every_ball_alike() -> None:
    drawn = draw_fresh(shop(), 4, ROWS[0])
    one, other = (
        play(shop(), replace(drawn, device=name)).recorded.balls.launch
        for name in ("device 0", "device 1")
    )
    apart = (one - other) / LAUNCH_SCALE
    assert apart.std(axis=0) == pytest.approx(np.zeros(5), abs=1e-9)
    assert np.abs(apart[0]).max() > 0.05


def test_a_golfer_swings_a_little_otherwise_every_day() -> None:
    drawn = draw_fresh(shop(), 4, ROWS[0])
    days = [golfer_of(shop(), replace(drawn, fitting=f"fresh {one:04d}")) for one in (4, 5)]
    assert np.array_equal(days[0].sd, days[1].sd)
    assert days[0].mean[HEAD_SPEED] != days[1].mean[HEAD_SPEED]

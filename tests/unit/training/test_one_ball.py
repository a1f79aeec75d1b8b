"""One ball of a virtual golfer at a time."""

from dataclasses import replace

import pytest

from loftwright.constants import DEGREE
from loftwright.training.one_ball import VirtualPlayer

PLAYER = VirtualPlayer(seed=7, ability="mid", strength=2.0)


def mean(player: VirtualPlayer, field: str, club: int, balls: int, loft: float = 0.0) -> float:
    hit = [getattr(player.hit(club, order, loft=loft), field) for order in range(20, 20 + balls)]
    told = [float(one) for one in hit if one is not None]
    return sum(told) / len(told)


def test_the_same_player_club_and_order_give_the_same_ball() -> None:
    assert PLAYER.hit(2, 14) == PLAYER.hit(2, 14)
    assert PLAYER.hit(2, 14) != PLAYER.hit(2, 15)
    assert PLAYER.hit(2, 14) != PLAYER.hit(3, 14)


def test_another_seed_is_another_golfer() -> None:
    assert PLAYER.hit(0, 3) != replace(PLAYER, seed=8).hit(0, 3)


def test_more_loft_launches_higher_with_the_same_golfer() -> None:
    usual = mean(PLAYER, "launch", 1, 30)
    lofted = mean(PLAYER, "launch", 1, 30, loft=2.0 * DEGREE)
    assert lofted - usual == pytest.approx(2.0 * DEGREE * 0.85, abs=0.4 * DEGREE)


def test_a_device_without_marks_gives_none() -> None:
    ball = replace(PLAYER, device="no-marks").hit(0, 5)
    assert ball.strike_toe is None
    assert ball.ball_speed is not None

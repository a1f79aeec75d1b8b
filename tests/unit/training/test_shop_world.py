"""Who hits what in a simulated shop."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.training.shop_kinds import SHOP_KINDS, ShopKind
from loftwright.training.shop_world import (
    CLUBS,
    DEVICE_NAMES,
    LATER_HEADS,
    ROWS,
    Shop,
    does,
    draw_fresh,
    draw_recorded,
    draw_shop,
)

FITTINGS = 60
USUAL = next(iter(SHOP_KINDS))


def shop(kind: str = USUAL, seed: int = 3) -> Shop:
    return draw_shop(SHOP_KINDS[kind], seed)


def test_the_same_seed_draws_the_same_shop() -> None:
    one, other = shop(), shop()
    for name, offset in one.devices.items():
        assert np.array_equal(offset, other.devices[name])
    for member, value in one.catalogue.does.items():
        assert np.array_equal(value, other.catalogue.does[member])


def test_a_golfer_who_comes_back_is_the_same() -> None:
    drawn = [draw_recorded(shop(), number, FITTINGS) for number in range(FITTINGS)]
    by_golfer: dict[int, set[tuple[object, ...]]] = {}
    for one in drawn:
        told = (one.ability, one.left_handed, one.loading, one.told[0].head)
        by_golfer.setdefault(one.number, set()).add(told)
    assert len(by_golfer) < FITTINGS
    assert all(len(told) == 1 for told in by_golfer.values())


def test_what_a_shaft_does_for_a_golfer_is_the_same_on_another_day() -> None:
    drawn = draw_recorded(shop(), 5, FITTINGS)
    again = replace(drawn, fitting="recorded 0059")
    assert np.array_equal(does(shop(), drawn), does(shop(), again))


def test_of_the_golfers_own_shaft_nobody_knows_what_it_is() -> None:
    drawn = draw_recorded(shop(), 5, FITTINGS)
    assert drawn.told[0].model == "" != drawn.shafts[0].model
    assert drawn.told[0].head == drawn.shafts[0].head
    assert drawn.told[1:] == drawn.shafts[1:]


def test_half_of_the_shafts_were_in_the_record_or_none() -> None:
    known = set(shop().catalogue.old)
    for row, count in zip(ROWS, (3, 0, 0), strict=True):
        drawn = draw_fresh(shop(), 7, row)
        told = [replace(one, head="") for one in drawn.told[1:]]
        assert sum(one in known for one in told) == count
        assert len(drawn.told) == CLUBS


def test_the_same_golfer_hits_the_own_shaft_in_every_row() -> None:
    drawn = [draw_fresh(shop(), 7, row) for row in ROWS]
    assert len({(one.number, one.ability, one.loading) for one in drawn}) == 1
    assert len({one.shafts[0].piece for one in drawn}) == 1
    assert all(np.array_equal(one.sequence, drawn[0].sequence) for one in drawn)


def test_heads_that_came_later_are_hit_in_the_last_row_alone() -> None:
    heads = [{one.head for one in draw_fresh(shop(), 7, row).told} for row in ROWS]
    assert not heads[0] & set(LATER_HEADS)
    assert not heads[1] & set(LATER_HEADS)
    assert heads[2] <= set(LATER_HEADS)


def test_one_golfer_hits_a_third_of_all_balls_where_told_so() -> None:
    name = "one golfer with a third of all balls"
    numbers = [draw_recorded(shop(name), number, FITTINGS).number for number in range(FITTINGS)]
    assert numbers.count(0) == FITTINGS // 3
    usual = [draw_recorded(shop(), number, FITTINGS).number for number in range(FITTINGS)]
    assert max(usual.count(one) for one in set(usual)) == 2


def test_a_biased_device_differs_in_spin_alone() -> None:
    name = "one device biased in spin"
    apart = shop(name).devices[DEVICE_NAMES[0]] - shop().devices[DEVICE_NAMES[0]]
    assert apart == pytest.approx([0.0, 0.0, SHOP_KINDS[name].spin_bias, 0.0, 0.0])


def test_clubs_twice_as_strong_do_twice_as_much() -> None:
    drawn = draw_recorded(shop(), 5, FITTINGS)
    once, twice = (does(draw_shop(ShopKind(strength=one), 3), drawn) for one in (1.0, 2.0))
    assert twice == pytest.approx(2.0 * once)

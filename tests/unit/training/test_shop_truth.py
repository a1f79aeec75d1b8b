"""What was learned of a simulated shop against the truth, where the answer is known."""

from dataclasses import replace

import numpy as np
import pytest

from known_shops import SD, who_knows
from loftwright.arrays import frozen_array
from loftwright.shop.learned import Offset
from loftwright.training.golfer import ATTACK, LOFT, PATH
from loftwright.training.shop_catalogue import SHAFT_LEVELS
from loftwright.training.shop_kinds import SHOP_KINDS
from loftwright.training.shop_truth import against_truth, same_swing_way, swing_way
from loftwright.training.shop_world import DEVICE_NAMES, Shop, draw_shop

IMPACT, LINEAR = "golfers made by impact", "the linear bay"


def shop(kind: str = IMPACT) -> Shop:
    return draw_shop(SHOP_KINDS[kind], 3)


@pytest.mark.parametrize("kind", [IMPACT, LINEAR])
@pytest.mark.parametrize(("error", "in_80", "in_95"), [(0.5, 1, 1), (1.5, 0, 1), (2.5, 0, 0)])
def test_ranges_hold_the_truth_as_far_as_they_reach(
    kind: str, error: float, in_80: int, in_95: int
) -> None:
    drawn = shop(kind)
    found = against_truth(drawn, who_knows(drawn, error))["members"]["launch"]
    for level in SHAFT_LEVELS:
        assert found[level]["in_80"] == [in_80 * found[level]["figures"]] * 5
        assert found[level]["in_95"] == [in_95 * found[level]["figures"]] * 5
        assert found[level]["error_rms"] == pytest.approx([SD * error] * 5)


def test_loft_raises_launch_and_spin_from_the_same_swing() -> None:
    way = same_swing_way(shop())
    assert way[1, LOFT] > 0.0
    assert way[2, LOFT] > 0.0
    assert way[1, ATTACK] < 0.0
    assert not way[:, PATH].any()


def test_face_to_path_is_face_less_path() -> None:
    shift = np.zeros(7)
    shift[[2, 3]] = np.radians([1.0, 3.0])
    assert swing_way(shop()) @ shift == pytest.approx([0.0, 0.0, 2.0, 3.0, 0.0, 0.0])


def test_in_the_linear_bay_clubs_act_on_launch_alone() -> None:
    drawn = shop(LINEAR)
    found = against_truth(drawn, who_knows(drawn, 0.0))
    assert found["clubs"]["swing"]["truth"] == [0.0] * 6
    assert found["clubs"]["launch"]["truth"] == pytest.approx(
        np.sqrt(0.5) * np.array([0.7, 0.5 / 0.8, 150.0 / 200.0, 0.3, 0.25])
    )
    assert "spin on high" in {one["name"] for one in found["slopes"]}


def test_only_differences_between_devices_are_held_against_the_truth() -> None:
    drawn = shop()
    unit = np.array([1.0 / 2.2369362920544, *np.radians([0.8]), 200.0 * np.pi / 30.0])
    offsets = tuple(
        Offset(
            kind="device",
            name=name,
            fittings=3,
            mean=frozen_array(np.append(drawn.devices[name][:3] / unit, [0.0, 0.0]) + 7.0),
            sd=frozen_array(np.ones(5)),
        )
        for name in DEVICE_NAMES
    )
    found = against_truth(drawn, replace(who_knows(drawn, 0.0), offsets=offsets))["offsets"]
    assert len(found) == 3
    for one in found:
        assert one["learned"][:3] == pytest.approx(one["truth"][:3])
        assert one["sd"] == pytest.approx([np.sqrt(2.0)] * 5)

"""What a shop learned, on fittings that came afterwards; seeds 1 to n.

Bounds were given beforehand: in a shop as the learning assumes, learned gives up no more than
physics alone by two standard errors of the difference; in others a quarter more at most. The
large study is docs/truth/shop_record.md.
"""

from functools import cache
from typing import Any

import pytest

from loftwright.training.shop_kinds import SHOP_KINDS
from loftwright.training.shop_study import fresh_records, taught
from loftwright.training.shop_tables import figure, fresh_of, more_regret, within_bound
from loftwright.training.shop_truth import against_truth
from loftwright.training.shop_world import ROWS, draw_shop
from study_tables import Say

FITTINGS = 120
FRESH = 70
RIGHT, WRONG = "golfers made by impact", "no structure at all"

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("shop study")]


@cache
def unit(kind: str) -> dict[str, Any]:
    told = taught(draw_shop(SHOP_KINDS[kind], 1), FITTINGS)
    return {
        "kind": kind,
        "fresh": fresh_records(told, FRESH),
        "against_truth": against_truth(told.shop, told.learned),
    }


@pytest.mark.parametrize("row", ROWS)
@pytest.mark.parametrize("kind", [RIGHT, WRONG])
def test_what_was_learned_does_no_harm(kind: str, row: str, say: Say) -> None:
    records = fresh_of([unit(kind)], kind, row)
    say(f"shop study, {kind}, {row}: learned less physics {more_regret(records)} yd")
    assert len(records) == FRESH
    assert within_bound(kind, records)


def test_known_heads_and_shafts_are_worth_balls(say: Say) -> None:
    found = more_regret(fresh_of([unit(RIGHT)], RIGHT, ROWS[0]))
    say(f"shop study, {RIGHT}: {found} yd")
    assert found.mean + 2.0 * found.error < 0.0


@pytest.mark.parametrize("row", ROWS)
def test_ranges_of_value_hold_the_truth_as_often_as_they_say(row: str, say: Say) -> None:
    records = fresh_of([unit(RIGHT)], RIGHT, row)
    for name, least in (("value_80", 0.80), ("value_95", 0.95)):
        held = figure(records, "learned", name)
        say(f"shop study, {row}, {name}: {held}")
        assert held.mean + 2.0 * held.error >= least


def test_devices_and_bays_are_told_apart_within_what_is_said(say: Say) -> None:
    pairs = unit(RIGHT)["against_truth"]["offsets"]
    held = [
        abs(learned - truth) <= 1.96 * sd
        for one in pairs
        for truth, learned, sd in zip(one["truth"], one["learned"], one["sd"], strict=True)
    ]
    say(f"shop study, offsets in their 95 % ranges: {sum(held)} of {len(held)}")
    assert len(held) == 20
    assert sum(held) >= 17

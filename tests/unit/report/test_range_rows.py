"""Ranges over one rule."""

import re

from loftwright.report.look import ACCENT
from loftwright.report.range_rows import RangeOf, range_rows

ROWS = [
    RangeOf(name="Club path", best=-1.0, low=-2.0, high=0.0, below="out to in", above="in to out"),
    RangeOf(name="Attack angle", best=2.0, low=-1.0, high=5.0, sure=False),
]


def dots(svg: str) -> list[tuple[float, str]]:
    found = re.findall(r'<circle cx="([-\d.]+)" cy="[-\d.]+" r="[\d.]+" fill="([^"]+)"', svg)
    return [(float(x), fill) for x, fill in found]


def test_what_was_read_is_filled_and_what_follows_is_hollow() -> None:
    sure, told = dots(range_rows(ROWS, title="Ranges"))
    assert sure[1] == ACCENT
    assert told[1] != ACCENT
    assert sure[0] < told[0]


def test_sides_and_units_are_written() -> None:
    svg = range_rows(ROWS, title="Ranges", unit="°", zero=0.0)
    for words in ("out to in", "in to out", "Club path", "Attack angle", ">0°<", ">−2°<"):
        assert words in svg


def test_the_rule_holds_every_range_and_the_zero() -> None:
    far = [RangeOf(name="one", best=0.9, low=0.8, high=1.0)]
    assert ">0.00<" not in range_rows(far, title="Ranges")
    assert ">0.0<" in range_rows(far, title="Ranges", zero=0.0)


def test_a_range_of_no_width_is_drawn() -> None:
    svg = range_rows([RangeOf(name="one", best=1.0, low=1.0, high=1.0)], title="Ranges")
    assert len(dots(svg)) == 1

"""The picture of what was true: every figure at its place on one rule, and the same in words."""

import re

import pytest

from loftwright.constants import YARD
from loftwright.errors import InputError
from loftwright.report.marks import deal_marks
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.report.truth_picture import TruthLane, truth_picture, truth_words

LANES = (
    TruthLane(club="Ash", truth=4.0 * YARD, plain=-2.0 * YARD, low=-1.0 * YARD, high=3.0 * YARD),
    TruthLane(club="Own", truth=0.0, plain=0.0),
    TruthLane(club="Birch", truth=-3.0 * YARD),
)
MARKS = deal_marks(["Ash", "Own", "Birch"], "Own")


def places(svg: str) -> dict[str, float]:
    """Return where each numeral of the rule stands."""
    found = re.findall(r'<text class="q m"[^>]*? x="([\d.]+)"[^>]*>([^<]+)</text>', svg)
    return {text: float(x) for x, text in found}


def test_shapes_crosses_and_bars_stand_at_their_figures() -> None:
    svg = truth_picture(LANES, MARKS, zero="Own")
    rule = places(svg)
    assert list(rule) == ["−3", "−2", "−1", "0", "+1", "+2", "+3", "+4"]
    cross = re.findall(r'd="M([\d.]+) [\d.]+l14 14m0 -14l-14 14"', svg)
    assert [float(one) + 7.0 for one in cross] == pytest.approx([rule["−2"], rule["0"]], abs=0.11)
    bar = re.search(r'd="M([\d.]+) [\d.]+v18M[\d.]+ [\d.]+H([\d.]+)M', svg)
    assert bar is not None
    ends = [float(bar[1]), float(bar[2])]
    assert ends == pytest.approx([rule["−1"], rule["+3"]], abs=0.11)
    ring = re.search(r'<circle cx="([\d.]+)"', svg)
    assert ring is not None
    assert float(ring[1]) == pytest.approx(rule["0"], abs=0.11)


def test_metric_shops_get_a_metric_rule() -> None:
    svg = truth_picture(LANES, MARKS, zero="Own", show=Show(units="metric"))
    assert ">m</text>" in svg
    assert "truly +3.7 m" in truth_words(LANES, zero="Own", show=Show(units="metric"))


def test_equal_clubs_and_wide_ranges_are_drawn_too() -> None:
    equal = [TruthLane(club="Own", truth=0.0), TruthLane(club="Ash", truth=0.0)]
    assert "Own" in truth_picture(equal, MARKS, zero="Own")
    wide = [TruthLane(club="Ash", truth=400.0, plain=-200.0)]
    assert len(places(truth_picture(wide, MARKS, zero="Own"))) <= 16


def test_the_picture_takes_the_colours_of_the_page() -> None:
    screen = for_screen(truth_picture(LANES, MARKS, zero="Own"))
    assert "#" not in re.sub(r'aria-labelledby="[^"]*"', "", screen)
    assert "style=" not in screen


def test_words_say_what_the_picture_shows() -> None:
    assert truth_words(LANES, zero="Own") == (
        "Against Own. Ash: truly +4.0 yd, plain averages −2.0 yd, the comparison −1.0 to +3.0. "
        "Own: truly 0.0 yd, plain averages 0.0 yd. Birch: truly −3.0 yd."
    )


def test_no_club_is_no_picture() -> None:
    with pytest.raises(InputError):
        truth_picture((), MARKS, zero="Own")

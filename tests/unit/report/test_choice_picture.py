import re
from collections.abc import Callable

import pytest
from scipy import stats

from loftwright.constants import YARD
from loftwright.evidence.result import Estimate, Pattern
from loftwright.report.choice_marks import ChoiceMark, Reach, choice_words
from loftwright.report.choice_picture import HEIGHT, WIDTH, choice_picture
from loftwright.report.marks import deal_marks
from loftwright.report.pictures import TWO_OF_THREE

NAMES = ["Own", "Ash", "Birch", "Cedar", "Elm", "Fir", "Hazel"]
SHAPES = deal_marks(NAMES, "Own")
PATTERN = Pattern(total=8.0 * YARD, offline=13.0 * YARD)


def reach(mean_yd: float, sd_yd: float) -> Reach:
    return Reach.of(Estimate(mean=mean_yd * YARD, sd=sd_yd * YARD, df=20.0))


def club(
    name: str,
    total: float,
    offline: float,
    spread: float = 2.7,
    *,
    hit: bool = True,
) -> ChoiceMark:
    own = name == "Own"
    return ChoiceMark(
        club=name,
        shape=SHAPES[name],
        total=Reach.exactly(0.0) if own else reach(total, spread),
        offline=reach(offline, spread),
        hit=hit,
    )


CLUBS = [
    club("Birch", 5.4, 1.0),
    club("Elm", 4.9, -3.0),
    club("Cedar", 2.0, 9.0),
    club("Ash", -0.6, 11.0, 3.4),
    club("Own", 0.0, 7.0),
    club("Fir", 4.8, 3.0, 4.4, hit=False),
]


def place(svg: str, name: str) -> tuple[float, float]:
    """Return the middle of a marker, from its title."""
    ring = re.search(rf'<circle cx="([\d.]+)" cy="([\d.]+)"[^>]*><title>{name}<', svg)
    if ring is not None:
        return float(ring.group(1)), float(ring.group(2))
    found = re.search(rf'<path d="M([^"Z]*)Z[^"]*"[^>]*><title>{name}<', svg)
    assert found is not None
    points = [tuple(map(float, pair.split(","))) for pair in found.group(1).split("L")]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0


def numeral(svg: str, text: str) -> tuple[float, float]:
    found = re.search(rf'x="([\d.]+)" y="([\d.]+)"[^>]*>{re.escape(text)}</text>', svg)
    assert found is not None
    return float(found.group(1)), float(found.group(2))


def test_a_reach_holds_half_the_chance_and_nine_in_ten() -> None:
    told = Reach.of(Estimate(mean=5.0, sd=2.0, df=12.0), shift=1.0)
    law = stats.t(12.0, loc=6.0, scale=2.0)
    assert told.mean == 6.0
    assert law.cdf(told.half[1]) - law.cdf(told.half[0]) == pytest.approx(0.5)
    assert law.cdf(told.most[1]) - law.cdf(told.most[0]) == pytest.approx(0.9)


def test_longer_is_to_the_right_and_left_of_the_target_is_up() -> None:
    svg = choice_picture(CLUBS, zero="Own")
    assert place(svg, "Birch")[0] > place(svg, "Cedar")[0] > place(svg, "Own")[0]
    assert place(svg, "Elm")[1] < place(svg, "Cedar")[1]


def test_the_own_club_is_a_ring_on_the_line_of_zero() -> None:
    svg = choice_picture(CLUBS, zero="Own")
    x, _ = place(svg, "Own")
    assert numeral(svg, "0")[0] == pytest.approx(x, abs=0.1)
    assert f"M{x:.1f} 32.0V376.0" in svg


def test_a_marker_stands_where_the_rules_say() -> None:
    svg = choice_picture(CLUBS, zero="Own", fairway=32.0 * YARD)
    x0, x5 = numeral(svg, "0")[0], numeral(svg, "+5")[0]
    assert place(svg, "Birch")[0] == pytest.approx(x0 + 5.4 * (x5 - x0) / 5.0, abs=0.2)
    ten_left, ten_right = numeral(svg, "10 L")[1], numeral(svg, "10 R")[1]
    yard = (ten_right - ten_left) / 20.0
    assert place(svg, "Ash")[1] == pytest.approx(ten_right - 6.0 + yard, abs=0.4)


def test_one_shared_outline_is_drawn_once_around_one_club() -> None:
    svg = choice_picture(CLUBS, zero="Own", pattern=PATTERN, around="Cedar")
    found = re.findall(r'<ellipse cx="([\d.]+)" cy="([\d.]+)" rx="([\d.]+)"', svg)
    assert len(found) == 1
    cx, cy, rx = map(float, found[0])
    assert (cx, cy) == pytest.approx(place(svg, "Cedar"), abs=0.2)
    per_yard = (numeral(svg, "+5")[0] - numeral(svg, "0")[0]) / 5.0
    assert rx == pytest.approx(TWO_OF_THREE * 8.0 * per_yard, rel=0.01)
    assert "two of three balls, any club" in svg
    assert "ellipse" not in choice_picture(CLUBS, zero="Own")


def test_the_outline_and_every_range_stay_in_the_picture() -> None:
    svg = choice_picture(CLUBS, zero="Own", pattern=PATTERN)
    across = [float(x) for pair in re.findall(r"M([\d.]+) [\d.]+H([\d.]+)", svg) for x in pair]
    assert min(across) >= 32.0
    assert max(across) <= WIDTH - 20.0
    found = re.search(r'<ellipse cx="([\d.]+)" cy="([\d.]+)" rx="([\d.]+)" ry="([\d.]+)"', svg)
    assert found is not None
    cx, cy, rx, ry = map(float, found.groups())
    assert cx - rx >= 64.0
    assert cx + rx <= 860.0
    assert cy - ry >= 32.0
    assert cy + ry <= 376.0


def test_a_set_up_that_was_not_hit_is_a_dashed_cross_without_a_marker() -> None:
    svg = choice_picture(CLUBS, zero="Own")
    assert "<title>Fir" not in svg
    assert SHAPES["Fir"].colour not in svg
    assert svg.count('stroke-dasharray="3 5"') == 2
    assert "Fir: not hit" in svg


def test_the_fairway_is_a_pale_band_to_scale() -> None:
    svg = choice_picture(CLUBS, zero="Own", fairway=20.0 * YARD)
    band = re.search(r'<rect x="64.0" y="([\d.]+)" width="796.0" height="([\d.]+)"', svg)
    assert band is not None
    top, height = float(band.group(1)), float(band.group(2))
    assert top == pytest.approx(numeral(svg, "10 L")[1] - 6.0, abs=0.2)
    assert top + height == pytest.approx(numeral(svg, "10 R")[1] - 6.0, abs=0.2)
    assert "pale band: a fairway of 20 yd" in svg


@pytest.mark.parametrize("apart", [0.0, 0.15, 0.6, 2.0, 12.0])
def test_labels_never_stand_on_each_other_or_on_a_marker(
    apart: float, misplaced: Callable[[str], list[str]], on_screen: Callable[[str], str]
) -> None:
    close = [
        club(name, apart * index, apart * (index * 5 % 7), 0.5 + apart)
        for index, name in enumerate(NAMES)
    ]
    close.append(
        ChoiceMark(
            club="Sleeve turned",
            shape=SHAPES["Own"],
            total=reach(0.2, 2.0),
            offline=reach(3.0, 2.0),
            hit=False,
        )
    )
    svg = choice_picture(close, zero="Own", pattern=PATTERN, fairway=32.0 * YARD)
    assert misplaced(svg) == []
    on_screen(svg)


def test_a_picture_without_clubs_is_bare_and_says_so(
    misplaced: Callable[[str], list[str]],
) -> None:
    svg = choice_picture([], zero="Own", pattern=PATTERN)
    assert "No club was hit yet." in svg
    assert "ellipse" not in svg
    assert misplaced(svg) == []
    assert f'height="{HEIGHT:.0f}"' in svg


def test_names_are_text_and_never_markup() -> None:
    odd = ChoiceMark(
        club="<b>", shape=SHAPES["Ash"], total=reach(1.0, 1.0), offline=reach(0.0, 1.0)
    )
    assert "<b>" not in choice_picture([odd], zero="<i>")


def test_the_twin_says_every_club() -> None:
    told = choice_words(CLUBS, zero="Own")
    assert "Birch +5.4 yd (+0.7 to +10.1), finishes 1 yd right" in told
    assert "Elm +4.9 yd (+0.2 to +9.6), finishes 3 yd left" in told
    assert "Own 0.0 yd, finishes 7 yd right" in told
    assert told.endswith("finishes 3 yd right, not hit.")
    assert choice_words([], zero="Own") == "No club to draw yet."

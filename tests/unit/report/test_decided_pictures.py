"""Pictures of a comparison with their words, in the shop's units."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from loftwright.domain.names import OWN
from loftwright.evidence.result import Against, Decision
from loftwright.report.decided_pictures import (
    choice_drawing,
    parts_drawing,
    ranges_drawing,
    shared_scatter,
)
from loftwright.report.differences import shown_parts
from loftwright.report.face_picture import FaceMark
from loftwright.report.fitter_page import told_pair
from loftwright.report.marks import OWN_MARK, Mark, deal_marks
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen

Maker = Callable[..., Decision]
Misplaced = Callable[[str], list[str]]


def marks_of(decision: Decision) -> dict[str, Mark]:
    return deal_marks([club.club for club in decision.clubs], OWN)


@pytest.mark.parametrize("clubs", [2, 5, 8, 13])
def test_no_label_of_the_ranges_stands_on_another(
    make_decision: Maker, misplaced: Misplaced, clubs: int
) -> None:
    decision = make_decision(clubs=clubs)
    drawing = ranges_drawing(decision, marks_of(decision), Show(), out={})
    assert drawing is not None
    assert misplaced(drawing.svg) == []
    assert "style=" not in for_screen(drawing.svg)


def test_the_ranges_are_told_in_words_too(make_decision: Maker) -> None:
    decision = make_decision()
    drawing = ranges_drawing(decision, marks_of(decision), Show(), out={})
    assert drawing is not None
    assert drawing.words.startswith("Against Own, nine chances in ten. As you swing it: Birch +")
    assert "From the same swing: Birch +" in drawing.words
    assert "Own +" not in drawing.words


def test_a_metric_shop_sees_metres(make_decision: Maker) -> None:
    decision = make_decision()
    pair = told_pair(decision)
    assert pair is not None
    show = Show(units="metric", decimal="comma")
    ranges = ranges_drawing(decision, marks_of(decision), show, out={})
    parts = parts_drawing(pair, show)
    assert ranges is not None
    assert parts is not None
    assert ">0 m<" in ranges.svg
    assert ">0 m<" in parts.svg
    named = parts.words.removesuffix(".").partition(": ")[2].split("; ")
    assert len(named) > 3
    assert all(one.endswith(" m") for one in named)
    *told, (_, whole) = shown_parts(pair, 1.0)
    assert round(sum(value for _, value in told), 1) == whole


def test_a_device_that_tells_carry_alone_has_one_figure(
    device_decision: Decision, misplaced: Misplaced
) -> None:
    drawing = ranges_drawing(device_decision, marks_of(device_decision), Show(), out={})
    assert drawing is not None
    assert "Carry as this device shows it" in drawing.svg
    assert "From the same swing" not in drawing.svg
    assert misplaced(drawing.svg) == []
    assert choice_drawing(device_decision, marks_of(device_decision)) is None


def test_too_few_balls_leave_no_choice_to_draw(few_decision: Decision) -> None:
    assert parts_drawing(few_decision.pairs[0], Show()) is None


def test_without_own_the_mean_is_zero_and_every_club_has_a_row(make_decision: Maker) -> None:
    decision = replace(make_decision(), own=None, against=Against.MEAN)
    marks = deal_marks([club.club for club in decision.clubs], None)
    drawing = ranges_drawing(decision, marks, Show(), out={})
    assert drawing is not None
    assert "mean of all" in drawing.svg
    assert ">Own<" in drawing.svg


def test_the_parts_picture_names_no_label_twice_over(
    make_decision: Maker, misplaced: Misplaced
) -> None:
    decision = make_decision()
    for pair in decision.pairs:
        drawing = parts_drawing(pair, Show())
        if drawing is not None:
            assert misplaced(drawing.svg) == []


def test_the_scatter_is_about_each_clubs_own_middle() -> None:
    def mark(club: str, toe: float) -> FaceMark:
        return FaceMark(club=club, shape=OWN_MARK, toe=toe, high=0.0)

    told = [mark("Own", toe) for toe in (0.0, 0.002)] + [mark("Ash", toe) for toe in (0.5, 0.502)]
    assert shared_scatter(told) is None
    more = [*told, mark("Ash", 0.501)]
    found = shared_scatter(more)
    assert found is not None
    # Squares about the own middles: 2 x 1 mm2 and 2 x 1 mm2 over 5 marks less 2 clubs.
    assert found[0] == pytest.approx((4.0 / 3.0) ** 0.5 * 1e-3)
    assert found[1] == 0.0


def test_where_it_finishes_is_graduated_in_the_shops_units(make_decision: Maker) -> None:
    decision = make_decision()
    show = Show(units="metric", decimal="comma")
    trade = choice_drawing(decision, marks_of(decision))
    metric = choice_drawing(decision, marks_of(decision), show)
    assert trade is not None
    assert metric is not None
    assert "Where it finishes, yd" in trade.svg
    assert "Where it finishes, m" in metric.svg
    assert not re.search(r"\byd\b", metric.svg + metric.words)
    assert markers(trade.svg) == markers(metric.svg)
    for club in decision.clubs[:-1]:
        figures = club.as_you_swing_it
        assert figures is not None
        assert figures.total is not None
        assert f"{club.club} {show.yards_apart(figures.total.mean)}" in metric.words


def test_figures_in_pictures_bear_the_shops_decimal_mark(make_decision: Maker) -> None:
    decision = make_decision()
    pair = told_pair(decision)
    assert pair is not None
    show = Show(decimal="comma")
    ranges = ranges_drawing(decision, marks_of(decision), show, out={})
    parts = parts_drawing(pair, show)
    for drawing in (ranges, parts):
        assert drawing is not None
        told = re.findall(r">([+−]\d+[.,]\d)<", drawing.svg)
        assert told
        assert all("," in one for one in told)


def markers(svg: str) -> list[str]:
    """Return the filled outlines of the clubs' markers, wherever the rules' ticks are."""
    return re.findall(r'<path [^>]*fill="#[0-9a-f]{6}"[^>]*/>', svg)

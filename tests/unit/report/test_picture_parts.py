import re

import pytest

from loftwright.report.marks import OWN_MARK, deal_marks
from loftwright.report.picture_parts import (
    Box,
    club_shape,
    fitted,
    label,
    level_rule,
    text_box,
    text_width,
)


def test_boxes_that_share_an_edge_do_not_meet() -> None:
    box = Box(left=0.0, top=0.0, right=10.0, bottom=10.0)
    assert not box.meets(Box(left=10.0, top=0.0, right=20.0, bottom=10.0))
    assert not box.meets(Box(left=0.0, top=10.0, right=10.0, bottom=20.0))
    assert box.meets(Box(left=9.0, top=9.0, right=20.0, bottom=20.0))


def test_a_box_follows_the_anchor_of_its_text() -> None:
    width = text_width("want it")
    assert text_box(50.0, 20.0, "want it").left == 50.0
    assert text_box(50.0, 20.0, "want it", anchor="end").right == pytest.approx(50.0)
    middle = text_box(50.0, 20.0, "want it", anchor="middle")
    assert (middle.left, middle.right) == pytest.approx((50.0 - width / 2.0, 50.0 + width / 2.0))


def test_a_text_is_cut_only_where_it_must_be() -> None:
    assert fitted("Cedar", 200.0) == "Cedar"
    cut = fitted("Ottoline Brambleby", 90.0)
    assert cut.endswith("…")
    assert "Ottoline".startswith(cut[:-1])
    assert text_width(cut) <= 90.0
    assert fitted("Ottoline", 3.0) == ""


def test_the_own_ring_is_open_and_a_waiting_one_is_filled() -> None:
    assert 'fill="none"' in club_shape(OWN_MARK, 0.0, 0.0, 8.0)
    assert 'fill="none"' not in club_shape(OWN_MARK, 0.0, 0.0, 8.0, hollow=True)


def test_a_hollow_shape_has_none_of_its_colour() -> None:
    birch = deal_marks(["Birch"], None)["Birch"]
    assert birch.colour in club_shape(birch, 0.0, 0.0, 8.0)
    assert birch.colour not in club_shape(birch, 0.0, 0.0, 8.0, hollow=True)


def test_a_title_of_a_shape_is_escaped() -> None:
    assert "<title>&lt;b&gt;</title>" in club_shape(OWN_MARK, 0.0, 0.0, 8.0, title="<b>")


def test_a_ground_is_painted_before_its_letters() -> None:
    cleared = label(0.0, 0.0, "left", ground="#ffffff")
    assert 'paint-order="stroke" stroke="#ffffff"' in cleared
    assert cleared == label(0.0, 0.0, "left", halo=True)
    assert 'stroke="#f2f4f1"' in label(0.0, 0.0, "left", halo=True, ground="#f2f4f1")
    assert "paint-order" not in label(0.0, 0.0, "left")


def test_a_rule_has_its_ticks_numerals_and_line() -> None:
    rule = level_rule([(0.0, 12.0), (5.0, 4.0)], {0.0: "0 mm"}, 40.0, (0.0, 5.0))
    assert "M0.0 40.0v12M5.0 40.0v4" in rule
    assert "M0.0 40.0H5.0" in rule
    assert re.findall(r">([^<]*)</text>", rule) == ["0 mm"]

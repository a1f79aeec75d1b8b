from itertools import combinations

import pytest

from loftwright.report.label_places import Wanted, place_labels
from loftwright.report.picture_parts import Box

FRAME = Box(left=0.0, top=0.0, right=400.0, bottom=300.0)


def test_a_lone_label_stands_close_beside_its_marker() -> None:
    placed = place_labels([Wanted(text="Ash", x=200.0, y=150.0)], FRAME, [], [])[0]
    assert placed.anchor == "start"
    assert 5.0 < placed.x - 200.0 < 20.0
    assert not placed.led


@pytest.mark.parametrize("apart", [0.0, 3.0, 9.0])
def test_labels_of_a_heap_of_markers_stand_apart(apart: float) -> None:
    wanted = [Wanted(text=f"Club {index}", x=200.0 + apart * index, y=150.0) for index in range(9)]
    blocks = [
        Box(left=one.x - 11.0, top=139.0, right=one.x + 11.0, bottom=161.0) for one in wanted
    ]
    boxes = [placed.box for placed in place_labels(wanted, FRAME, blocks, [])]
    assert not any(one.meets(two) for one, two in combinations(boxes, 2))
    assert not any(one.meets(block) for one in boxes for block in blocks)


@pytest.mark.parametrize(("x", "y"), [(2.0, 2.0), (398.0, 2.0), (2.0, 298.0), (398.0, 298.0)])
def test_a_label_in_a_corner_stays_in_the_frame(x: float, y: float) -> None:
    box = place_labels([Wanted(text="Hazel", x=x, y=y, bold=True)], FRAME, [], [])[0].box
    assert box.left >= 0.0
    assert box.top >= 0.0
    assert box.right <= 400.0
    assert box.bottom <= 300.0


def test_a_label_steps_off_a_line_when_another_side_is_free() -> None:
    line = Box(left=200.0, top=120.0, right=400.0, bottom=150.0)
    box = place_labels([Wanted(text="Ash", x=200.0, y=150.0)], FRAME, [], [line])[0].box
    assert not box.meets(line)


def test_a_label_nearer_to_another_marker_is_led_to_its_own() -> None:
    wanted = [Wanted(text="Ash", x=200.0, y=150.0), Wanted(text="Elm", x=200.0, y=150.0)]
    crowd = [Wanted(text="Fir", x=200.0 + 9.0 * side, y=150.0) for side in (-1.0, 1.0)]
    placed = place_labels([*wanted, *crowd], FRAME, [], [])
    assert {one.wanted.text for one in placed} == {"Ash", "Elm", "Fir"}
    far = [one for one in placed if abs(one.x - one.wanted.x) > 30.0]
    assert all(one.led for one in far)

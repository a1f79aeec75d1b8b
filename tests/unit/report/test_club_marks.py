from collections.abc import Callable
from dataclasses import replace

import pytest

from loftwright.domain.names import TREES
from loftwright.domain.shot import Shot, ShotTable
from loftwright.evidence.result import Decision
from loftwright.report.marks import OWN_MARK, deal_marks, marks_of_fitting

# Shapes and colours of the trees: Okabe and Ito's palette for colour-blind readers, from memory.
FIRST = {
    "Ash": ("square", "#0072b2"),
    "Birch": ("triangle, point up", "#d55e00"),
    "Cedar": ("diamond", "#009e73"),
    "Elm": ("triangle, point down", "#cc79a7"),
    "Fir": ("upright cross", "#e69f00"),
    "Hazel": ("hexagon", "#56b4e9"),
    "Larch": ("star", "#f0e442"),
}


def test_every_tree_has_its_own_shape_whatever_the_order() -> None:
    marks = deal_marks(reversed(FIRST), None)
    assert {name: (mark.shape, mark.colour) for name, mark in marks.items()} == FIRST


def test_the_own_club_is_a_ring_and_takes_no_shape_from_the_others() -> None:
    marks = deal_marks(["Old driver", "Kestrel", "Heron"], "Old driver")
    assert marks["Old driver"] is OWN_MARK
    assert marks["Old driver"].is_ring
    assert marks["Kestrel"].shape == "square"
    assert marks["Heron"].shape == "triangle, point up"


def test_other_names_take_the_marks_that_no_tree_has() -> None:
    marks = deal_marks(["Kestrel", "Ash", "Heron"], None)
    assert marks["Ash"].shape == "square"
    assert marks["Kestrel"].shape == "triangle, point up"
    assert marks["Heron"].shape == "diamond"


def test_twenty_eight_clubs_all_look_different() -> None:
    marks = deal_marks([*TREES, *(f"Demo {index}" for index in range(16))], None)
    looks = {(mark.shape, mark.colour, mark.bars) for mark in marks.values()}
    assert len(marks) == len(looks) == 28


def test_a_mark_depends_on_the_order_of_play_not_on_the_ranking(
    make_decision: Callable[..., Decision],
) -> None:
    decision = make_decision(names={"Birch": "Badger", "Elm": "Ibex"})
    played = ["Ibex", "Badger", "Own", "Cedar", "Ash", "Ibex"]
    table = ShotTable(
        read=6,
        shots=tuple(Shot(row=row, order=row, club=club) for row, club in enumerate(played)),
    )
    marks = marks_of_fitting(decision, table)
    turned = replace(decision, clubs=decision.clubs[::-1])
    assert marks == marks_of_fitting(turned, table)
    assert marks["Ibex"].shape == "triangle, point up"
    assert marks["Badger"].shape == "triangle, point down"


def test_a_path_is_closed_and_scaled_to_its_place() -> None:
    square = deal_marks(["Ash"], None)["Ash"]
    assert square.path(10.0, 20.0, 5.0) == "M6.00,16.00L14.00,16.00L14.00,24.00L6.00,24.00Z"
    assert OWN_MARK.path().startswith("M-0.84,0.00A0.84,0.84")


@pytest.mark.parametrize("index", [7, 14, 21])
def test_shapes_come_again_with_bars_across(index: int) -> None:
    marks = list(deal_marks([f"Demo {number}" for number in range(28)], None).values())
    assert marks[index].shape == marks[0].shape
    assert marks[index].bars
    assert marks[index].path().count("M") == 1 + len(marks[index].bars)

import re
from collections.abc import Callable

import pytest

from loftwright.constants import MILLIMETRE
from loftwright.domain.golfer import Hand
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH
from loftwright.report.face_picture import (
    HEIGHT,
    NINE_IN_TEN,
    WIDTH,
    FaceMark,
    face_map,
    face_picture,
    face_words,
    mark_at,
    strike_words,
)
from loftwright.report.marks import deal_marks

CLUBS = ["Own", "Ash", "Birch", "Cedar"]
SHAPES = deal_marks(CLUBS, "Own")
VIEWS = [(hand, turned) for hand in Hand for turned in (False, True)]


def mark(club: str, toe_mm: float, high_mm: float, *, waiting: bool = False) -> FaceMark:
    return FaceMark(
        club=club,
        shape=SHAPES[club],
        toe=toe_mm * MILLIMETRE,
        high=high_mm * MILLIMETRE,
        waiting=waiting,
    )


MARKS = [
    mark("Own", -8.0, 3.0),
    mark("Ash", 6.0, -4.0),
    mark("Birch", 2.0, 1.0),
    mark("Birch", -4.0, -2.0, waiting=True),
    mark("Birch", 13.0, 9.0, waiting=True),
]


def attributes(svg: str) -> dict[str, float]:
    return {name: float(text) for name, text in re.findall(r'data-([\w-]+)="([^"]*)"', svg)}


def word_at(svg: str, word: str) -> tuple[float, float]:
    found = re.search(rf'x="([\d.]+)" y="([\d.]+)"[^>]*>{word}</text>', svg)
    assert found is not None
    return float(found.group(1)), float(found.group(2))


def test_a_right_handers_toe_is_on_the_left_seen_from_the_front() -> None:
    svg = face_picture([], hand=Hand.RIGHT)
    assert word_at(svg, "TOE")[0] < word_at(svg, "HEEL")[0]
    assert word_at(svg, "CROWN")[1] < word_at(svg, "SOLE")[1]


def test_a_left_handers_toe_is_on_the_right_seen_from_the_front() -> None:
    svg = face_picture([], hand=Hand.LEFT)
    assert word_at(svg, "TOE")[0] > word_at(svg, "HEEL")[0]
    assert word_at(svg, "CROWN")[1] < word_at(svg, "SOLE")[1]


@pytest.mark.parametrize("hand", Hand)
def test_as_it_is_held_the_crown_is_down_and_the_toe_on_the_other_side(hand: Hand) -> None:
    front, held = face_picture([], hand=hand), face_picture([], hand=hand, turned=True)
    assert word_at(held, "CROWN")[1] > word_at(held, "SOLE")[1]
    swapped = (word_at(front, "TOE")[0] < 196.0) != (word_at(held, "TOE")[0] < 196.0)
    assert swapped


@pytest.mark.parametrize("hand", Hand)
def test_turning_is_half_a_turn_and_no_mirror(hand: Hand) -> None:
    front, held = face_map(hand), face_map(hand, turned=True)
    x, y = front.place(0.011, 0.007)
    turned_x, turned_y = held.place(0.011, 0.007)
    middle_x, middle_y = front.place(0.0, 0.0)
    assert turned_x - middle_x == pytest.approx(middle_x - x)
    assert turned_y - middle_y == pytest.approx(middle_y - y)
    assert held.toe_sign * held.high_sign == front.toe_sign * front.high_sign


@pytest.mark.parametrize(("hand", "turned"), VIEWS)
def test_a_tap_gives_back_the_place_that_was_drawn(hand: Hand, turned: bool) -> None:
    x, y = face_map(hand, turned=turned).place(0.013, -0.009)
    assert mark_at(x, y, hand=hand, turned=turned) == pytest.approx((0.013, -0.009))


@pytest.mark.parametrize(("hand", "turned"), VIEWS)
def test_the_attributes_map_a_tap_as_the_function_does(hand: Hand, turned: bool) -> None:
    data = attributes(face_picture([], hand=hand, turned=turned))
    x, y = 241.5, 61.25
    toe = data["toe-sign"] * (x - data["centre-x"]) * data["mm-per-unit"]
    high = data["high-sign"] * (y - data["centre-y"]) * data["mm-per-unit"]
    expected = mark_at(x, y, hand=hand, turned=turned)
    assert (toe * MILLIMETRE, high * MILLIMETRE) == pytest.approx(expected)


def test_a_tap_towards_the_left_of_a_right_handers_face_is_to_the_toe() -> None:
    toe, high = mark_at(196.0 - 31.25, 99.0 - 31.25)
    assert (toe, high) == pytest.approx((0.010, 0.010))


@pytest.mark.parametrize(("hand", "turned"), VIEWS)
def test_the_face_is_to_scale(hand: Hand, turned: bool) -> None:
    svg = face_picture([], hand=hand, turned=turned)
    outline = re.search(r'class="tapface" d="M([^"]*)Z"', svg)
    assert outline is not None
    numbers = [float(number) for number in re.findall(r"[\d.]+", outline.group(1))]
    wide, tall = numbers[0::2], numbers[1::2]
    assert max(wide) - min(wide) == pytest.approx(2e3 * FACE_HALF_WIDTH / 0.32, abs=0.2)
    assert max(tall) - min(tall) == pytest.approx(2e3 * FACE_HALF_HEIGHT / 0.32, abs=0.2)


def test_the_rule_shows_the_millimetres_of_the_marks() -> None:
    svg = face_picture([])
    numerals = re.findall(r'x="([\d.]+)" y="233.0"[^>]*>([^<]*)</text>', svg)
    places = {text: float(x) for x, text in numerals}
    assert set(places) == {"40", "20", "0 mm"}
    per_mm = 1.0 / attributes(svg)["mm-per-unit"]
    assert places["20"] - places["0 mm"] == pytest.approx(20.0 * per_mm, abs=0.1)


def test_the_newest_mark_is_hollow_largest_last_and_has_its_error() -> None:
    svg = face_picture(MARKS, in_hand="Birch")
    newest = svg[svg.index('<g class="arrive">') :]
    x, y = face_map().place(MARKS[-1].toe, MARKS[-1].high)
    assert MARKS[-1].shape.path(x, y, 9.4) in newest
    assert MARKS[-1].shape.colour not in newest
    circle = re.search(r'cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"[^>]*dasharray', newest)
    assert circle is not None
    radius = NINE_IN_TEN * 1.75 / 0.32
    assert [float(part) for part in circle.groups()] == pytest.approx([x, y, radius], abs=0.06)


def test_marks_of_the_club_in_hand_are_strong_and_the_others_weak() -> None:
    weak = re.findall(r'opacity="0.75"><title>(\w+)', face_picture(MARKS, in_hand="Birch"))
    assert sorted(weak) == ["Ash", "Own"]


def test_a_mark_beside_the_picture_is_held_in_sight_and_named_truly() -> None:
    svg = face_picture([mark("Ash", -75.0, 0.0), mark("Own", 0.0, 0.0)])
    assert "Ash: 75 mm heel" in svg
    shape = SHAPES["Ash"].path(WIDTH - 10.0, face_map().place(0.0, 0.0)[1], 4.6)
    assert shape in svg


@pytest.mark.parametrize(("hand", "turned"), VIEWS)
def test_words_on_the_face_stand_apart_and_inside(
    hand: Hand, turned: bool, misplaced: Callable[[str], list[str]]
) -> None:
    assert misplaced(face_picture(MARKS, hand=hand, turned=turned)) == []
    assert HEIGHT < 240.0


def test_the_face_stands_in_the_colours_of_the_page(on_screen: Callable[[str], str]) -> None:
    shown = on_screen(face_picture(MARKS, in_hand="Birch", prefix="strike"))
    assert 'width="392" height="238" viewBox="0 0 392 238"' in shown
    assert 'id="strike-title"' in shown


@pytest.mark.parametrize(
    ("toe", "high", "words"),
    [
        (13.0, 9.0, "13 mm toe, 9 mm high"),
        (-4.2, -1.6, "4 mm heel, 2 mm low"),
        (0.3, -6.0, "6 mm low"),
        (-0.2, 0.4, "in the middle"),
    ],
)
def test_a_place_on_the_face_is_said_with_words_for_signs(
    toe: float, high: float, words: str
) -> None:
    assert strike_words(toe * MILLIMETRE, high * MILLIMETRE) == words


def test_the_twin_says_what_the_picture_shows() -> None:
    told = face_words(MARKS)
    assert told.startswith("Face of the driver seen from the front, toe on the left.")
    assert "Birch 1 mark, on average 2 mm toe, 1 mm high" in told
    assert "2 marks wait for a ball: one 4 mm heel, 2 mm low and one 13 mm toe, 9 mm high" in told
    assert "The newest, of Birch, is 13 mm toe, 9 mm high." in told
    assert "toe on the right" in face_words(MARKS, turned=True)
    assert "No mark yet." in face_words([])

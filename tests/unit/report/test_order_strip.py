import re
from collections.abc import Callable

import pytest

from loftwright.report.marks import deal_marks
from loftwright.report.order_strip import ROW, WIDTH, Kind, OrderBall, order_strip, order_words

CLUBS = ["Own", "Ash", "Birch", "Cedar", "Elm"]
SHAPES = deal_marks(CLUBS, "Own")


def ball(number: int, club: str = "Ash", kind: Kind = Kind.READ, **more: bool) -> OrderBall:
    return OrderBall(club=club, shape=SHAPES[club], number=number, kind=kind, **more)


def balls(count: int) -> list[OrderBall]:
    return [ball(index + 1, CLUBS[index // 3 % 5]) for index in range(count)]


def dots(svg: str) -> list[tuple[float, float]]:
    found = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="2.6"', svg)
    return [(float(x), float(y)) for x, y in found]


def titles(svg: str) -> list[str]:
    return re.findall(r"<title>([^<]*)</title>", svg)


def size(svg: str) -> tuple[float, float]:
    width, height = re.findall(r'viewBox="0 0 (\d+) (\d+)"', svg)[0]
    return float(width), float(height)


def test_every_ball_is_drawn_and_every_ball_left_is_a_dot() -> None:
    svg = order_strip(balls(23), left=17)
    assert len(titles(svg)) == 23
    assert titles(svg)[3] == "Ball 4, Ash"
    assert len(dots(svg)) == 17
    assert "The balls in order: 23 hit, 17 left" in svg


@pytest.mark.parametrize(
    ("hit", "left", "rows"), [(10, 30, 1), (40, 0, 1), (41, 0, 2), (20, 40, 2)]
)
def test_rows_of_forty_fit_the_tablet(hit: int, left: int, rows: int) -> None:
    svg = order_strip(balls(hit), left=left)
    assert size(svg) == (WIDTH, 60.0 * rows)
    assert WIDTH < 820.0 - 2.0 * 20.0
    across = [float(x) for x in re.findall(r'cx="([\d.]+)"', svg)]
    assert min(across) >= 0.0
    assert max(across) <= WIDTH
    assert ROW == 40


def test_a_ball_keeps_its_place_when_the_next_one_comes() -> None:
    before, after = order_strip(balls(8), left=32), order_strip(balls(9), left=31)
    assert dots(before)[1:] == dots(after)


def test_an_unread_ball_is_a_bar_that_says_so() -> None:
    svg = order_strip([ball(1), ball(2, kind=Kind.NOT_READ), ball(3)])
    assert titles(svg)[1] == "Ball 2, Ash, not read"
    assert "bar: not read" in svg
    assert svg.count(SHAPES["Ash"].colour) == 2


def test_a_ball_that_is_not_ours_has_no_number_and_is_struck_through() -> None:
    svg = order_strip([ball(1), ball(0, kind=Kind.NOT_OURS), ball(2)])
    assert titles(svg) == ["Ball 1, Ash", "Ash, not ours", "Ball 2, Ash"]
    assert "slash: not ours" in svg


def test_an_odd_ball_is_marked_and_stays() -> None:
    svg = order_strip([ball(1), ball(2, odd=True)])
    assert titles(svg)[1] == "Ball 2, Ash, odd, counts for less"
    assert "wave: odd" in svg
    assert "wave" not in order_strip([ball(1)])


def test_a_rest_is_a_gap_in_the_rule() -> None:
    whole = order_strip(balls(6), left=34)
    rested = [*balls(3), ball(4, rested=True), *balls(6)[4:]]
    broken = order_strip(rested, left=34)
    line = re.findall(r'd="(M[\d.]+ 31.0H[^"]*)"', broken)[0]
    assert line.count("M") == 2
    assert re.findall(r'd="(M[\d.]+ 31.0H[^"]*)"', whole)[0].count("M") == 1
    assert "gap: rest" in broken
    assert dots(broken)[-1][0] == pytest.approx(765.0, abs=0.2)


def test_many_rests_still_fit() -> None:
    rested = [ball(index + 1, rested=True) for index in range(40)]
    across = [float(x) for x in re.findall(r"M([\d.]+),", order_strip(rested))]
    assert max(across) <= WIDTH


def test_a_ball_without_a_club_in_hand_is_a_bar_that_says_so() -> None:
    svg = order_strip([OrderBall(club="", shape=None, number=1)])
    assert titles(svg) == ["Ball 1, no club in hand"]


@pytest.mark.parametrize("hit", [0, 1, 9, 10, 11, 25, 39, 40, 41, 49, 58, 60])
def test_numerals_and_words_stand_apart(
    hit: int, misplaced: Callable[[str], list[str]], on_screen: Callable[[str], str]
) -> None:
    odd = [
        *[ball(0, "Own", Kind.WARM_UP)] * 2,
        *balls(hit),
        ball(hit + 1, kind=Kind.NOT_READ, rested=True),
        ball(0, kind=Kind.NOT_OURS),
        ball(hit + 2, odd=True),
        ball(hit + 3, kind=Kind.WAITING),
    ]
    svg = order_strip(odd, left=max(0, 57 - hit))
    assert misplaced(svg) == []
    assert 'font-weight="600" x="' in svg
    on_screen(svg)


def test_no_ball_at_all_is_a_bare_rule() -> None:
    svg = order_strip([], left=0)
    assert titles(svg) == []
    assert "H765.0" in svg


def test_the_twin_tells_runs_and_what_is_odd() -> None:
    told = order_words(
        [
            *balls(6),
            ball(7, "Birch", Kind.NOT_READ),
            ball(8, "Birch", odd=True),
        ],
        left=2,
    )
    assert told == "In order: Own 3, Ash 3, Birch 2 (1 not read and 1 odd); 2 balls left."
    assert order_words([], left=1) == "No ball yet; 1 ball left."

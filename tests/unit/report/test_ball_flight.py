import re
import subprocess
import sys
from collections.abc import Callable
from math import pi, sin

import pytest

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.home import Hole, Home, Lie, Trouble
from loftwright.evidence.flight_map import conditions_at
from loftwright.evidence.result import Pattern
from loftwright.physics.flight import Launch, follow
from loftwright.report.ball_flight import GABLE, HEIGHT, WIDTH, ball_flight
from loftwright.report.flown_ball import FlownBall, Outline, flight_words
from loftwright.report.marks import deal_marks
from loftwright.report.pictures import TWO_OF_THREE

SHAPES = deal_marks(["Own", "Birch", "Cedar"], "Own")
PATTERN = Pattern(total=7.0 * YARD, offline=13.0 * YARD)
OUTLINE = Outline(total=229.0 * YARD, offline=0.0, pattern=PATTERN)
EARLIER = tuple(
    ((215.0 + 3.0 * (index % 9)) * YARD, (2.5 * (index % 11) - 12.0) * YARD) for index in range(22)
)


def flown(
    carry_yd: float = 222.0,
    run_yd: float = 12.0,
    peak_ft: float = 72.0,
    offline_yd: float = 3.0,
) -> FlownBall:
    carry, side = carry_yd * YARD, 0.9 * offline_yd * YARD
    path = tuple(
        (carry * t, peak_ft * FOOT * sin(pi * t), side * t * t)
        for t in (index / 60.0 for index in range(61))
    )
    return FlownBall(
        club="Birch",
        shape=SHAPES["Birch"],
        path=path,
        total=(carry_yd + run_yd) * YARD,
        offline=offline_yd * YARD,
    )


def fairway(svg: str) -> tuple[float, float, float]:
    """Return top, bottom and beginning of the fairway."""
    edge = re.search(r'class="fairway" d="M[\d.]+ ([\d.]+)C.*? ([\d.]+)Z"', svg)
    begins = re.search(r'class="fairway" d="[^"]*?Q([\d.]+) ', svg)
    assert edge is not None
    assert begins is not None
    return float(edge.group(1)) - 0.6, float(edge.group(2)) + 0.6, float(begins.group(1))


def unit_along(svg: str, unit: str = "yd") -> float:
    """Return the width of one unit from the numerals of the rule."""
    words = re.findall(r'x="([\d.]+)" y="133.0"[^>]*>(\d+)( \w+)?</text>', svg)
    places = {int(text): float(x) for x, text, _ in words}
    assert f"0 {unit}" in svg
    return (places[100] - places[0]) / 100.0


def ellipse(svg: str) -> dict[str, float]:
    found = re.findall(r"<ellipse ([^>]*)>", svg)
    assert len(found) == 1
    return {name: float(text) for name, text in re.findall(r'(\w+)="([\d.]+)"', found[0])}


def crowns(svg: str) -> list[float]:
    """Return the heights at which crowns of trees or bunkers begin."""
    return [float(y) for y in re.findall(r'd="M[\d.-]+ ([\d.-]+)Q[^"]*" fill="none"', svg)]


def test_height_and_length_share_one_scale() -> None:
    svg = ball_flight(flown(peak_ft=90.0), Hole())
    peak = re.search(r'y="([\d.]+)"[^>]*>90 ft</text>', svg)
    assert peak is not None
    drawn = 104.0 - (float(peak.group(1)) + 16.0)
    assert drawn == pytest.approx(30.0 * unit_along(svg), abs=0.2)


def test_the_gable_is_as_high_as_it_says() -> None:
    svg = ball_flight(flown(), Hole())
    roof = re.search(r"L([\d.]+) ([\d.]+)L[\d.]+ [\d.]+V104.0", svg)
    assert roof is not None
    height = 104.0 - float(roof.group(2))
    assert height == pytest.approx(GABLE / YARD * unit_along(svg), abs=0.1)
    assert "gable, 36 ft" in svg


def test_the_gable_steps_aside_for_a_long_ball() -> None:
    near, far = ball_flight(flown(), Hole()), ball_flight(flown(carry_yd=236.0), Hole())
    place = re.compile(r'x="([\d.]+)" y="[\d.]+"[^>]*>gable')
    found = [place.search(svg) for svg in (near, far)]
    assert found[0] is not None
    assert found[1] is not None
    assert float(found[0].group(1)) > float(found[1].group(1))


def test_the_fairway_is_to_the_scale_that_is_told() -> None:
    svg = ball_flight(flown(), Hole(fairway=32.0 * YARD))
    top, bottom, _ = fairway(svg)
    assert "scale" not in svg
    assert bottom - top == pytest.approx(32.0 * unit_along(svg), rel=0.005)


@pytest.mark.parametrize(("offline", "share"), [(-28.0, 3 / 4), (44.0, 1 / 2), (-70.0, 1 / 3)])
def test_a_smaller_scale_of_the_width_is_said(offline: float, share: float) -> None:
    svg = ball_flight(flown(offline_yd=offline), Hole())
    top, bottom, _ = fairway(svg)
    assert bottom - top == pytest.approx(share * 32.0 * unit_along(svg), rel=0.005)
    sign = {3 / 4: "¾", 1 / 2: "½", 1 / 3: "⅓"}[share]
    assert f"width at {sign} scale" in svg


def test_left_is_up_and_right_is_down() -> None:
    finishes = []
    for offline in (-12.0, 12.0):
        svg = ball_flight(flown(offline_yd=offline), Hole())
        shape = re.search(r'<g class="arrive"><path d="M[\d.]+,([\d.]+)L', svg)
        assert shape is not None
        finishes.append(float(shape.group(1)) + 11.6)
    top, bottom, _ = fairway(ball_flight(flown(offline_yd=12.0), Hole()))
    assert finishes[0] < 0.5 * (top + bottom) < finishes[1]


def test_the_ball_finishes_at_its_total_and_offline() -> None:
    svg = ball_flight(flown(offline_yd=6.0), Hole())
    x = 46.0 + 234.0 * unit_along(svg)
    top, bottom, _ = fairway(svg)
    y = 0.5 * (top + bottom) + 6.0 * unit_along(svg)
    shape = re.search(r'<g class="arrive"><path d="M([\d.]+),([\d.]+)L', svg)
    assert shape is not None
    assert float(shape.group(1)) == pytest.approx(x, abs=0.2)
    assert float(shape.group(2)) + 11.6 == pytest.approx(y, abs=0.3)


def test_one_shared_outline_is_drawn_dashed_and_to_scale() -> None:
    svg = ball_flight(flown(), Hole(), outline=OUTLINE)
    found = ellipse(svg)
    along = unit_along(svg)
    assert found["rx"] == pytest.approx(TWO_OF_THREE * 7.0 * along, abs=0.1)
    assert found["ry"] == pytest.approx(TWO_OF_THREE * 13.0 * along, abs=0.1)
    assert "stroke-dasharray" in svg
    assert "dashed: two of three balls, any club" in svg
    assert "ellipse" not in ball_flight(flown(), Hole())


def test_earlier_finishes_are_ticks() -> None:
    svg = ball_flight(flown(), Hole(), earlier=EARLIER)
    ticks = re.findall(r"M[\d.]+ [\d.]+v10(?=M|\")", svg)
    assert len(ticks) == len(EARLIER)
    assert "ticks: earlier balls" in svg


@pytest.mark.parametrize("side", [Trouble.LEFT, Trouble.RIGHT])
def test_trees_stand_on_the_side_of_the_trouble_alone(side: Trouble) -> None:
    hole = Hole(trouble=side, trouble_from=19.0 * YARD)
    svg = ball_flight(flown(), hole)
    top, bottom, _ = fairway(svg)
    found = crowns(svg)
    assert len(found) > 10
    if side is Trouble.LEFT:
        assert max(found) < top
    else:
        assert min(found) > bottom


@pytest.mark.parametrize("side", [Trouble.LEFT, Trouble.RIGHT])
def test_trouble_beyond_the_picture_leans_in_at_its_edge(side: Trouble) -> None:
    svg = ball_flight(flown(), Hole(trouble=side, trouble_from=60.0 * YARD))
    found = crowns(svg)
    assert len(found) >= 20
    assert all(130.0 < y < HEIGHT + 12.0 for y in found)


def test_a_hole_without_trouble_has_none_and_sand_is_stippled() -> None:
    assert crowns(ball_flight(flown(), Hole())) == []
    hole = Hole(trouble=Trouble.BOTH, trouble_from=18.0 * YARD, trouble_lie=Lie.SAND)
    assert "h0.01" in ball_flight(flown(), hole)


def test_an_empty_flight_is_a_bare_rule_with_words(
    misplaced: Callable[[str], list[str]], on_screen: Callable[[str], str]
) -> None:
    svg = ball_flight(None, Hole())
    assert "No ball yet." in svg
    assert "arrive" not in svg
    assert unit_along(svg) > 2.0
    assert misplaced(svg) == []
    on_screen(svg)


CASES = [
    (flown(), Hole(trouble=Trouble.BOTH, trouble_from=20.0 * YARD), OUTLINE),
    (flown(262.0, 29.0, 130.0, -61.0), Hole(trouble=Trouble.RIGHT), OUTLINE),
    (flown(20.0, 41.0, 3.0, 6.0), Hole(), None),
    (flown(1.0, 0.0, 0.0, 0.0), Hole(fairway=150.0 * YARD), None),
    (flown(340.0, 30.0, 190.0, 90.0), Hole(fairway=6.0 * YARD), OUTLINE),
    (flown(236.0, 5.0, 99.0, 30.0), Hole(trouble=Trouble.LEFT), None),
]


@pytest.mark.parametrize("metres", [False, True])
@pytest.mark.parametrize(("ball", "hole", "outline"), CASES)
def test_words_stand_apart_whatever_the_ball(
    ball: FlownBall,
    hole: Hole,
    outline: Outline | None,
    metres: bool,
    misplaced: Callable[[str], list[str]],
    on_screen: Callable[[str], str],
) -> None:
    svg = ball_flight(
        ball,
        hole,
        earlier=EARLIER,
        outline=outline,
        hole_name="3rd at Farrow Links",
        metres=metres,
        prefix="last",
    )
    assert misplaced(svg) == []
    assert f'width="{WIDTH:.0f}" height="{HEIGHT:.0f}"' in on_screen(svg)


def test_metres_are_metres() -> None:
    svg = ball_flight(flown(), Hole(fairway=30.0), metres=True)
    assert "Fairway 30 m" in svg
    assert "22 m</text>" in svg
    in_yards = unit_along(ball_flight(flown(), Hole()))
    assert unit_along(svg, "m") * YARD == pytest.approx(in_yards, rel=1e-3)


def test_a_flight_of_the_model_can_be_drawn() -> None:
    launch = Launch(
        ball_speed=150.0 * MILE_PER_HOUR,
        launch=12.0 * DEGREE,
        direction=-1.0 * DEGREE,
        spin=2600.0 * REVOLUTION_PER_MINUTE,
        axis=4.0 * DEGREE,
    )
    path = follow(launch, conditions_at(Home()), 0.1)
    points = tuple((float(x), float(y), float(z)) for x, y, z in path.position)
    ball = FlownBall(
        club="Birch", shape=SHAPES["Birch"], path=points, total=points[-1][0] + 10.0, offline=2.0
    )
    assert ball.carry == pytest.approx(points[-1][0])
    assert ball.peak == pytest.approx(max(y for _, y, _ in points))
    assert "ft</text>" in ball_flight(ball, Hole())


def test_a_flight_that_is_no_flight_is_refused() -> None:
    with pytest.raises(ValueError, match="two points"):
        FlownBall(club="Own", shape=SHAPES["Own"], path=((0.0, 0.0, 0.0),), total=1.0, offline=0.0)
    with pytest.raises(ValueError, match="every one a number"):
        FlownBall(
            club="Own",
            shape=SHAPES["Own"],
            path=((0.0, 0.0, 0.0), (1.0, 0.0, float("nan"))),
            total=1.0,
            offline=0.0,
        )


def test_drawing_a_ball_imports_no_scipy() -> None:
    code = (
        "import sys; from loftwright.report.ball_flight import ball_flight; "
        "from loftwright.domain.home import Hole; ball_flight(None, Hole()); "
        "sys.exit(any(name.split('.')[0] == 'scipy' for name in sys.modules))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_the_twin_says_what_the_picture_shows() -> None:
    told = flight_words(flown(), Hole(), earlier=EARLIER)
    assert told == (
        "The last ball, with Birch: 72 ft high, carry 222 yd and run 12 yd, finished 3 yd right, "
        "on the fairway. The fairway is 32 yd wide. 22 earlier balls marked."
    )
    assert "beside the fairway" in flight_words(flown(offline_yd=-30.0), Hole())
    assert "finished in the middle" in flight_words(flown(offline_yd=0.2), Hole())
    assert flight_words(None, Hole()) == "No ball yet. The fairway is 32 yd wide."
    assert "22 m high" in flight_words(flown(), Hole(), metres=True)

"""Parts in the workshop's words: light, strong, flat, open; what a mend leaves over."""

import pytest

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, REVOLUTION_PER_MINUTE
from loftwright.domain.golfer import Hand
from loftwright.domain.parts_acts import Matter, Part, PartSettled, Settled
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.report.parts_words import (
    FIGURE_WORDS,
    HELD_WORDS,
    SILENT_WORDS,
    SOURCE_WORDS,
    add_words,
    apart_words,
    effect_words,
    face_words,
    figure_words,
    left_words,
    points_words,
    settled_words,
    size_words,
    weight_words,
)
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.workshop.held import Figure, Silent, Source
from loftwright.workshop.left_over import Effect
from loftwright.workshop.mends import head_weight

METRIC = Show(units="metric", decimal="comma")


@pytest.mark.parametrize(
    ("figure", "apart", "said"),
    [
        (Figure.MASS, -3.0 * GRAM, "3.0 g light"),
        (Figure.MASS, 1.25 * GRAM, "1.2 g heavy"),
        (Figure.LOFT, -1.0 * DEGREE, "1.0° strong"),
        (Figure.LOFT, 0.6 * DEGREE, "0.6° weak"),
        (Figure.LIE, -0.5 * DEGREE, "0.5° flat"),
        (Figure.LIE, 0.5 * DEGREE, "0.5° upright"),
        (Figure.FACE, 1.0 * DEGREE, "1.0° open"),
        (Figure.FACE, -1.0 * DEGREE, "1.0° closed"),
        (Figure.FACE, -0.01 * DEGREE, "as the tested one"),
        (Figure.FREQUENCY, -6.0 * CYCLE_PER_MINUTE, "6.0 cpm softer"),
        (Figure.BALANCE, 0.5 * INCH, "0.50 in further from the end"),
    ],
)
def test_a_difference_has_the_trade_s_word(figure: Figure, apart: float, said: str) -> None:
    assert apart_words(figure, apart, TRADE) == said


def test_a_difference_follows_the_shop_s_units() -> None:
    assert apart_words(Figure.BALANCE, -0.5 * INCH, METRIC) == "13 mm nearer to the end"
    assert apart_words(Figure.MASS, -3.0 * GRAM, METRIC) == "3,0 g light"


def test_a_face_is_open_closed_or_square() -> None:
    assert face_words(0.5 * DEGREE, TRADE) == "0.5° open"
    assert face_words(-0.5 * DEGREE, TRADE) == "0.5° closed"
    assert face_words(0.04 * DEGREE, TRADE) == "square"


@pytest.mark.parametrize(
    ("figure", "value", "said"),
    [
        (Figure.MASS, 200.0 * GRAM, "200.0 g"),
        (Figure.LOFT, 10.5 * DEGREE, "10.5°"),
        (Figure.FREQUENCY, 254.0 * CYCLE_PER_MINUTE, "254 cpm"),
        (Figure.LENGTH, 46.0 * INCH, "46.00 in"),
    ],
)
def test_a_figure_carries_its_unit(figure: Figure, value: float, said: str) -> None:
    assert figure_words(figure, value, TRADE) == said


def test_a_doubt_is_written_fine_enough() -> None:
    assert size_words(Figure.LOFT, 0.25 * DEGREE, TRADE) == "0.25°"
    assert size_words(Figure.MASS, 0.1 * GRAM, TRADE) == "0.1 g"
    assert size_words(Figure.BALANCE, 0.002, METRIC) == "2 mm"
    assert size_words(Figure.FREQUENCY, 1.0 * CYCLE_PER_MINUTE, TRADE) == "1.0 cpm"


def test_nothing_to_say_is_left_without_words() -> None:
    assert set(FIGURE_WORDS) == set(Figure)
    assert set(SOURCE_WORDS) == set(Source)
    assert set(SILENT_WORDS) == set(Silent)
    assert set(HELD_WORDS) == set(Convention)


def test_a_light_head_is_told_what_it_does_and_what_mends_it() -> None:
    weight = head_weight(-3.0 * GRAM, 45.25 * INCH)
    assert weight_words(weight, TRADE).endswith("about 1.8 points lower")
    assert add_words(weight, TRADE).startswith("Add 3.0 g to the head")


def test_a_heavy_head_names_grip_shaft_and_length() -> None:
    said = weight_words(head_weight(3.0 * GRAM, 45.25 * INCH), METRIC)
    assert "a grip about 9 g heavier, a shaft about 12 g lighter, or a club about 9 mm" in said


def test_a_swingweight_that_stays_is_said_to_stay() -> None:
    assert points_words(0.02, TRADE) == "as it is, the swingweight stays"


def test_what_is_left_over_names_only_what_can_be_seen() -> None:
    apart = HeadAngles(loft=0.4 * DEGREE, lie=-0.6 * DEGREE, face=0.3 * DEGREE)
    assert left_words(apart, Convention.A, TRADE) == (
        "0.4° more loft, 0.6° flatter and 0.3° more open than tested"
    )
    assert left_words(apart, Convention.C, TRADE) == "0.4° more loft and 0.6° flatter than tested"
    nothing = HeadAngles(loft=0.0, lie=0.0, face=0.0)
    assert left_words(nothing, Convention.A, TRADE) == "as tested"


@pytest.mark.parametrize(
    ("hand", "direction", "side"),
    [
        (Hand.RIGHT, 1.0, "right"),
        (Hand.RIGHT, -1.0, "left"),
        (Hand.LEFT, 1.0, "left"),
        (Hand.LEFT, -1.0, "right"),
    ],
)
def test_an_open_face_starts_the_ball_to_the_golfer_s_own_side(
    hand: Hand, direction: float, side: str
) -> None:
    found = Effect(
        launch=0.3 * DEGREE,
        direction=direction * DEGREE,
        spin=80.0 * REVOLUTION_PER_MINUTE,
        ball_speed=-0.1,
    )
    assert effect_words(found, hand, TRADE) == (
        f"about +0.3° launch, +80 rpm of spin and a start 1.0° further {side}, computed, not hit"
    )


@pytest.mark.parametrize(
    ("act", "said"),
    [
        (PartSettled(part=Part.GRIP, settled=Settled.KEEP), "it stays as it is"),
        (
            PartSettled(part=Part.HEAD, settled=Settled.KEEP, matter=Matter.MASS, why="asked"),
            "its weight stays as it is: asked",
        ),
        (
            PartSettled(part=Part.HEAD, settled=Settled.KEEP, matter=Matter.ANGLES),
            "its angles stay as they are",
        ),
        (
            PartSettled(part=Part.HEAD, settled=Settled.HEAD_WEIGHT, mass=3.0 * GRAM),
            "3.0 g go into the head",
        ),
        (
            PartSettled(part=Part.HEAD, settled=Settled.TURN_SLEEVE, setting="L2"),
            "the sleeve goes to L2",
        ),
        (PartSettled(part=Part.HEAD, settled=Settled.SEND_BACK), "it goes back"),
    ],
)
def test_what_was_settled_is_said(act: PartSettled, said: str) -> None:
    assert settled_words(act, TRADE) == said

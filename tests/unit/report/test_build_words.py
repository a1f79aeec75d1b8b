"""What is said of builds: never what a club is under the Rules, always what was measured."""

import inspect
import re

import pytest

from builds import DRIVER, TOLERANCES
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain import build_sheet, cautions, limits
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.built import Checked, Contradicted, Contradiction
from loftwright.domain.limits import (
    CUBIC_CENTIMETRE,
    PUBLISHED,
    LimitLine,
    Measured,
    NotMeasured,
    PublishedLimit,
)
from loftwright.domain.verdict import Reading, Side
from loftwright.intake.measured_file import CHECKED_KEYS, LIMIT_KEYS
from loftwright.physics.build.solve import Obstacle, Quantity, Reason, Target, solve
from loftwright.physics.build.trades import nearest_trades
from loftwright.report import build_lines, build_records, build_words
from loftwright.report.build_records import CHECKED_UNITS, MEASURED_UNITS
from loftwright.report.build_words import (
    CHECKED_WORDS,
    MEASURED_WORDS,
    NOT_MEASURED_WORDS,
    QUANTITY_WORDS,
    SIDE_WORDS,
    contradiction_words,
    limit_words,
    obstacle_words,
    trade_words,
)

RULING = re.compile(
    r"\b(?:conform|complian|legal(?!\s+advice)|approved|permitted|allowed to)", re.IGNORECASE
)


def test_no_word_rules_on_a_club() -> None:
    """`No legal advice` is said; what a club is under the Rules is not."""
    for module in (build_words, build_lines, build_records, build_sheet, limits, cautions):
        assert RULING.findall(inspect.getsource(module)) == [], module.__name__


@pytest.mark.parametrize(
    ("side", "words"),
    [
        (Side.BELOW, "below the limit as measured"),
        (Side.ABOVE, "above the limit as measured"),
        (Side.TOO_CLOSE, "too close to call, ask the governing body"),
    ],
)
def test_a_length_is_told_with_its_method_doubt_and_limit(side: Side, words: str) -> None:
    line = LimitLine(
        limit=PUBLISHED[0],
        reading=Reading(value=45.5 * INCH, half_width=0.05 * INCH),
        side=side,
    )
    said = limit_words(line, LengthMethod.PLANE)
    assert said == (
        "Length (by the 60-degree plane): 45.50 ± 0.05 in. Published limit 48 in: " + words + "."
    )


def test_a_volume_is_told_in_its_unit_and_as_rough() -> None:
    limit = next(one for one in PUBLISHED if one.measured is Measured.VOLUME)
    reading = Reading(value=455.0 * CUBIC_CENTIMETRE, half_width=8.0 * CUBIC_CENTIMETRE)
    said = limit_words(
        LimitLine(limit=limit, reading=reading, side=Side.BELOW), LengthMethod.PLANE
    )
    assert "455 ± 8 cm³, roughly. Published limit 470 cm³" in said


def test_a_local_rule_and_a_lower_limit_are_called_so() -> None:
    reading = Reading(value=46.1 * INCH, half_width=0.05 * INCH)

    def said(limit: PublishedLimit) -> str:
        line = LimitLine(limit=limit, reading=reading, side=Side.ABOVE)
        return limit_words(line, LengthMethod.PLANE)

    assert "Limit of the competition's local rule 46 in" in said(PUBLISHED[1])
    assert "Published lower limit 18 in" in said(PUBLISHED[2])


def test_every_value_has_its_words() -> None:
    assert list(CHECKED_WORDS) == list(Checked)
    assert list(MEASURED_WORDS) == list(Measured)
    assert list(NOT_MEASURED_WORDS) == list(NotMeasured)
    assert list(QUANTITY_WORDS) == list(Quantity)
    assert list(SIDE_WORDS) == list(Side)


def test_records_say_a_quantity_by_the_key_it_is_read_by() -> None:
    assert {(checked, unit): key for checked, (key, unit) in CHECKED_UNITS.items()} == {
        pair: key for key, pair in CHECKED_KEYS.items()
    }
    assert {(measured, unit): key for measured, (key, unit) in MEASURED_UNITS.items()} == {
        pair: key for key, pair in LIMIT_KEYS.items()
    }


@pytest.mark.parametrize(
    ("reason", "words"),
    [
        (Reason(obstacle=Obstacle.SHAFT_SHORT, amount=INCH / 2.0), "too short by 0.50 in"),
        (Reason(obstacle=Obstacle.HEAD_HEAVY, amount=6.5366 * GRAM), "6.5 g lighter"),
        (Reason(obstacle=Obstacle.HEAD_FULL, amount=2.0 * GRAM), "2.0 g more than it can"),
        (Reason(obstacle=Obstacle.BUTT_FULL, amount=1.0 * GRAM), "1.0 g more than it can"),
        (
            Reason(obstacle=Obstacle.BUTT_HEAVY, amount=7.4 * GRAM, grip=8.0 * GRAM),
            "7.4 g lighter where the counterweight sits, or the grip by 8.0 g",
        ),
    ],
)
def test_an_obstacle_says_which_part_and_by_how_much(reason: Reason, words: str) -> None:
    assert words in obstacle_words(reason)


def test_a_trade_says_what_it_gives_up() -> None:
    target = Target(length=45.0 * INCH, swingweight=38.0, mass=318.0 * GRAM)
    said = [trade_words(one) for one in nearest_trades(DRIVER, solve(DRIVER, target), TOLERANCES)]
    assert said == [
        "swingweight as asked",
        "mass as asked",
        "nearest to all targets",
        "all targets, at 46.625 in",
    ]


@pytest.mark.parametrize(
    ("what", "read", "expected", "allowed", "words"),
    [
        (Contradiction.SCALE, 35.0, 32.2, 0.7, "reads D5.0, weight and balance point give D2.2"),
        (Contradiction.PARTS, 0.320, 0.3156, 0.002, "weighs 320.0 g, its parts come to 315.6 g"),
        (
            Contradiction.POINT_MASS,
            2200.0 * KILOGRAM_SQUARE_CENTIMETRE,
            2288.0 * KILOGRAM_SQUARE_CENTIMETRE,
            0.001,
            "2200 kg cm² is less",
        ),
    ],
)
def test_a_contradiction_says_both_readings_and_to_measure_again(
    what: Contradiction, read: float, expected: float, allowed: float, words: str
) -> None:
    said = contradiction_words(
        Contradicted(what=what, read=read, expected=expected, allowed=allowed)
    )
    assert words in said
    assert "again" in said

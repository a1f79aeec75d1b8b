"""Evidence, choice and report of fittings whose device gives little."""

import re
from collections.abc import Callable

import pytest

from bays import Bay, a_bay
from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.domain.numbers import ShotNumbers
from loftwright.web.pages import bay as bay_page
from loftwright.web.pages import choice, evidence, report
from loftwright.web.views.nothing_yet import NO_COLUMNS
from studios import app_of
from web_client import asking

STEPS = ("bay", "evidence", "choice", "report")
BUYS = "launch and spin, one more column each, would give the total at home"
NEVER = (
    "total against",
    "in total",
    "strokes are better",
    "standard hole",
    "they show where each starts",
    "height ",
    "loft added",
    "more loft",
    "less spin",
)
"""Words of an advice on launch, loft and spin, of a flight at home and of a score."""
GAIN = {"Own": 0.0, "Ash": 9.0, "Birch": 1.0, "Cedar": -2.0}


def carry_only(bay: Bay, club: str) -> ShotNumbers:
    carry = 214.0 + GAIN[club] + bay.rng.normal(0.0, 3.0)
    speed = 138.0 + 0.4 * GAIN[club] + bay.rng.normal(0.0, 1.0)
    return ShotNumbers(ball_speed=speed * MILE_PER_HOUR, carry=carry * YARD)


def played(numbers: Callable[[Bay, str], ShotNumbers | None]) -> Bay:
    bay = a_bay()
    for _ in range(2):
        for club in GAIN:
            bay.hand(club)
            for _ in range(4):
                bay.ball(numbers(bay, club))
    return bay


def pages_of(bay: Bay) -> dict[str, str]:
    pages = (bay_page.router, choice.router, evidence.router, report.router)
    with asking(app_of(bay.studio, *pages)) as client:
        answers = {step: client.get(f"/fittings/{bay.fitting}/{step}") for step in STEPS}
    assert {one.status_code for one in answers.values()} == {200}
    return {step: one.text for step, one in answers.items()}


def words_of(text: str) -> str:
    """Return what stands on a page, without its drawings."""
    without = re.sub(r"<svg.*?</svg>|<head>.*?</head>", " ", text, flags=re.DOTALL)
    return " ".join(re.sub(r"<[^>]+>", " ", without).split())


@pytest.fixture(scope="module")
def carried() -> dict[str, str]:
    return pages_of(played(carry_only))


@pytest.fixture(scope="module")
def ball_only() -> dict[str, str]:
    return pages_of(played(lambda _bay, _club: None))


def test_speed_and_carry_alone_are_compared_as_the_device_shows_them(
    carried: dict[str, str],
) -> None:
    text = carried["evidence"]
    assert "Carry as this device shows it" in text
    assert "nothing is taken apart" in text
    assert "The parts as a table" not in text
    assert "Strikes of" not in text


def test_speed_and_carry_stand_with_their_ranges_and_no_other_figure_beside_them(
    carried: dict[str, str],
) -> None:
    table = carried["evidence"].split("<tbody>", maxsplit=1)[1].split("</tbody>")[0]
    heads = re.findall(r"<th[^>]*>([^<]+)</th>", carried["evidence"].split("</thead>")[0])
    assert heads == ["Club", "Balls", "Carry", "Ball speed", "Rests on"]
    rows = table.split("</tr>")[:4]
    figure = r"[+−]\d+\.\d {}<span class=\"r\">[+−]\d+\.\d to [+−]\d+\.\d</span>"
    for quantity in ("yd", "mph"):
        told = [len(re.findall(figure.format(quantity), row)) for row in rows]
        assert sorted(told) == [0, 1, 1, 1], quantity
    assert "Plain average" not in carried["evidence"]


@pytest.mark.parametrize("step", STEPS)
def test_no_page_of_speed_and_carry_advises_on_launch_loft_or_spin_or_flies_a_ball_at_home(
    carried: dict[str, str], step: str
) -> None:
    words = words_of(carried[step]).lower()
    assert [one for one in NEVER if one in words] == []


@pytest.mark.parametrize("step", ["bay", "evidence", "report"])
def test_what_one_more_column_would_buy_stands_on_the_page(
    carried: dict[str, str], step: str
) -> None:
    assert BUYS in words_of(carried[step])


def test_a_choice_by_the_devices_carry_says_so_and_shows_no_score(
    carried: dict[str, str],
) -> None:
    text = carried["choice"]
    assert "The best by carry on the device" in text
    assert "carry on the device +" in text
    assert "too few balls to be compared" not in text
    assert "nothing is flown at home" in text
    assert "The best by score" not in text


def test_a_report_of_carry_alone_can_be_printed(carried: dict[str, str]) -> None:
    assert "Not closed yet: it prints what 32 balls say so far." in carried["report"]


def test_ball_data_alone_has_one_figure_and_says_why(ball_only: dict[str, str]) -> None:
    text = ball_only["evidence"]
    assert "neither delivery nor marks are measured" in text
    assert "As you swing it, against Own, with ranges" in text
    assert "From the same swing, against" not in text
    assert "Strikes of" not in text


def test_ball_data_alone_still_ranks_whole_clubs(ball_only: dict[str, str]) -> None:
    text = ball_only["choice"]
    assert "Fairways in 14" in text
    assert "carry on the device" not in text


def test_balls_without_launch_spin_or_carry_compare_nothing_and_every_page_says_so() -> None:
    bay = a_bay()
    for club in ("Own", "Ash"):
        bay.hand(club)
        for _ in range(2):
            bay.ball(ShotNumbers(ball_speed=65.0, spin=260.0))
    with asking(bay.app()) as client:
        for step in ("bay", "evidence", "choice", "report"):
            answer = client.get(f"/fittings/{bay.fitting}/{step}")
            assert answer.status_code == 200, step
            if step != "bay":
                assert NO_COLUMNS in answer.text

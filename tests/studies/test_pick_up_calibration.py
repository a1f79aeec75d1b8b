"""Built clubs hit against tested ones, in simulation; seeds 1 to n.

Between clubs that do not differ *not* is said 5 times in 100 at most, also where somebody looks
after every ball; so between samples within tolerance. These bounds were given beforehand; each is
widened by two standard errors of so few. That *consistent* is rarer the further a club is from the
tested one was expected, not bounded.
"""

from functools import cache
from typing import Any

import pytest

from loftwright.domain.check_acts import Against
from loftwright.training.pick_up_study import ability_of, answer, pick_up, to_record
from loftwright.training.pick_up_tables import SAME, ever_not, share
from study_tables import Say

PICK_UPS = 200
LOOKED_AT = 80
ROTATION = "6 tested, 8 built"
FIRST_DAY = "tested on the first day, 6 own, 8 built"
MOST_FALSE = 5.0

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("pick-ups")]


@cache
def records(made: str, day: str = ROTATION) -> list[dict[str, Any]]:
    return [
        to_record((answer(made, day, ability_of(number), number),))
        for number in range(1, PICK_UPS + 1)
    ]


@pytest.mark.parametrize("day", [ROTATION, FIRST_DAY])
@pytest.mark.parametrize("made", [SAME, "another sample, within tolerance"])
def test_clubs_built_right_are_hardly_ever_called_different(made: str, day: str, say: Say) -> None:
    found = share(records(made, day), Against.NOT)
    say(f"pick-up, {day}, {made}: not in {found} %")
    assert found.mean <= MOST_FALSE + 2.0 * found.error


def test_looking_after_every_ball_does_not_make_clubs_differ(say: Say) -> None:
    found = ever_not(
        [
            to_record(pick_up(SAME, ROTATION, ability_of(number), number))
            for number in range(1, LOOKED_AT + 1)
        ]
    )
    say(f"pick-up, looked at after every ball: not at some ball in {found} %")
    assert found.mean <= MOST_FALSE + 2.0 * found.error


def test_three_degrees_are_found_more_often_than_one(say: Say) -> None:
    found = [
        share(records(made), Against.NOT) for made in (SAME, "1 degree strong", "3 degrees strong")
    ]
    say(f"pick-up, 0, 1 and 3 degrees strong: not in {', '.join(str(one) for one in found)} %")
    assert found[0].mean <= found[1].mean < found[2].mean


def test_consistent_is_said_less_of_a_club_that_is_not(say: Say) -> None:
    same, strange, open_face = (
        share(records(made), Against.CONSISTENT)
        for made in (SAME, "a strange shaft", "face 2 degrees open")
    )
    say(f"pick-up, consistent: same {same}, strange {strange}, open {open_face} %")
    assert strange.mean + 2.0 * strange.error < same.mean
    assert open_face.mean + 2.0 * open_face.error < same.mean

"""A ball in the golfer's own signs, with what its device really measured."""

from dataclasses import replace

import pytest

from bays import MEASURED, Bay, a_bay
from loftwright.constants import MILLIMETRE
from loftwright.domain.acts import Marked, SetMarked
from loftwright.domain.device import Origin
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Hand
from loftwright.services.own_ball import OwnBall, own_ball
from struck import USUAL, struck

MARK = Mark(toe=6.0 * MILLIMETRE, high=-2.0 * MILLIMETRE)


def one_ball(bay: Bay, **how: object) -> OwnBall:
    if not bay.now.balls:
        bay.ball(struck(USUAL, **how))  # type: ignore[arg-type]
    return own_ball(bay.now.balls[-1], bay.now, bay.golfer.hand)


def test_measured_columns_and_the_fitters_mark_go_in() -> None:
    bay = a_bay()
    bay.ball(struck(USUAL))
    bay.do(Marked(mark=MARK))
    found = one_ball(bay)
    assert found.reading is not None
    assert found.reading.attack == pytest.approx(USUAL[1])
    assert found.reading.mark == (MARK.toe, MARK.high)
    assert (found.mark_error, found.mark_by_device) == (MARK.error, False)
    assert (found.missing, found.calculated, found.left_out) == ((), (), ())


def test_a_calculated_or_unknown_column_is_no_measurement() -> None:
    origins = MEASURED | {"face": Origin.CALCULATED, "path": Origin.UNKNOWN}
    found = one_ball(a_bay(origins=origins))
    assert found.reading is not None
    assert (found.reading.face, found.reading.path) == (None, None)
    assert found.left_out == ("path", "face")


def test_a_missing_or_calculated_launch_number_stands_in_the_way() -> None:
    lacking = one_ball(a_bay(), without=("spin", "axis"))
    assert (lacking.reading, lacking.missing) == (None, ("spin", "axis"))
    formula = one_ball(a_bay(origins=MEASURED | {"spin": Origin.CALCULATED}))
    assert (formula.reading, formula.calculated) == (None, ("spin",))


def test_a_left_handers_ball_is_turned_into_the_golfers_own_signs() -> None:
    right, left = one_ball(a_bay()), one_ball(a_bay(hand=Hand.LEFT), left_handed=True)
    assert right.reading == left.reading


def test_the_devices_own_strike_is_taken_where_nobody_marked() -> None:
    origins = MEASURED | {"strike toe": Origin.MEASURED, "strike high": Origin.MEASURED}
    bay = a_bay(origins=origins)
    bay.ball(replace(struck(USUAL), strike_toe=0.003, strike_high=0.001))
    found = one_ball(bay)
    assert found.reading is not None
    assert found.reading.mark == (0.003, 0.001)
    assert found.mark_by_device
    bay = a_bay()
    bay.ball(replace(struck(USUAL), strike_toe=0.003, strike_high=0.001))
    unsaid = one_ball(bay)
    assert unsaid.reading is not None
    assert unsaid.reading.mark is None


def test_a_mark_of_a_set_is_no_balls_own() -> None:
    bay = a_bay()
    for _ in range(3):
        bay.ball(struck(USUAL))
    balls = tuple(one.sequence for one in bay.now.balls)
    bay.do(SetMarked(balls=balls, marks=(MARK, MARK, MARK)))
    assert bay.now.balls[-1].mark_set is not None
    found = one_ball(bay)
    assert found.reading is not None
    assert found.reading.mark is None

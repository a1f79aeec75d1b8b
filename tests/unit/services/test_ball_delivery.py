"""What one ball of a fitting says of the swing, and when it says nothing."""

from dataclasses import replace

import numpy as np
import pytest

from bays import MEASURED, Bay, a_bay
from loftwright.constants import DEGREE, MILLIMETRE
from loftwright.domain.acts import Marked, NotRead, OddBall, SetMarked, Undone
from loftwright.domain.device import Origin
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Hand
from loftwright.errors import NotFoundError
from loftwright.physics.delivery_belief import DELIVERY
from loftwright.services.ball_delivery import BallDelivery, Kind, Refusal, delivery_of
from struck import USUAL, struck, swings

BALL_ONLY = dict.fromkeys(("ball speed", "launch", "direction", "spin", "axis"), Origin.MEASURED)
MARK = Mark(toe=6.0 * MILLIMETRE, high=-2.0 * MILLIMETRE)


def asked(bay: Bay, ball: int | None = None) -> BallDelivery:
    return delivery_of(bay.studio, bay.fitting, ball)


def test_measured_and_told_figures_stand_apart() -> None:
    bay = a_bay(origins=MEASURED | {"path": Origin.UNKNOWN, "face": Origin.UNKNOWN})
    bay.ball(struck(USUAL))
    bay.do(Marked(mark=MARK))
    found = asked(bay)
    kinds = {one.name: one.kind for one in found.told}
    assert kinds == {
        "head_speed": Kind.MEASURED,
        "attack": Kind.MEASURED,
        "path": Kind.BALL_AND_MARK,
        "face": Kind.BALL_AND_MARK,
        "face_to_path": Kind.BALL_AND_MARK,
        "loft": Kind.BALL_AND_MARK,
        "toe": Kind.MARK,
        "high": Kind.MARK,
    }
    assert found.left_out == ("path", "face")
    toe = found.of("toe")
    assert toe is not None
    assert toe.value == MARK.toe


@pytest.mark.parametrize("seed", range(1, 6))
def test_a_known_swing_lies_in_its_ranges(seed: int) -> None:
    """Self-consistent: struck by the reference head, read without error."""
    swing = swings(1, seed)[0]
    bay = a_bay(origins=BALL_ONLY)
    bay.ball(struck(swing))
    bay.do(Marked(mark=Mark(toe=float(swing[5]), high=float(swing[6]))))
    found = asked(bay)
    for name, true in zip(DELIVERY, swing, strict=True):
        told = found.of(name)
        assert told is not None
        assert told.low < true < told.high


def test_without_a_mark_no_strike_is_named() -> None:
    bay = a_bay(origins=BALL_ONLY)
    bay.ball(struck(USUAL))
    found = asked(bay)
    assert found.refusals == (Refusal.NO_STRIKE,)
    assert found.of("toe") is found.of("high") is None
    path = found.of("path")
    assert path is not None
    assert path.kind is Kind.BALL
    assert path.high - path.low > 4.0 * DEGREE


def test_attack_and_path_measured_tell_the_strike() -> None:
    bay = a_bay()
    bay.ball(struck(USUAL))
    toe = asked(bay).of("toe")
    assert toe is not None
    assert toe.kind is Kind.BALL_AND_PATH
    assert toe.low < USUAL[5] < toe.high


def test_a_mark_of_a_set_is_refused_by_its_own_reason() -> None:
    bay = a_bay(origins=BALL_ONLY)
    for swing in swings(3):
        bay.ball(struck(swing))
    balls = tuple(one.sequence for one in bay.now.balls)
    bay.do(SetMarked(balls=balls, marks=(MARK, MARK, MARK)))
    assert asked(bay).refusals == (Refusal.SET,)


def test_refusals_name_their_reason() -> None:
    bay = a_bay()
    assert asked(bay).refusals == (Refusal.NO_BALL,)
    bay.ball(struck(USUAL, without=("spin",)))
    assert asked(bay).refusals == (Refusal.LACKING,)
    assert asked(bay).lacking == ("spin",)
    bay.do(NotRead())
    unread = bay.now.balls[-1].sequence
    assert asked(bay, unread).refusals == (Refusal.NOT_READ,)
    formula = a_bay(origins=MEASURED | {"spin": Origin.CALCULATED})
    formula.ball(struck(USUAL))
    assert asked(formula).refusals == (Refusal.CALCULATED,)


def test_an_unknown_ball_is_not_found() -> None:
    with pytest.raises(NotFoundError, match="no ball entered the record under 999"):
        asked(a_bay(), 999)


def test_a_left_hander_gets_the_same_words() -> None:
    found = []
    for hand in Hand:
        bay = a_bay(hand=hand, origins=BALL_ONLY)
        bay.ball(struck(USUAL, left_handed=hand is Hand.LEFT))
        bay.do(Marked(mark=MARK))
        found.append(asked(bay).told)
    assert found[0] == found[1]


def test_a_mended_fitting_says_the_same_as_a_clean_one() -> None:
    clean, mended = a_bay(), a_bay()
    for swing in swings(3):
        for bay in (clean, mended):
            bay.ball(struck(swing))
    mended.do(OddBall(ball=mended.now.balls[0].sequence))
    mended.do(Marked(mark=Mark(toe=0.02, high=0.01)))
    for bay in (clean, mended):
        if bay is mended:
            act = bay.studio.record(bay.fitting)[-1].sequence
            bay.do(Undone(act=act))
        bay.do(Marked(mark=MARK))
    assert asked(clean).told == asked(mended).told


def test_numbers_that_hardly_go_together_are_said() -> None:
    bay = a_bay(origins=BALL_ONLY)
    swing = np.array(USUAL)
    numbers = struck(swing)
    bay.ball(replace(numbers, spin=1900.0))
    assert asked(bay).odd_numbers

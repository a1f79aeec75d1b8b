"""A delivery column that contradicts the balls is doubted in the bay, mended as clean."""

from pathlib import Path

import pytest

from bays import Bay, a_bay
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.acts import Marked, NotOurs, Undone
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Hand
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.read import read_fitting
from loftwright.web.views.bay_rest import doubts
from struck import struck, swings

TURNED = 4.0 * DEGREE


def played(*, off: float, hand: Hand = Hand.RIGHT, ghost: bool = False) -> Bay:
    """Return a bay with 24 marked balls of two clubs, with or without a neighbour's among them."""
    bay = a_bay(hand=hand)
    left = hand is Hand.LEFT
    for place, swing in enumerate(swings(24)):
        if place == 12:
            bay.hand("Ash")
        bay.ball(struck(swing, left_handed=left, off=off))
        bay.do(Marked(mark=Mark(toe=float(swing[5]), high=float(swing[6]))))
        if ghost and place == 5:
            bay.ball(struck(1.1 * swing, left_handed=left))
            bay.do(NotOurs(ball=bay.now.balls[-1].sequence))
    return bay


def stands(bay: Bay) -> BayNow:
    return bay_now(bay.studio, Desk(), bay.fitting)


def said(bay: Bay) -> list[str]:
    return [one.say for one in stands(bay).evidence.alarms if one.kind == "delivery_column"]


def test_a_turned_device_is_doubted_and_a_right_one_is_not() -> None:
    assert said(played(off=0.0)) == []
    bay = played(off=TURNED)
    (words,) = said(bay)
    assert words.startswith("Face angle reads ")
    (doubt,) = [one for one in doubts(stands(bay)) if one.say == words]
    assert doubt.taps == ()


def test_a_left_handers_device_is_doubted_to_the_other_side() -> None:
    (right,), (left,) = (said(played(off=TURNED, hand=hand)) for hand in Hand)
    assert left == right.replace("further right", "further left")


def test_a_mended_fitting_is_doubted_as_the_clean_one_to_the_last_digit() -> None:
    clean, mended = played(off=TURNED), played(off=TURNED, ghost=True)
    mended.do(NotOurs(ball=mended.now.balls[0].sequence))
    mended.do(Undone(act=mended.studio.record(mended.fitting)[-1].sequence))
    one, other = (stands(bay).evidence.alarms for bay in (clean, mended))
    assert one == other
    assert said(clean)


@pytest.mark.parametrize("off", [0.0, TURNED])
def test_a_file_that_is_read_says_it_too(off: float, tmp_path: Path) -> None:
    rows = ["Club,Ball speed mph,Launch deg,Direction deg,Spin rpm,Axis deg,Head speed mph,"]
    rows[0] += "Attack deg,Path deg,Face deg,Strike toe mm,Strike high mm"
    for place, swing in enumerate(swings(30)):
        ball = struck(swing, off=off)
        told = [
            (ball.ball_speed or 0.0) / MILE_PER_HOUR,
            (ball.launch or 0.0) / DEGREE,
            (ball.direction or 0.0) / DEGREE,
            (ball.spin or 0.0) / REVOLUTION_PER_MINUTE,
            (ball.axis or 0.0) / DEGREE,
            (ball.head_speed or 0.0) / MILE_PER_HOUR,
            (ball.attack or 0.0) / DEGREE,
            (ball.path or 0.0) / DEGREE,
            (ball.face or 0.0) / DEGREE,
            1000.0 * swing[5],
            1000.0 * swing[6],
        ]
        club = ("Own", "Ash")[place % 2]
        rows.append(f"{club}," + ",".join(f"{number:.3f}" for number in told))
    path = tmp_path / "shots.csv"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    reading = read_fitting(path, own="Own")
    found = [one for one in reading.decision.warnings if one.startswith("Face angle reads")]
    assert len(found) == (off > 0.0)

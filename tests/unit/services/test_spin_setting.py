"""The spin setting of a ball and a face, learned from the shop's own marked shots."""

from dataclasses import replace

import pytest

from bays import MEASURED, STRIP, Bay, a_bay
from loftwright.domain.acts import (
    Closed,
    HandedOver,
    Marked,
    OddBall,
    SetMarked,
    StripChanged,
    Undone,
)
from loftwright.domain.device import Origin
from loftwright.domain.fitting import Mark, Strip
from loftwright.domain.golfer import Consents, Hand
from loftwright.errors import ConflictError
from loftwright.physics.impact_law import ImpactLaw
from loftwright.services.ball_delivery import delivery_of
from loftwright.services.erasing import erase_everywhere
from loftwright.services.spin_setting import (
    USUAL,
    Learned,
    keep_spin,
    learn_spin,
    read_spin,
)
from struck import struck, swings

LIVELY = ImpactLaw(spin_factor=0.97)
RANGE = Strip(ball="range ball", surface="mat", place="indoors", treatment="none")


def agree(bay: Bay) -> None:
    """Let the golfer agree that the shop learns."""
    kept = bay.studio.store.golfer(bay.golfer.id)
    agreed = replace(kept.value, consents=Consents(shop_record=True))
    bay.studio.store.change_golfer(agreed, version=kept.version)


def hit(bay: Bay, count: int, *, seed: int = 1, marked: bool = True, lefty: bool = False) -> None:
    for swing in swings(count, seed):
        bay.ball(struck(swing, law=LIVELY, left_handed=lefty))
        if marked:
            bay.do(Marked(mark=Mark(toe=float(swing[5]), high=float(swing[6]))))


def taught(count: int = 12, **how: object) -> Bay:
    bay = a_bay(**how)  # type: ignore[arg-type]
    agree(bay)
    hit(bay, count, lefty=bay.golfer.hand is Hand.LEFT)
    return bay


def test_marked_shots_with_measured_delivery_teach_the_ball_and_face() -> None:
    """Self-consistent: struck with a spin factor of 0.97, where 0.87 is assumed."""
    found = learn_spin(taught().studio)
    (one,) = found.settings
    assert (one.ball, one.face) == ("premium, new", "spray")
    assert (one.shots, one.visits, one.invented) == (12, 1, False)
    assert USUAL + 0.02 < one.spin < 0.97
    assert 0.04 < one.doubt < 0.08
    assert abs(one.together) < 1.0
    assert found.left.too_few == 0


def test_nothing_is_learned_of_a_golfer_who_did_not_agree() -> None:
    bay = a_bay()
    hit(bay, 6)
    found = learn_spin(bay.studio)
    assert found.settings == ()
    assert found.left.not_agreed == 6


def test_every_ball_that_taught_nothing_is_counted_by_its_reason() -> None:
    bay = taught(6)
    hit(bay, 2, marked=False)
    bay.do(StripChanged(strip=replace(STRIP, ball="")))
    hit(bay, 3)
    bay.do(StripChanged(strip=RANGE))
    hit(bay, 4)
    found = learn_spin(bay.studio)
    assert [one.shots for one in found.settings] == [6]
    assert (found.left.no_mark, found.left.no_ball, found.left.too_few) == (2, 3, 4)
    origins = MEASURED | {"attack": Origin.UNKNOWN}
    assert learn_spin(taught(6, origins=origins).studio).left.no_delivery == 6


def test_a_set_of_unknown_order_teaches_nothing() -> None:
    bay = a_bay()
    agree(bay)
    hit(bay, 6, marked=False)
    marks = tuple(Mark(toe=0.001 * place, high=0.0) for place in range(3))
    balls = tuple(one.sequence for one in bay.now.balls)
    bay.do(SetMarked(balls=balls[:3], marks=marks), SetMarked(balls=balls[3:], marks=marks))
    assert learn_spin(bay.studio).settings == ()


def test_balls_and_faces_are_kept_apart_whatever_their_case() -> None:
    bay = taught(6)
    bay.do(StripChanged(strip=replace(STRIP, ball="Premium,  New")))
    bay.do(HandedOver(club="Ash"))
    hit(bay, 6, seed=2)
    bay.do(StripChanged(strip=replace(STRIP, treatment="none")))
    hit(bay, 5, seed=3)
    found = learn_spin(bay.studio)
    assert sorted((one.face, one.shots) for one in found.settings) == [("none", 5), ("spray", 12)]


def test_a_left_hander_teaches_the_same() -> None:
    right, left = (learn_spin(taught(hand=hand).studio).settings[0] for hand in Hand)
    assert left == right


def test_it_is_kept_and_read_as_it_was_learned() -> None:
    bay = taught()
    learned = learn_spin(bay.studio)
    assert read_spin(bay.studio) == Learned()
    version = keep_spin(bay.studio, learned, version=0)
    assert read_spin(bay.studio) == replace(learned, version=version)
    with pytest.raises(ConflictError):
        keep_spin(bay.studio, learned, version=0)


def test_what_an_erased_golfer_taught_is_learned_again_without() -> None:
    bay = taught()
    keep_spin(bay.studio, learn_spin(bay.studio), version=0)
    assert read_spin(bay.studio).settings
    bay.do(Closed())
    erase_everywhere(bay.studio, bay.golfer.id)
    assert read_spin(bay.studio).settings == ()


def test_the_inverse_uses_what_was_kept_for_this_ball_and_face_alone() -> None:
    bay = taught()
    before = delivery_of(bay.studio, bay.fitting)
    keep_spin(bay.studio, learn_spin(bay.studio), version=0)
    after = delivery_of(bay.studio, bay.fitting)
    assert before.spin is None
    assert after.spin is not None
    assert after.spin.shots == 12
    loft, was = after.of("loft"), before.of("loft")
    assert loft is not None
    assert was is not None
    assert loft.value != was.value
    assert loft.high - loft.low < was.high - was.low
    bay.do(StripChanged(strip=RANGE))
    hit(bay, 1)
    assert delivery_of(bay.studio, bay.fitting).spin is None


def test_a_mended_fitting_teaches_what_a_clean_one_does() -> None:
    clean, mended = taught(8), taught(8)
    last = mended.now.balls[-1]
    assert last.mark is not None

    mended.do(OddBall(ball=last.sequence))
    assert learn_spin(mended.studio).settings[0].shots == 7
    mended.do(Undone(act=mended.studio.record(mended.fitting)[-1].sequence))
    assert learn_spin(mended.studio) == learn_spin(clean.studio)

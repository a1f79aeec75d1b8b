"""A club with its sleeve found otherwise than planned is a set-up of its own."""

from math import degrees

from loftwright.bay.setups import angles_of, set_up_of, set_ups
from loftwright.domain.acts import HandedOver, RunSet, SettingSeen
from loftwright.physics.sleeve import Convention
from records import Record, card


def test_a_ball_is_labelled_by_its_club_and_by_a_setting_that_is_not_the_planned_one() -> None:
    record = Record().open("Own", "Ash")
    record.ball()
    record.add(HandedOver(club="Ash"))
    record.add(SettingSeen(setting="one weak"))
    record.ball()
    labels = [set_up_of(one, record.now) for one in record.now.balls]
    assert labels == ["Own", "Ash, one weak"]


def test_the_planned_set_up_comes_first_and_one_never_hit_is_left_out() -> None:
    record = Record().open("Own", "Ash")
    run = record.balls(2)
    record.add(RunSet(first=run[0], last=run[1], setting="one weak"))
    assert list(set_ups(record.now, Convention.C)) == ["Own", "Own, one weak", "Ash"]


def test_a_step_weak_at_ten_and_a_half_adds_the_loft_of_the_squared_face() -> None:
    """1.5 deg of bore leaning to the target, 10.5 deg of loft, lie 58: 12.27 deg held square."""
    plain = angles_of(card(), "middle", Convention.C)
    weak = angles_of(card(), "one weak", Convention.C)
    assert round(degrees(weak.loft - plain.loft), 2) == 1.77
    assert round(degrees(weak.loft), 3) == 12.270


def test_a_setting_that_the_sleeve_does_not_have_turns_nothing() -> None:
    assert angles_of(card(), "unheard of", Convention.A) == angles_of(
        card(), "middle", Convention.A
    )

"""A fitting becomes the table that is compared: what counts, under which name, and why."""

import numpy as np
import pytest

from bays import MEASURED, Bay, a_bay, drive
from loftwright.bay.now import FittingNow
from loftwright.bay.setups import set_ups
from loftwright.constants import DEGREE, MILLIMETRE
from loftwright.domain.acts import (
    ClubDropped,
    HandedOver,
    Marked,
    NotOurs,
    NotRead,
    OddBall,
    RunSet,
    SetMarked,
    SettingSeen,
    Vetoed,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard, Mark
from loftwright.domain.golfer import Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.physics.sleeve import Convention
from loftwright.services.fitting_table import FittingTable, fitting_table


def table_of(now: FittingNow, hand: Hand = Hand.RIGHT) -> FittingTable:
    return fitting_table(now, hand, Convention.A)


def mark(toe_mm: float, high_mm: float, error_mm: float = 1.75) -> Mark:
    return Mark(toe=toe_mm * MILLIMETRE, high=high_mm * MILLIMETRE, error=error_mm * MILLIMETRE)


def origin(found: FittingTable, means: str) -> Origin:
    return next(one.origin for one in found.table.columns if one.means == means)


@pytest.fixture
def bay() -> Bay:
    return a_bay()


def test_an_empty_fitting_has_nothing_to_compare(bay: Bay) -> None:
    found = table_of(bay.now)
    assert (found.balls, found.traits, found.table.read, found.table.shots) == (None, (), 0, ())


def test_a_row_is_a_balls_number_and_its_order_counts_every_swing(bay: Bay) -> None:
    bay.ball()
    bay.do(NotRead())
    ghost = bay.ball()
    bay.do(NotOurs(ball=ghost.sequence))
    bay.hand("Ash")
    bay.ball()
    found = table_of(bay.now)
    assert [(one.row, one.order, one.club) for one in found.table.shots] == [
        (1, 6, "Own"),
        (3, 8, "Ash"),
    ]
    assert [(one.row, one.why) for one in found.table.refused] == [(2, "hit, not read")]
    assert found.table.read == 3
    assert found.balls is not None
    assert found.balls.row.tolist() == [1, 3]
    assert found.balls.clubs == ("Own", "Ash")
    assert found.balls.own == 0


def test_warm_up_balls_are_no_balls_of_the_comparison() -> None:
    cold = a_bay(warm=False)
    cold.do(HandedOver(club="Own"))
    cold.balls(2)
    cold.do(WarmUpDone(unseen=3))
    cold.ball()
    (shot,) = table_of(cold.now).table.shots
    assert (shot.row, shot.order) == (1, 5)


def test_a_ball_without_a_club_has_no_row() -> None:
    cold = a_bay(warm=False)
    cold.do(WarmUpDone())
    cold.ball()
    assert table_of(cold.now).table.shots == ()


def test_clubs_that_are_out_are_refused_with_why_and_their_balls_stay(bay: Bay) -> None:
    for club in ("Ash", "Birch", "Cedar"):
        bay.hand(club)
        bay.ball()
    bay.do(Vetoed(club="Ash"))
    bay.do(ClubDropped(club="Birch"))
    found = table_of(bay.now)
    assert [one.club for one in found.table.shots] == ["Cedar"]
    assert [(one.row, one.why) for one in found.table.refused] == [
        (1, "Ash is out: would not play it"),
        (2, "Birch is out: dropped"),
    ]
    assert found.balls is not None
    assert found.balls.own is None


def test_a_setting_that_was_not_planned_is_a_set_up_of_its_own(bay: Bay) -> None:
    bay.hand("Ash")
    first = bay.ball()
    bay.do(SettingSeen(setting="one up"))
    bay.ball()
    found = table_of(bay.now)
    assert [one.club for one in found.table.shots] == ["Ash", "Ash, one up"]
    lofts = [one.shift[4] for one in found.traits]
    angles = [one.angles.loft for one in set_ups(bay.now, Convention.A).values()][1:3]
    assert angles[1] - angles[0] > 1.0 * DEGREE
    assert lofts[1] - lofts[0] == pytest.approx(angles[1] - angles[0])
    assert sum(lofts) == pytest.approx(0.0, abs=1e-12)
    assert {(one.head, one.shaft) for one in found.traits} == {("head-1", "shaft-Ash")}
    bay.do(RunSet(first=first.sequence, last=first.sequence, setting="one up"))
    assert [one.club for one in table_of(bay.now).table.shots] == ["Ash, one up"] * 2


def test_a_left_handers_face_strike_and_sleeve_are_mirrored(bay: Bay) -> None:
    bay.hand("Ash")
    bay.ball(drive(bay.rng, "Ash", face=1.0 * DEGREE, path=2.0 * DEGREE))
    bay.do(Marked(mark=mark(12.0, -3.0)))
    bay.do(SettingSeen(setting="one up"))
    bay.ball(drive(bay.rng, "Ash"))
    right, left = (table_of(bay.now, hand) for hand in (Hand.RIGHT, Hand.LEFT))
    assert right.table.shots == left.table.shots
    assert right.balls is not None
    assert left.balls is not None
    np.testing.assert_array_equal(left.balls.launch, right.balls.launch)
    np.testing.assert_array_equal(left.balls.delivery[:, 2:], -right.balls.delivery[:, 2:])
    np.testing.assert_array_equal(left.balls.marks, right.balls.marks * [-1.0, 1.0])
    for one, other in zip(left.traits, right.traits, strict=True):
        assert one.shift[3] == -other.shift[3]
        assert one.shift[4] == other.shift[4]


def test_each_mark_brings_its_own_error_and_the_devices_stands_elsewhere(bay: Bay) -> None:
    bay.ball()
    bay.do(Marked(mark=mark(5.0, 2.0, error_mm=6.0)))
    bay.ball()
    balls = table_of(bay.now).balls
    assert balls is not None
    np.testing.assert_allclose(balls.mark_error, [6.0 * MILLIMETRE, 1.75 * MILLIMETRE])
    np.testing.assert_allclose(balls.marks[0], [5.0 * MILLIMETRE, 2.0 * MILLIMETRE])
    assert np.isnan(balls.marks[1]).all()


def test_marks_of_a_set_stay_a_set_and_an_unread_ball_leaves_its_mark_in_it(bay: Bay) -> None:
    first = bay.ball().sequence
    bay.do(NotRead())
    unread = bay.now.swings[-1].sequence
    third = bay.ball().sequence
    told = (mark(1.0, 1.0), mark(2.0, 2.0), mark(3.0, 3.0))
    bay.do(SetMarked(balls=(first, unread, third), marks=told))
    alone = bay.ball()
    found = table_of(bay.now)
    assert found.balls is not None
    first_set, second_set, none = found.balls.mark_set.tolist()
    assert first_set == second_set >= 0
    assert none == -1
    (spare,) = found.balls.spare_marks
    assert (spare.mark_set, spare.toe) == (first_set, 2.0 * MILLIMETRE)
    assert alone.number == 4


def test_a_ball_that_the_fitter_sets_aside_stays_in_the_table_and_is_flagged(bay: Bay) -> None:
    bay.balls(3)
    bay.do(OddBall(ball=bay.now.swings[1].sequence))
    balls = table_of(bay.now).balls
    assert balls is not None
    assert balls.set_aside.tolist() == [False, True, False]


def test_visits_are_counted_from_the_first_that_has_balls(bay: Bay) -> None:
    bay.clock.forward(minutes=24 * 60)
    bay.do(
        VisitOpened(
            day=bay.clock.at.date(),
            bay="Bay 1",
            device=DeviceCard(name="other", mark_error=0.003),
            warm_up=False,
        ),
        HandedOver(club="Own"),
    )
    bay.ball()
    balls = table_of(bay.now).balls
    assert balls is not None
    assert balls.visit.tolist() == [0]
    np.testing.assert_allclose(balls.mark_error, [0.003])


def test_columns_tell_what_is_there_and_where_it_comes_from(bay: Bay) -> None:
    bay.ball(drive(bay.rng, "Own", head_speed=44.0, carry=230.0))
    bay.do(Marked(mark=mark(5.0, 2.0)))
    found = table_of(bay.now)
    assert origin(found, "ball speed") is Origin.MEASURED
    assert origin(found, "head speed") is Origin.MEASURED
    assert origin(found, "carry") is Origin.UNKNOWN
    assert origin(found, "path") is Origin.ABSENT
    assert origin(found, "strike toe") is Origin.MEASURED
    assert len({one.means for one in found.table.columns}) == len(found.table.columns) == 18


def test_what_the_device_worked_out_explains_nothing() -> None:
    worked_out = MEASURED | {"path": Origin.CALCULATED, "head speed": Origin.CALCULATED}
    bay = a_bay(origins=worked_out)
    bay.ball(drive(bay.rng, "Own", head_speed=44.0, attack=0.02, path=0.03, face=0.01))
    found = table_of(bay.now)
    assert found.balls is not None
    speed, attack, path, face = found.balls.delivery[0]
    assert (attack, face) == (0.02, 0.01)
    assert np.isnan([speed, path]).all()
    assert found.table.shots[0].path == 0.03


def test_a_column_worked_out_on_one_day_counts_as_worked_out_on_all(bay: Bay) -> None:
    told = {"path": 0.03, "face": 0.01}
    bay.ball(drive(bay.rng, "Own", **told))
    day = VisitOpened(
        day=bay.clock.at.date(),
        bay="Bay 1",
        device=DeviceCard(name="other", origins=MEASURED | {"path": Origin.CALCULATED}),
        warm_up=False,
    )
    bay.do(day, HandedOver(club="Own"))
    bay.ball(drive(bay.rng, "Own", **told))
    found = table_of(bay.now)
    assert origin(found, "path") is Origin.CALCULATED
    assert found.balls is not None
    assert np.isnan(found.balls.delivery[:, 2]).all()
    assert found.balls.delivery[:, 3].tolist() == [0.01, 0.01]


def test_balls_of_speed_and_carry_alone_count_while_no_ball_can_be_flown(bay: Bay) -> None:
    bay.ball(ShotNumbers(ball_speed=66.0, carry=230.0))
    bay.ball(ShotNumbers(head_speed=44.0))
    found = table_of(bay.now)
    assert [one.row for one in found.table.shots] == [1]
    assert [(one.row, one.why) for one in found.table.refused] == [(2, "no launch number in it")]
    bay.ball()
    bay.ball(ShotNumbers(carry=230.0))
    assert [one.row for one in table_of(bay.now).table.shots] == [1, 3]

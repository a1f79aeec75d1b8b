"""Figures of a club in a bag with their doubts, and the steps between clubs."""

from dataclasses import replace
from math import hypot

import pytest

from bags import a_bag, an_iron
from loftwright.constants import (
    CYCLE_PER_MINUTE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
)
from loftwright.domain.bag import BagClub, BagKind, Known, Timed
from loftwright.domain.bag_figures import disagreeing, figure_of, same_set_up, steps
from loftwright.domain.bench_doubts import USUAL_DOUBTS
from loftwright.domain.built import Contradiction
from loftwright.physics.build.swingweight import USUAL_SCALE, calibrated_scale, letters


def the(name: str) -> BagClub:
    club = a_bag().club(name)
    assert club is not None
    return club


def test_weight_and_balance_point_give_the_swingweight_with_their_doubt() -> None:
    """315.6 g at 33.522 in is D2.2; 0.5 g and 1 mm of error are 0.32 points (self-consistent)."""
    figure = figure_of(the("Driver"), Known.SWINGWEIGHT, USUAL_SCALE)
    assert figure is not None
    assert figure.derived
    assert letters(figure.reading.value) == "D2.2"
    assert figure.reading.half_width == pytest.approx(2.0 * 0.3184, abs=0.01)


def test_the_shop_s_own_scale_moves_what_is_worked_out_and_nothing_that_was_read() -> None:
    scale = calibrated_scale(mass=0.310, balance=33.25 * INCH, reads=30.0)
    driver, iron = the("Driver"), the("4 iron")
    moved = figure_of(driver, Known.SWINGWEIGHT, scale)
    usual = figure_of(driver, Known.SWINGWEIGHT, USUAL_SCALE)
    assert moved is not None
    assert usual is not None
    # 310 g at 33.25 in is 28.2842 points on the usual scale (hand-worked).
    assert moved.reading.value - usual.reading.value == pytest.approx(30.0 - 28.2842, abs=1e-3)
    assert figure_of(iron, Known.SWINGWEIGHT, scale) == figure_of(
        iron, Known.SWINGWEIGHT, USUAL_SCALE
    )


def test_a_pendulum_gives_the_club_moi() -> None:
    """2.030184 s about 50 mm is 2850.5 kg cm² (hand-worked; weight and place to 0.01 %)."""
    figure = figure_of(the("Driver"), Known.INERTIA, USUAL_SCALE)
    assert figure is not None
    assert figure.derived
    assert figure.reading.value / KILOGRAM_SQUARE_CENTIMETRE == pytest.approx(2850.5, abs=0.5)
    assert figure.reading.half_width / KILOGRAM_SQUARE_CENTIMETRE > 12.8


def test_a_given_doubt_counts_and_else_the_bench_s() -> None:
    length = figure_of(the("Driver"), Known.LENGTH, USUAL_SCALE)
    ruler = figure_of(the("4 wood"), Known.LENGTH, USUAL_SCALE)
    plane = figure_of(the("4 iron"), Known.LENGTH, USUAL_SCALE)
    assert [one.reading.half_width for one in (length, ruler, plane) if one] == [
        pytest.approx(0.04 * INCH),
        USUAL_DOUBTS.ruler,
        USUAL_DOUBTS.length,
    ]


def test_what_was_not_measured_stays_unknown() -> None:
    putter = the("Putter")
    known = [one for one in Known if figure_of(putter, one, USUAL_SCALE) is not None]
    assert known == [Known.LENGTH]


def test_a_scale_against_weight_and_balance_is_named() -> None:
    wrong = replace(the("Driver"), swingweight=40.0)
    assert [one.what for one in disagreeing(wrong, USUAL_SCALE)] == [Contradiction.SCALE]
    assert disagreeing(the("Driver"), USUAL_SCALE) == ()


def test_a_club_moi_below_that_of_one_point_is_named() -> None:
    light = replace(the("Driver"), swung=None, inertia=0.2)
    assert [one.what for one in disagreeing(light, USUAL_SCALE)] == [Contradiction.POINT_MASS]


def test_set_ups_are_one_by_clamp_and_by_what_is_on_the_tip() -> None:
    head = Timed(frequency=4.2, clamp=0.127)
    weight = replace(head, tip_mass=205.0 * GRAM)
    assert same_set_up(head, replace(head, clamp=0.127 + 0.9 * MILLIMETRE))
    assert not same_set_up(head, replace(head, clamp=0.127 + 1.1 * MILLIMETRE))
    assert not same_set_up(head, weight)
    assert same_set_up(weight, replace(weight, tip_mass=205.4 * GRAM))
    assert not same_set_up(weight, replace(weight, tip_mass=206.0 * GRAM))


def test_steps_are_the_later_club_less_the_earlier() -> None:
    step = steps([an_iron(6), an_iron(7, points=1.0)], USUAL_SCALE)[0]
    assert (step.before, step.after) == ("6 iron", "7 iron")
    assert step.apart[Known.LENGTH].value == pytest.approx(-0.5 * INCH)
    assert step.apart[Known.SWINGWEIGHT].value == pytest.approx(1.0)
    assert step.apart[Known.SWINGWEIGHT].half_width == pytest.approx(hypot(0.5, 0.5))
    assert Known.MASS not in step.apart


def test_four_cycles_in_half_an_inch_are_four_for_half_an_inch() -> None:
    (step,) = steps([an_iron(6), an_iron(7)], USUAL_SCALE)
    rise = step.rise
    assert rise is not None
    assert rise.value / CYCLE_PER_MINUTE == pytest.approx(4.0)
    # 2 cpm twice, and 4 cpm times a seventh of the half inch: root of 8 + 0.32.
    assert rise.half_width / CYCLE_PER_MINUTE == pytest.approx(8.32**0.5, rel=1e-6)


def test_lengths_that_cannot_be_told_apart_give_no_rise() -> None:
    alike = replace(an_iron(7), length=an_iron(6).length)
    (step,) = steps([an_iron(6), alike], USUAL_SCALE)
    assert step.rise is None
    assert Known.FREQUENCY in step.apart


def test_frequencies_of_two_set_ups_have_no_step() -> None:
    other = replace(an_iron(7), timed=Timed(frequency=5.0, clamp=0.127, tip_mass=0.205))
    (step,) = steps([an_iron(6), other], USUAL_SCALE)
    assert Known.FREQUENCY not in step.apart
    assert step.rise is None


def test_a_swingweight_read_and_one_worked_out_have_a_step_only_on_the_shop_s_own_scale() -> None:
    read, worked_out = replace(the("Driver"), name="Old one", swingweight=33.0), the("Driver")
    (step,) = steps([read, worked_out], USUAL_SCALE)
    assert Known.SWINGWEIGHT not in step.apart
    (step,) = steps([read, worked_out], replace(USUAL_SCALE, calibrated=True))
    assert step.apart[Known.SWINGWEIGHT].value == pytest.approx(-0.81, abs=0.02)


def test_a_putter_has_no_step() -> None:
    bag = a_bag()
    assert len(steps(bag.in_play, USUAL_SCALE)) == len(bag.in_play) - 2
    assert steps([BagClub(name="Putter", kind=BagKind.PUTTER)], USUAL_SCALE) == ()

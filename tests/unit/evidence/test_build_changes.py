"""What a small change of build is expected to do, and how sure that is."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, GRAM
from loftwright.evidence.build_changes import (
    FOUR_GRAMS,
    HALF_INCH,
    head_mass_changed,
    length_changed,
    shaft_mass_changed,
    sleeve_turned,
)
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, turned

SPEED = 42.0
DELIVERY = np.array([SPEED, -0.5 * DEGREE, 0.0, 0.0, 14.5 * DEGREE])


def angles(bore: float, convention: Convention, azimuth: float = 0.0) -> HeadAngles:
    return turned(
        10.5 * DEGREE,
        58.0 * DEGREE,
        0.0,
        Bore(angle=bore * DEGREE, azimuth=azimuth * DEGREE),
        convention,
    )


@pytest.mark.parametrize("by", [HALF_INCH, 2.0 * HALF_INCH])
def test_longer_and_shorter_are_mirror_images_and_grow_with_the_change(by: float) -> None:
    longer, shorter = length_changed(by, SPEED), length_changed(-by, SPEED)
    assert longer.shift[0] == -shorter.shift[0] > 0.0
    assert longer.doubt == shorter.doubt
    assert all(
        one >= two
        for one, two in zip(longer.doubt, length_changed(HALF_INCH, SPEED).doubt, strict=True)
    )


def test_no_change_is_sure_to_do_nothing() -> None:
    for change in (length_changed(0.0, SPEED), shaft_mass_changed(0.0, SPEED)):
        assert set(change.shift) == {0.0}
        assert set(change.doubt) == {0.0}


def test_a_heavier_shaft_is_swung_slower_and_nobody_knows_by_how_much() -> None:
    change = shaft_mass_changed(FOUR_GRAMS, SPEED)
    assert change.shift[0] < 0.0
    assert change.doubt[0] > abs(change.shift[0])


@pytest.mark.parametrize("convention", [Convention.A, Convention.C])
def test_a_turned_sleeve_brings_what_its_convention_says(convention: Convention) -> None:
    before, after = angles(0.0, convention), angles(1.0, convention)
    soled, soled_after = angles(0.0, Convention.B), angles(1.0, Convention.B)
    change = sleeve_turned(before, after, soled, soled_after)
    assert change.shift[3] == after.face - before.face
    assert change.shift[4] == after.loft - before.loft > 0.0
    assert change.doubt[4] == pytest.approx(0.25 * change.shift[4])
    assert change.doubt[3] == pytest.approx(0.25 * 1.89 * DEGREE, rel=0.01)


def test_a_turn_that_leaves_loft_and_face_leaves_no_doubt_either() -> None:
    level = angles(0.0, Convention.C)
    change = sleeve_turned(level, level, level, level)
    assert set(change.shift) | set(change.doubt) == {0.0}


@pytest.mark.parametrize("by", [FOUR_GRAMS, 2.0 * GRAM])
def test_a_heavier_head_is_swung_slower_and_gives_the_ball_nearly_as_much_more(by: float) -> None:
    heavier = head_mass_changed(by, DELIVERY, REFERENCE_HEAD)
    lighter = head_mass_changed(-by, DELIVERY, REFERENCE_HEAD)
    assert heavier.shift[0] == -lighter.shift[0] < 0.0
    assert heavier.launch[0] > 0.0 > lighter.launch[0]
    ball_to_head = 1.45
    net = ball_to_head * heavier.shift[0] + heavier.launch[0]
    assert -0.5 * heavier.launch[0] < net < 0.0
    assert heavier.doubt[0] == pytest.approx(-heavier.shift[0])


def test_four_grams_of_head_are_as_doubtful_as_half_an_inch_but_for_speed() -> None:
    weight, length = (
        head_mass_changed(FOUR_GRAMS, DELIVERY, REFERENCE_HEAD),
        length_changed(HALF_INCH, SPEED),
    )
    assert weight.doubt[1:] == length.doubt[1:]


def test_where_the_weight_sits_is_in_doubt_in_every_direction() -> None:
    """0.6 mm of the centre of gravity: up, some 40 rpm; to the toe, half a degree of axis."""
    deep, up, toe = head_mass_changed(FOUR_GRAMS, DELIVERY, REFERENCE_HEAD).launch_doubts
    assert abs(deep[2]) < abs(up[2])
    assert abs(toe[3]) > 0.3 * DEGREE > abs(up[3])
    assert up[1] < 0.0 < up[2]


def test_no_weight_in_the_head_is_sure_to_do_nothing() -> None:
    change = head_mass_changed(0.0, DELIVERY, REFERENCE_HEAD)
    assert set(change.shift) | set(change.doubt) | set(change.launch) == {0.0}
    assert all(set(one) == {0.0} for one in change.launch_doubts)


def test_a_left_handers_head_is_doubted_alike() -> None:
    head = replace(REFERENCE_HEAD, cg=REFERENCE_HEAD.cg + np.array([0.0, 0.0, 0.003]))
    one = head_mass_changed(FOUR_GRAMS, DELIVERY, head)
    other = head_mass_changed(FOUR_GRAMS, DELIVERY, head.mirrored())
    assert one.launch[:3] == pytest.approx(other.launch[:3])
    assert one.launch[3] == pytest.approx(-other.launch[3])

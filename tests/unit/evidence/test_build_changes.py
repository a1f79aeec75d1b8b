"""What a small change of build is expected to do, and how sure that is."""

import pytest

from loftwright.constants import DEGREE
from loftwright.evidence.build_changes import (
    FOUR_GRAMS,
    HALF_INCH,
    length_changed,
    shaft_mass_changed,
    sleeve_turned,
)
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, turned

SPEED = 42.0


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

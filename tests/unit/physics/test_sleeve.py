"""Angled sleeves: a worked table, rotations of whole heads, small angles, both hands."""

from itertools import product
from math import asin, atan2, cos, degrees, hypot, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE
from loftwright.errors import InputError
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, shaft_turn, stacked, turned

A, B, C = Convention

# self-consistent: loft 10.5, lie 58, face 0, bore 1.5 deg, worked by hand with rotations.
# azimuth: loft and face under A, lie and face under B, loft under C.
WORKED = {
    0.0: (11.772, -0.797, 57.969, -2.829, 12.270),
    45.0: (11.403, -0.357, 56.924, -1.944, 11.626),
    90.0: (10.496, 0.278, 56.500, 0.0, 10.323),
    135.0: (9.594, 0.749, 56.924, 1.944, 9.126),
    180.0: (9.228, 0.793, 57.969, 2.829, 8.733),
    270.0: (10.496, -0.278, 59.500, 0.0, 10.670),
}
lofts = st.floats(6.0, 16.0).map(radians)
lies = st.floats(52.0, 64.0).map(radians)
faces = st.floats(-4.0, 4.0).map(radians)
angles = st.floats(0.0, 3.0).map(radians)
azimuths = st.floats(-180.0, 360.0).map(radians)


def bore(angle_deg: float, azimuth_deg: float) -> Bore:
    return Bore(angle=radians(angle_deg), azimuth=radians(azimuth_deg))


def about(axis: FloatArray, angle: float) -> FloatArray:
    """Return the matrix of a rotation (Rodrigues); about no axis nothing turns."""
    length = float(np.linalg.norm(axis))
    if length == 0.0:
        return np.eye(3)
    x, y, z = axis / length
    skew = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    turn: FloatArray = np.eye(3) + sin(angle) * skew + (1.0 - cos(angle)) * (skew @ skew)
    return turn


def head_frame(lie: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    hosel = np.array([0.0, cos(lie), sin(lie)])
    target = np.array([1.0, 0.0, 0.0])
    return target, np.cross(hosel, target), hosel


def face_normal(loft: float, face: float) -> FloatArray:
    return np.array([cos(loft) * cos(face), -cos(loft) * sin(face), sin(loft)])


def tilted_shaft(lie: float, sleeve: Bore) -> FloatArray:
    """Turn the hosel's line about the axis across the lean, as a lathe would."""
    target, player, hosel = head_frame(lie)
    lean = cos(sleeve.azimuth) * target + sin(sleeve.azimuth) * player
    tilted: FloatArray = about(np.cross(hosel, lean), sleeve.angle) @ hosel
    return tilted


@pytest.mark.parametrize("azimuth", WORKED)
def test_the_worked_table_is_met_to_its_digits(azimuth: float) -> None:
    head = (radians(10.5), radians(58.0), 0.0)
    sleeve = bore(1.5, azimuth)
    kept, soled, squared = (turned(*head, sleeve, one) for one in Convention)
    found = (kept.loft, kept.face, soled.lie, soled.face, squared.loft)
    assert [round(degrees(one), 3) for one in found] == [
        pytest.approx(one, abs=1e-9) for one in WORKED[azimuth]
    ]


def test_an_azimuth_between_the_worked_ones_is_met() -> None:
    """Self-consistent: the same head, 20 deg from the target, face squared."""
    squared = turned(radians(10.5), radians(58.0), 0.0, bore(1.5, 20.0), C)
    assert degrees(squared.loft) == pytest.approx(12.1032, abs=5e-5)


def test_one_step_weak_adds_what_the_page_says() -> None:
    """Self-consistent: 1.5 deg towards the target gives 1.77 deg of squared loft."""
    squared = turned(radians(10.5), radians(58.0), 0.0, bore(1.5, 0.0), C)
    assert degrees(squared.loft) - 10.5 == pytest.approx(1.77, abs=5e-3)


def test_the_three_conventions_differ_by_the_sine_of_the_lie() -> None:
    """One degree to the target at lie 58: +0.848 kept, 0 soled, +1.180 squared (small angles)."""
    tiny = 1e-6
    head = (radians(10.5), radians(58.0), 0.0)
    gains = [
        (turned(*head, Bore(angle=tiny, azimuth=0.0), one).loft - head[0]) / tiny
        for one in Convention
    ]
    assert gains == pytest.approx([0.848, 0.0, 1.180], abs=1e-3)
    closed = turned(*head, Bore(angle=tiny, azimuth=0.0), B).face / tiny
    assert closed == pytest.approx(-1.89, abs=5e-3)


@given(lofts, lies, faces, angles, azimuths)
def test_shaft_kept_is_the_smallest_rotation_of_the_head(
    loft: float, lie: float, face: float, angle: float, azimuth: float
) -> None:
    sleeve = Bore(angle=angle, azimuth=azimuth)
    target, player, hosel = head_frame(lie)
    lean = cos(azimuth) * target + sin(azimuth) * player
    normal = about(np.cross(hosel, lean), -angle) @ face_normal(loft, face)
    kept = turned(loft, lie, face, sleeve, A)
    assert kept.loft == pytest.approx(asin(normal[2]), abs=1e-12)
    assert kept.face == pytest.approx(atan2(-normal[1], normal[0]), abs=1e-12)


@given(lofts, lies, faces, angles, azimuths)
def test_soled_flat_turns_the_head_until_the_shaft_leans_to_the_player(
    loft: float, lie: float, face: float, angle: float, azimuth: float
) -> None:
    sleeve = Bore(angle=angle, azimuth=azimuth)
    shaft = tilted_shaft(lie, sleeve)
    upright = about(np.array([0.0, 0.0, 1.0]), atan2(shaft[0], shaft[1]))
    assert (upright @ shaft)[0] == pytest.approx(0.0, abs=1e-12)
    normal = upright @ face_normal(loft, face)
    soled = turned(loft, lie, face, sleeve, B)
    assert soled.loft == loft
    assert soled.lie == pytest.approx(asin(shaft[2]), abs=1e-12)
    assert soled.face == pytest.approx(atan2(-normal[1], normal[0]), abs=1e-12)


@given(lofts, lies, faces, angles, azimuths, st.floats(52.0, 64.0).map(radians))
def test_squared_is_what_a_turn_about_the_held_shaft_finds(
    loft: float, lie: float, face: float, angle: float, azimuth: float, held: float
) -> None:
    shaft = tilted_shaft(lie, Bore(angle=angle, azimuth=azimuth))
    line = np.array([0.0, cos(held), sin(held)])
    across = np.cross(shaft, line)
    brought = about(across, atan2(float(np.linalg.norm(across)), float(shaft @ line)))
    normal = brought @ face_normal(loft, face)
    low, high = -0.6, 0.6
    for _ in range(80):
        middle = 0.5 * (low + high)
        # A turn about the line that points up the shaft closes the face.
        if (about(line, middle) @ normal)[1] < 0.0:
            low = middle
        else:
            high = middle
    squared = about(line, 0.5 * (low + high)) @ normal
    found = turned(loft, lie, face, Bore(angle=angle, azimuth=azimuth), C, held_lie=held)
    assert squared[1] == pytest.approx(0.0, abs=1e-12)
    assert found.loft == pytest.approx(asin(squared[2]), abs=1e-12)
    assert found.face == 0.0


@pytest.mark.parametrize(
    ("loft_deg", "lie_deg"), list(product((9.0, 10.5, 13.0), (56.0, 58.0, 60.0)))
)
@pytest.mark.parametrize("azimuth_deg", [0.0, 37.0, 90.0, 144.0, 222.0, 305.0])
def test_small_bores_follow_their_slopes(
    loft_deg: float, lie_deg: float, azimuth_deg: float
) -> None:
    loft, lie, azimuth, tiny = radians(loft_deg), radians(lie_deg), radians(azimuth_deg), 1e-6
    kept, soled, squared = (
        turned(loft, lie, 0.0, Bore(angle=tiny, azimuth=azimuth), one) for one in Convention
    )
    to_target, to_player = cos(azimuth), sin(azimuth)
    assert (kept.loft - loft) / tiny == pytest.approx(to_target * sin(lie), abs=1e-5)
    closing = to_target * cos(lie) - to_player * tan(loft)
    assert kept.face / tiny == pytest.approx(-closing, abs=1e-5)
    assert soled.face / tiny == pytest.approx(-to_target / cos(lie), abs=1e-5)
    squared_slope = (to_target - to_player * tan(loft) * cos(lie)) / sin(lie)
    assert (squared.loft - loft) / tiny == pytest.approx(squared_slope, abs=1e-5)
    for one in (kept, soled, squared):
        assert (one.lie - lie) / tiny == pytest.approx(-to_player, abs=1e-5)


@given(lofts, lies, azimuths, st.sampled_from(Convention))
def test_a_straight_sleeve_changes_nothing(
    loft: float, lie: float, azimuth: float, convention: Convention
) -> None:
    found = turned(loft, lie, 0.0, Bore(angle=0.0, azimuth=azimuth), convention)
    assert (found.loft, found.lie, found.face) == pytest.approx((loft, lie, 0.0), abs=1e-12)


def test_an_open_face_has_less_loft_when_it_is_squared() -> None:
    found = turned(radians(10.5), radians(58.0), radians(2.0), bore(0.0, 0.0), C)
    assert degrees(found.loft) == pytest.approx(10.5 - 2.0 / tan(radians(58.0)), abs=0.03)
    assert found.face == 0.0


@given(lofts, lies, faces, angles, azimuths)
def test_opposite_settings_are_opposite_to_first_order(
    loft: float, lie: float, face: float, angle: float, azimuth: float
) -> None:
    """What is left is of second order, the most under B: angle^2 sin(2 azimuth) tan / cos lie."""
    straight = Bore(angle=0.0, azimuth=0.0)
    most = angle**2 * (1.0 + tan(lie) / cos(lie))
    for convention in Convention:
        middle = turned(loft, lie, face, straight, convention)
        one = turned(loft, lie, face, Bore(angle=angle, azimuth=azimuth), convention)
        other = turned(loft, lie, face, Bore(angle=angle, azimuth=azimuth + pi), convention)
        for name in ("loft", "lie", "face"):
            moved = getattr(one, name) + getattr(other, name) - 2.0 * getattr(middle, name)
            assert abs(moved) <= most + 1e-12


@given(lofts, lies, faces, angles, azimuths)
def test_a_mirror_shows_a_left_handers_club(
    loft: float, lie: float, face: float, angle: float, azimuth: float
) -> None:
    """Built in the world with its toe to the other side, the head has the same own angles."""
    mirror = np.diag([1.0, -1.0, 1.0])
    shaft = mirror @ tilted_shaft(lie, Bore(angle=angle, azimuth=azimuth))
    hosel = mirror @ head_frame(lie)[2]
    across = np.cross(shaft, hosel)
    rotation = about(across, atan2(float(np.linalg.norm(across)), float(shaft @ hosel)))
    normal = rotation @ mirror @ face_normal(loft, face)
    kept = turned(loft, lie, face, Bore(angle=angle, azimuth=azimuth), A)
    # Open turns a left-hander's face to the left, which is +y here.
    assert kept.face == pytest.approx(atan2(normal[1], normal[0]), abs=1e-12)
    assert kept.loft == pytest.approx(asin(normal[2]), abs=1e-12)


@given(angles, azimuths)
def test_equal_sleeves_a_half_turn_apart_cancel(angle: float, azimuth: float) -> None:
    first = Bore(angle=angle, azimuth=azimuth)
    assert stacked(first, Bore(angle=angle, azimuth=azimuth + pi)).angle < 1e-12


@given(angles, azimuths)
def test_equal_sleeves_in_line_add(angle: float, azimuth: float) -> None:
    one = Bore(angle=angle, azimuth=azimuth)
    both = stacked(one, one)
    assert both.angle == pytest.approx(2.0 * angle, abs=1e-12)
    if angle > 1e-6:
        assert cos(both.azimuth - azimuth) == pytest.approx(1.0, abs=1e-9)


@given(lies, angles, azimuths, angles, azimuths)
def test_two_sleeves_are_two_rotations(
    lie: float, first: float, first_way: float, second: float, second_way: float
) -> None:
    target, player, hosel = head_frame(lie)

    def rotation(angle: float, way: float) -> FloatArray:
        return about(np.cross(hosel, cos(way) * target + sin(way) * player), angle)

    shaft = rotation(first, first_way) @ rotation(second, second_way) @ hosel
    both = stacked(Bore(angle=first, azimuth=first_way), Bore(angle=second, azimuth=second_way))
    assert tilted_shaft(lie, both) == pytest.approx(shaft, abs=1e-12)


def test_small_stacked_sleeves_add_like_arrows() -> None:
    both = stacked(Bore(angle=3e-4, azimuth=0.0), Bore(angle=4e-4, azimuth=pi / 2.0))
    assert both.angle == pytest.approx(hypot(3e-4, 4e-4), rel=1e-6)
    assert both.azimuth == pytest.approx(atan2(4.0, 3.0), abs=1e-6)


def test_the_shaft_turns_with_its_sleeve() -> None:
    assert degrees(shaft_turn(bore(1.5, 350.0), bore(1.5, 10.0))) == pytest.approx(20.0)
    assert degrees(shaft_turn(bore(1.5, 10.0), bore(1.5, 350.0))) == pytest.approx(-20.0)
    assert degrees(shaft_turn(bore(1.5, 0.0), bore(1.5, 180.0))) == pytest.approx(180.0)


@pytest.mark.parametrize("angle", [-0.1, 10.1, float("nan"), float("inf")])
def test_a_bore_that_cannot_be_is_refused(angle: float) -> None:
    with pytest.raises(InputError, match="bore"):
        bore(angle, 0.0)


def test_an_azimuth_that_is_no_angle_is_refused() -> None:
    with pytest.raises(InputError, match="azimuth"):
        bore(1.0, float("nan"))


@pytest.mark.parametrize(
    ("place", "head"),
    [("loft", (80.0, 58.0, 0.0)), ("lie", (10.5, 20.0, 0.0)), ("face", (10.5, 58.0, 40.0))],
)
def test_angles_of_no_head_are_refused(place: str, head: tuple[float, float, float]) -> None:
    loft, lie, face = (one * DEGREE for one in head)
    with pytest.raises(InputError, match=place) as caught:
        turned(loft, lie, face, Bore(angle=0.0, azimuth=0.0), A)
    assert caught.value.place == place
    assert "Give" in caught.value.mend


def test_a_shaft_held_where_no_shaft_is_held_is_refused() -> None:
    with pytest.raises(InputError, match="lie"):
        turned(radians(10.5), radians(58.0), 0.0, bore(1.0, 0.0), C, held_lie=radians(5.0))


def test_a_face_that_cannot_be_squared_is_refused() -> None:
    with pytest.raises(InputError, match="squares"):
        turned(radians(70.0), radians(85.0), 0.0, bore(0.0, 0.0), C, held_lie=radians(35.0))


def test_head_angles_are_values() -> None:
    one = turned(radians(10.5), radians(58.0), 0.0, bore(1.5, 0.0), B)
    assert one == HeadAngles(loft=one.loft, lie=one.lie, face=one.face)

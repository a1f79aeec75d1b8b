"""One impact and many of them: outputs, warnings and refusals."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics._impact_kernels import strike_rows
from loftwright.physics.heads import Head
from loftwright.physics.impact import (
    PUBLISHED_HEAD,
    REFERENCE_HEAD,
    Delivery,
    ImpactLaw,
    axis_from_tilt,
    strike,
    strike_many,
    tilt_from_axis,
)

PLAIN = Delivery(
    head_speed=113.0 * MILE_PER_HOUR,
    attack=1.0 * DEGREE,
    path=0.0,
    face=0.0,
    loft=13.0 * DEGREE,
)
ROW = [PLAIN.head_speed, PLAIN.attack, PLAIN.path, PLAIN.face, PLAIN.loft, 0.0, 0.0]


def test_a_plain_drive_warns_of_nothing() -> None:
    assert strike(REFERENCE_HEAD, PLAIN).warnings == ()


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"head_speed": 60.0 * MILE_PER_HOUR}, "head speed 60 mph"),
        ({"head_speed": 131.0 * MILE_PER_HOUR}, "head speed 131 mph"),
        ({"loft": 7.0 * DEGREE}, "dynamic loft 7.0°"),
        ({"loft": 21.0 * DEGREE}, "dynamic loft 21.0°"),
        ({"strike_toe": -26.0 * MILLIMETRE}, "26 mm across"),
        ({"strike_high": -16.0 * MILLIMETRE}, "16 mm up or down"),
        ({"strike_toe": 100.0 * MILLIMETRE}, "restitution held at its limit of 0.3"),
        ({"loft": 70.0 * DEGREE}, "slides"),
        ({"attack": 8.0 * DEGREE, "loft": 5.0 * DEGREE}, "topspin"),
    ],
)
def test_use_beyond_its_validity_is_said(change: dict[str, Any], word: str) -> None:
    warnings = strike(REFERENCE_HEAD, replace(PLAIN, **change)).warnings
    assert any(word in warning for warning in warnings)


def test_attack_above_the_loft_gives_topspin() -> None:
    # 100 mph, attack 8, loft 5: 416 rpm with its axis at 180 degrees; self-consistent.
    impact = strike(
        REFERENCE_HEAD,
        Delivery(
            head_speed=100.0 * MILE_PER_HOUR,
            attack=8.0 * DEGREE,
            path=0.0,
            face=0.0,
            loft=5.0 * DEGREE,
        ),
    )
    assert impact.spin / REVOLUTION_PER_MINUTE == pytest.approx(416, abs=0.6)
    assert impact.back_spin < 0.0
    assert abs(impact.axis) == pytest.approx(np.pi)


@pytest.mark.parametrize("name", ["head_speed", "attack", "path", "face", "loft", "strike_high"])
@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_a_value_that_is_no_number_is_refused_by_name(name: str, value: float) -> None:
    change: dict[str, Any] = {name: value}
    with pytest.raises(InputError) as caught:
        strike(REFERENCE_HEAD, replace(PLAIN, **change))
    assert caught.value.place == name.replace("_", " ")


def test_a_rotation_that_is_no_number_is_refused() -> None:
    with pytest.raises(InputError, match="rotation"):
        strike(REFERENCE_HEAD, replace(PLAIN, rotation=(0.0, np.nan, 0.0)))


@pytest.mark.parametrize("speed", [0.0, -40.0])
def test_a_head_at_rest_is_refused(speed: float) -> None:
    with pytest.raises(InputError, match="head speed"):
        strike(REFERENCE_HEAD, replace(PLAIN, head_speed=speed))


def test_a_face_that_leaves_the_ball_is_refused() -> None:
    with pytest.raises(InputError, match="moves away"):
        strike(REFERENCE_HEAD, replace(PLAIN, path=100.0 * DEGREE))


def test_closing_head_speeds_the_toe_and_adding_loft_slows_a_high_strike() -> None:
    # 2500 deg/s of closing and 30 rad/s of loft: +-0.90 m/s 15 mm to toe or heel, -0.42 m/s
    # 10 mm high; self-consistent.
    turning = (0.0, 44.0, 30.0)

    def gain(toe: float, high: float) -> float:
        place = replace(PLAIN, strike_toe=toe * MILLIMETRE, strike_high=high * MILLIMETRE)
        turned = strike(REFERENCE_HEAD, replace(place, rotation=turning))
        return turned.ball_speed - strike(REFERENCE_HEAD, place).ball_speed

    assert gain(15.0, 0.0) - gain(0.0, 0.0) == pytest.approx(0.90, abs=0.01)
    assert gain(-15.0, 0.0) - gain(0.0, 0.0) == pytest.approx(-0.90, abs=0.01)
    assert gain(0.0, 10.0) - gain(0.0, 0.0) == pytest.approx(-0.42, abs=0.02)


def test_many_strikes_agree_with_single_ones() -> None:
    rng = np.random.default_rng(5)
    rows = np.array(ROW) + rng.normal(size=(40, 7)) * [2.0, 0.02, 0.03, 0.03, 0.02, 0.01, 0.006]
    launches = strike_many(PUBLISHED_HEAD, rows)
    for row, launch in zip(rows, launches, strict=True):
        impact = strike(
            PUBLISHED_HEAD,
            Delivery(
                head_speed=row[0],
                attack=row[1],
                path=row[2],
                face=row[3],
                loft=row[4],
                strike_toe=row[5],
                strike_high=row[6],
            ),
        )
        tilt = tilt_from_axis(impact.axis, impact.launch)
        expected = [impact.ball_speed, impact.launch, impact.spin, tilt, impact.direction]
        assert launch == pytest.approx(np.array(expected), rel=1e-12)


def test_the_compiled_loop_is_its_own_python() -> None:
    from loftwright.physics.impact import _head_numbers, _law_numbers  # noqa: PLC0415

    rows = np.array([ROW, [*ROW[:5], 0.012, -0.004], [*ROW[:6], np.nan], *2 * [[-1.0, *ROW[1:]]]])
    compiled, plain = np.zeros((5, 5)), np.zeros((5, 5))
    numbers = _head_numbers(REFERENCE_HEAD), _law_numbers(ImpactLaw())
    assert strike_rows(*numbers, rows, compiled) == 3
    assert strike_rows.py_func(*numbers, rows, plain) == 3
    assert np.allclose(compiled, plain, rtol=1e-12, atol=1e-15, equal_nan=True)


def test_a_missing_number_gives_a_missing_launch_and_leaves_the_others_alone() -> None:
    rows = np.array([ROW, [*ROW[:3], np.nan, *ROW[4:]], ROW])
    launches = strike_many(REFERENCE_HEAD, rows)
    assert np.isnan(launches[1]).all()
    assert np.array_equal(launches[0], launches[2])
    assert np.isfinite(launches[0]).all()


def test_many_strikes_refuse_by_row_and_column() -> None:
    with pytest.raises(InputError, match="delivery 1, loft"):
        strike_many(REFERENCE_HEAD, np.array([ROW, [*ROW[:4], np.inf, 0.0, 0.0]]))
    with pytest.raises(InputError, match="delivery 1: the face moves away"):
        strike_many(REFERENCE_HEAD, np.array([ROW, [-40.0, *ROW[1:]]]))
    with pytest.raises(InputError, match="shape"):
        strike_many(REFERENCE_HEAD, np.zeros((3, 6)))


def test_no_deliveries_give_no_launches() -> None:
    assert strike_many(REFERENCE_HEAD, np.empty((0, 7))).shape == (0, 5)


def test_sliding_settles_far_off_the_centre() -> None:
    rng = np.random.default_rng(3)
    n = 2000
    rows = np.column_stack(
        [
            rng.uniform(10.0, 70.0, n),
            rng.uniform(-0.2, 0.2, n),
            rng.uniform(-0.2, 0.2, n),
            rng.uniform(-0.3, 0.3, n),
            rng.uniform(0.0, 1.0, n),
            rng.uniform(-0.04, 0.04, n),
            rng.uniform(-0.03, 0.03, n),
        ]
    )
    assert np.isfinite(strike_many(REFERENCE_HEAD, rows, ImpactLaw(friction=0.1))).all()


def test_sliding_that_never_settles_is_said_and_not_guessed() -> None:
    # Far beyond any drive: hardly any friction, and the head comes in steeply.
    row = [30.527, -0.097, -0.118, -0.122, -0.163, 0.004, 0.023]
    slippery = ImpactLaw(friction=0.02)
    with pytest.raises(ConvergenceError, match="does not settle"):
        strike_many(REFERENCE_HEAD, np.array([ROW, row]), slippery)
    speed, attack, path, face, loft, toe, high = row
    delivery = Delivery(
        head_speed=speed,
        attack=attack,
        path=path,
        face=face,
        loft=loft,
        strike_toe=toe,
        strike_high=high,
    )
    with pytest.raises(ConvergenceError, match="does not settle"):
        strike(REFERENCE_HEAD, delivery, slippery)


def test_axis_and_tilt_meet_where_the_launch_is_level() -> None:
    assert tilt_from_axis(0.3, 0.0) == pytest.approx(0.3)
    assert axis_from_tilt(2.8, 0.0) == pytest.approx(2.8)
    both = tilt_from_axis(np.array([0.1, 3.0]), np.array([0.2, 0.2]))
    assert np.tan([0.1, 3.0]) == pytest.approx(np.tan(both) * np.cos(0.2))


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"mass": 1.0}, "mass"),
        ({"cg": np.array([0.01, 0.0, 0.0])}, "cg"),
        ({"cg": np.array([-0.03, 0.0])}, "cg"),
        ({"inertia": np.diag([1.0, 1.0, 9.0]) * 1e-4}, "inertia"),
        ({"inertia": np.diag([-1.0, 1.0, 1.0]) * 1e-4}, "inertia"),
        ({"inertia": np.eye(2)}, "inertia"),
        ({"inertia": np.diag([3.0, 5.0, 3.5]) * 1e-4 + np.eye(3, k=1) * 1e-5}, "inertia"),
        ({"bulge": 0.0}, "bulge"),
        ({"roll": np.nan}, "roll"),
        ({"loft": np.nan}, "loft"),
        ({"restitution": 1.2}, "restitution"),
    ],
)
def test_a_head_that_cannot_be_is_refused_by_its_key(change: dict[str, Any], place: str) -> None:
    with pytest.raises(InputError) as caught:
        replace(REFERENCE_HEAD, **change)
    assert caught.value.place == place


@pytest.mark.parametrize(
    "change", [{"ball_mass": 0.0}, {"friction": -0.1}, {"spin_factor": np.nan}]
)
def test_a_law_that_cannot_be_is_refused(change: dict[str, float]) -> None:
    with pytest.raises(InputError, match=next(iter(change))):
        ImpactLaw(**change)


def test_a_head_keeps_its_numbers_to_itself() -> None:
    cg = np.array([-0.038, 0.002, 0.0])
    head: Head = replace(REFERENCE_HEAD, cg=cg)
    cg[0] = 0.0
    assert head.cg[0] == -0.038
    with pytest.raises(ValueError, match="read-only"):
        head.cg[0] = 0.0

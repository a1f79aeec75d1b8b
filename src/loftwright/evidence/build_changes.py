"""What a small change of a club's build is expected to do to the delivery, before any ball.

A click of the sleeve, half an inch, a few grams of shaft or head. Means are from geometry, the
impact model and published effects; standard deviations are judgements, wide on purpose, because
golfers adapt.

References
----------
Cross and Bower 2006, Effects of swing-weight on swing speed and racket power, J. Sports Sci.
    24(1):23-30 (abstract): swing speed goes with inertia to the power of -0.27; earlier measured
    with golf clubs, -0.26.
Kenny, Wallace and Otto 2008, Influence of shaft length on golf driving performance, Sports
    Biomech. 7(3):322-332 (abstract): 1.168 to 1.270 m, ball speed 1.8 m/s up (P < 0.01), no loss
    of accuracy, launch and spin not shown to differ; seven golfers of handicaps near 0.
Wallace, Otto and Nevill 2007, Ball launch conditions for skilled golfers using drivers of
    different lengths in an indoor testing facility, J. Sports Sci. 25(7):731-737 (abstract): of
    117 to 132 cm ball speed differs with length.
"""

from dataclasses import dataclass, replace
from typing import Final, TypeAlias

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, GRAM, INCH, MILLIMETRE
from loftwright.physics.heads import Head
from loftwright.physics.impact import strike_many
from loftwright.physics.sleeve import HeadAngles

Shift: TypeAlias = tuple[float, float, float, float, float]
Launch: TypeAlias = tuple[float, float, float, float, float]
Doubt: TypeAlias = tuple[float, float, float, float, float, float, float]

HALF_INCH: Final = 0.5 * INCH
FOUR_GRAMS: Final = 4.0 * GRAM

_INERTIA_POWER: Final = 0.26
_HEAD_MASS: Final = 200.0 * GRAM
_SHAFT_MASS: Final = 60.0 * GRAM
_LENGTH: Final = 45.0 * INCH
_INERTIA: Final = (_HEAD_MASS + _SHAFT_MASS / 3.0) * _LENGTH**2
"""Of a club about its butt: a head at its end and an even shaft [kg m^2]."""

_SPEED_BY_INERTIA: Final = (1.0 - 2.0 * _INERTIA_POWER) / _LENGTH
_SPEED_MEASURED: Final = 1.8 / 1.45 / 50.0 / (1.270 - 1.168)
"""1.8 m/s of ball, at 1.45 of ball to head and the 50 m/s of such golfers (both from memory)."""

SPEED_OF_LENGTH: Final = 0.5 * (_SPEED_BY_INERTIA + _SPEED_MEASURED)
"""Share of head speed that a metre of length adds: the middle of a law (0.42) and what was
measured (0.24), 0.4 % for half an inch."""
SPEED_OF_SHAFT_MASS: Final = -_INERTIA_POWER * _LENGTH**2 / 3.0 / _INERTIA
"""Share of head speed that a kilogram of shaft adds; -0.16 % for four grams."""
SPEED_OF_HEAD_MASS: Final = -_INERTIA_POWER * _LENGTH**2 / _INERTIA
"""Share of head speed that a kilogram of head adds; -0.47 % for four grams."""
FROM_THE_CENTRE: Final = 30.0 * MILLIMETRE
"""How far from the head's centre of gravity a weight is put into it (judgement)."""

LOFT_SHARE_DOUBT: Final = 0.25
"""Of a sleeve's change of loft: what a golfer gives back or adds (judgement)."""
FACE_SHARE_DOUBT: Final = 0.25
"""Of the turn of the face that a golfer must take out to square it again (judgement)."""

_OF_HALF_INCH: Final = (
    0.2 * DEGREE,
    0.25 * DEGREE,
    0.25 * DEGREE,
    0.25 * DEGREE,
    1.0 * MILLIMETRE,
    1.0 * MILLIMETRE,
)
_OF_FOUR_GRAMS: Final = (
    0.1 * DEGREE,
    0.15 * DEGREE,
    0.15 * DEGREE,
    0.15 * DEGREE,
    0.5 * MILLIMETRE,
    0.5 * MILLIMETRE,
)
"""Doubts of attack, path, face, loft and strike, no shift of which is expected (judgements)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildChange:
    """What a change of build is expected to do, and how sure that is.

    Attributes
    ----------
    shift : tuple of float
        Head speed [m/s], attack, path, face, dynamic loft [rad], in the golfer's own signs.
    doubt : tuple of float
        Standard deviations of the same, then of the strike heel-toe and low-high [m].
    launch : tuple of float
        What the same delivery is expected to change in ball speed [m/s], launch [rad], spin
        [rad/s], axis and direction [rad].
    launch_doubts : tuple of tuple of float
        What each thing that nobody knows does to the same, one standard deviation of it.
    """

    shift: Shift
    doubt: Doubt
    launch: Launch = (0.0, 0.0, 0.0, 0.0, 0.0)
    launch_doubts: tuple[Launch, ...] = ()


def sleeve_turned(
    before: HeadAngles, after: HeadAngles, soled_before: HeadAngles, soled_after: HeadAngles
) -> BuildChange:
    """Return what a turn of the sleeve does.

    Parameters
    ----------
    before, after : HeadAngles
        Under the golfer's convention.
    soled_before, soled_after : HeadAngles
        With the head soled flat: their faces tell what must be squared.

    Notes
    -----
    Loft and face are taken to be delivered as they are turned. A quarter of the loft, and a
    quarter of the turn that would have to be taken out of the face, are in doubt.
    """
    loft, face = after.loft - before.loft, after.face - before.face
    to_square = soled_after.face - soled_before.face
    return BuildChange(
        shift=(0.0, 0.0, 0.0, face, loft),
        doubt=(
            0.0,
            0.0,
            0.0,
            FACE_SHARE_DOUBT * abs(to_square),
            LOFT_SHARE_DOUBT * abs(loft),
            0.0,
            0.0,
        ),
    )


def length_changed(by: float, head_speed: float) -> BuildChange:
    """Return what a longer or shorter club does.

    Parameters
    ----------
    by : float
        Longer positive [m].
    head_speed : float
        The golfer's [m s^-1].

    Notes
    -----
    The standard deviation of the speed is as large as its mean: golfers differ, and some gain
    nothing. The balance of the head is not made good.
    """
    speed = SPEED_OF_LENGTH * by * head_speed
    times = abs(by) / HALF_INCH
    return _uncertain(speed, abs(speed), _OF_HALF_INCH, times)


def shaft_mass_changed(by: float, head_speed: float) -> BuildChange:
    """Return what a heavier or lighter shaft of one make does.

    Parameters
    ----------
    by : float
        Heavier positive [kg], spread evenly along the shaft.
    head_speed : float
        The golfer's [m s^-1].
    """
    speed = SPEED_OF_SHAFT_MASS * by * head_speed
    return _uncertain(speed, 1.5 * abs(speed), _OF_FOUR_GRAMS, abs(by) / FOUR_GRAMS)


def head_mass_changed(by: float, delivery: FloatArray, head: Head) -> BuildChange:
    """Return what a heavier or lighter head of one make does.

    Parameters
    ----------
    by : float
        Heavier positive [kg], put into the head or taken out of it.
    delivery : FloatArray, shape (5,)
        The golfer's own head speed [m s^-1], attack, path, face, dynamic loft [rad].
    head : Head
        That is hit now.

    Notes
    -----
    Two things nearly cancel: the club is swung slower, and the heavier head gives a ball more of
    its speed. The second is the impact model's, with the weight in the centre of gravity. Where
    it truly sits is not known: it moves the centre of gravity by its share of 30 mm, one standard
    deviation in every direction. Four grams and half an inch change the balance by as many
    points, so that the rest is in doubt as after half an inch.
    """
    speed = SPEED_OF_HEAD_MASS * by * float(delivery[0])
    swung = _uncertain(speed, abs(speed), _OF_HALF_INCH, abs(by) / FOUR_GRAMS)
    heavier = replace(head, mass=head.mass + by)
    moved = FROM_THE_CENTRE * by / heavier.mass
    now, then = (_centre_strike(one, delivery) for one in (head, heavier))
    return replace(
        swung,
        launch=_as_launch(then - now),
        launch_doubts=tuple(
            _as_launch(_centre_strike(replace(heavier, cg=heavier.cg + way), delivery) - then)
            for way in moved * np.eye(3)
        ),
    )


def _centre_strike(head: Head, delivery: FloatArray) -> FloatArray:
    return strike_many(head, np.array([[*delivery, 0.0, 0.0]]))[0]


def _as_launch(values: FloatArray) -> Launch:
    ball_speed, launch, spin, axis, direction = values.tolist()
    return ball_speed, launch, spin, axis, direction


def _uncertain(
    speed: float,
    speed_doubt: float,
    rest: tuple[float, float, float, float, float, float],
    times: float,
) -> BuildChange:
    attack, path, face, loft, toe, high = (times * one for one in rest)
    return BuildChange(
        shift=(speed, 0.0, 0.0, 0.0, 0.0),
        doubt=(speed_doubt, attack, path, face, loft, toe, high),
    )

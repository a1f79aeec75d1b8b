"""What an angled sleeve does to a head's loft, lie and face.

A sleeve whose bore is not in line with the hosel tilts the shaft in the head's frame. What that
does to loft depends on what is then held: the shaft, the sole or the face. Three conventions are
in use, their "loft changes" for one sleeve differ, and none is right without its name.

Everything is in the golfer's own signs, so that one set of formulas serves both hands: of a
left-hander's club it gives what a mirror shows.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import asin, atan2, cos, isfinite, pi, sin
from typing import Final

from loftwright.constants import DEGREE
from loftwright.errors import InputError
from loftwright.physics.vectors import Vector, combine, cross, dot, scaled, unit

LARGEST_BORE: Final = 10.0 * DEGREE


class Convention(StrEnum):
    """What is held while the sleeve is turned.

    Attributes
    ----------
    A
        The shaft stays where it was and is not twisted: the head turns under it.
    B
        The head is soled flat: its loft stays, its lie and face change.
    C
        The face is squared by turning the club about the shaft, which is held at its lie.
    """

    A = "A"
    B = "B"
    C = "C"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """How a sleeve tilts the shaft in the head's frame.

    Attributes
    ----------
    angle : float
        Between the shaft and the hosel's own axis [rad].
    azimuth : float
        Where the grip end leans: 0 to the target, a quarter turn to the player, a half turn
        away from the target [rad].
    """

    angle: float
    azimuth: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.angle <= LARGEST_BORE:
            raise InputError(
                f"a sleeve cannot tilt a shaft by {self.angle / DEGREE:.2f} deg",
                place="bore",
                mend="Give 0 to 10 deg; to lean the other way turn the azimuth by 180 deg.",
            )
        if not isfinite(self.azimuth):
            raise InputError("the azimuth of a bore is no finite angle", place="azimuth")


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadAngles:
    """A head's angles with its sleeve as set.

    Attributes
    ----------
    loft : float
        Of the face centre above the horizontal, under the convention [rad].
    lie : float
        Of the shaft with the head soled flat, the same under every convention [rad].
    face : float
        Open positive, under the convention [rad].
    """

    loft: float
    lie: float
    face: float


def turned(
    loft: float,
    lie: float,
    face: float,
    bore: Bore,
    convention: Convention,
    held_lie: float | None = None,
) -> HeadAngles:
    """Return a head's angles with a sleeve in it.

    Parameters
    ----------
    loft, lie, face : float
        Of the head with a straight hosel, soled flat; face open positive [rad].
    bore : Bore
        The sleeve as it sits.
    convention : Convention
        What is held.
    held_lie : float, optional
        At which the shaft is held under convention C [rad]; `lie` unless given.

    Returns
    -------
    HeadAngles

    Raises
    ------
    InputError
        If an angle cannot be a driver's, or no turn about the shaft squares the face.

    Notes
    -----
    With x to the target, y to the player and z up, the hosel points along (0, cos lie, sin lie)
    and the face along (cos loft cos face, -cos loft sin face, sin loft). A: the face is turned
    with the smallest rotation that brings the shaft back to the hosel's line. B: the shaft's own
    direction gives lie and face. C: the angle between face and shaft is kept by any turn about
    the shaft, so that sin(loft) sin(held lie) equals the product of face and shaft; a head whose
    face stands open is squared too, with no sleeve at all.
    """
    _check(loft, lie, face)
    normal = _normal(loft, face)
    hosel = (0.0, cos(lie), sin(lie))
    shaft = _shaft(lie, bore)
    soled = asin(_within(shaft[2]))
    if convention is Convention.A:
        kept = _rotated(normal, shaft, hosel)
        return HeadAngles(loft=asin(_within(kept[2])), lie=soled, face=atan2(-kept[1], kept[0]))
    if convention is Convention.B:
        return HeadAngles(loft=loft, lie=soled, face=face - atan2(shaft[0], shaft[1]))
    held = lie if held_lie is None else held_lie
    _check(loft, held, face)
    return HeadAngles(loft=_squared(dot(normal, shaft), held), lie=soled, face=0.0)


def stacked(first: Bore, second: Bore) -> Bore:
    """Return the one bore that two sleeves, one within the other, come to.

    Parameters
    ----------
    first : Bore
        The sleeve in the hosel, in the head's frame.
    second : Bore
        The sleeve in the first, its azimuth from the same mark as if the first were straight.

    Raises
    ------
    InputError
        If together they tilt the shaft further than a sleeve can.

    Notes
    -----
    They are rotations, one after the other. Small ones add like arrows, so that equal bores a
    half turn apart cancel.
    """
    axis = (0.0, 0.0, 1.0)
    leant = _rotated(_leaning(second), axis, _leaning(first))
    across = (leant[0] ** 2 + leant[1] ** 2) ** 0.5
    angle = atan2(across, leant[2])
    return Bore(angle=angle, azimuth=atan2(leant[1], leant[0]) if across > 0.0 else 0.0)


def shaft_turn(before: Bore, after: Bore) -> float:
    """Return how far the shaft itself is turned when the sleeve goes from one place to another.

    Parameters
    ----------
    before, after : Bore
        Two places of one sleeve.

    Returns
    -------
    float
        Above -pi, at most pi [rad]; spine, print and a ribbed grip turn with it.
    """
    turn = (after.azimuth - before.azimuth) % (2.0 * pi)
    return turn if turn <= pi else turn - 2.0 * pi


def _check(loft: float, lie: float, face: float) -> None:
    limits = {"loft": (loft, -20.0, 70.0), "lie": (lie, 30.0, 85.0), "face": (face, -30.0, 30.0)}
    for name, (value, low, high) in limits.items():
        if not low * DEGREE <= value <= high * DEGREE:
            raise InputError(
                f"a {name} of {value / DEGREE:.1f} deg cannot be used",
                place=name,
                mend=f"Give {low:.0f} to {high:.0f} deg.",
            )


def _normal(loft: float, face: float) -> Vector:
    return (cos(loft) * cos(face), -cos(loft) * sin(face), sin(loft))


def _leaning(bore: Bore) -> Vector:
    """Return the shaft's direction by the hosel: along target, player's side and hosel."""
    across = sin(bore.angle)
    return (across * cos(bore.azimuth), across * sin(bore.azimuth), cos(bore.angle))


def _shaft(lie: float, bore: Bore) -> Vector:
    to_target, to_player, along = _leaning(bore)
    hosel = (0.0, cos(lie), sin(lie))
    player_side = (0.0, sin(lie), -cos(lie))
    return combine(
        combine(scaled(hosel, along), to_player, player_side), to_target, (1.0, 0.0, 0.0)
    )


def _rotated(vector: Vector, start: Vector, end: Vector) -> Vector:
    """Return a vector under the smallest rotation of one unit vector to another."""
    axis, cosine = cross(start, end), dot(start, end)
    along = dot(axis, vector) / (1.0 + cosine)
    turned_about = combine(scaled(vector, cosine), 1.0, cross(axis, vector))
    return unit(combine(turned_about, along, axis))


def _squared(product: float, held_lie: float) -> float:
    """Return the loft of a squared face from the product of face and shaft."""
    sine = product / sin(held_lie)
    if not abs(sine) <= 1.0:
        raise InputError(
            "no turn about the shaft squares this face",
            place="held_lie",
            mend="Hold the shaft more upright.",
        )
    return asin(sine)


def _within(sine: float) -> float:
    return max(-1.0, min(1.0, sine))

"""Invented players: how body and wrists drive a club, scaled to a golfer's own head speed."""

from dataclasses import dataclass, fields, replace
from enum import StrEnum
from math import isfinite
from typing import Final

from loftwright.errors import InputError
from loftwright.physics.shaft_swing.equations import PlayerNumbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """A player's torques; both links start at rest at the change of direction.

    Attributes
    ----------
    hub_torque : float
        Of the body on the arm, when it has risen [N m].
    hub_rise : float
        Time in which it rises to 63 % [s].
    hub_speed : float
        Rate of the arm at which it is gone [rad s^-1].
    release, release_length : float
        When the wrists begin to let go, and for how long they do [s].
    wrist_torque, range_torque : float
        That drives the club then, and at the end of the wrists' range [N m].
    wrist_damping : float
        Of the wrists while they drive [N m s].
    cock, cock_stiffness, cock_damping, cock_limit : float
        Angle at which the wrists hold the club [rad], how firmly [N m], [N m s], and the most
        with which they hold it back [N m].
    start : float
        Angle of the arm at the start [rad].
    square : float
        Wrist angle at which the face is square [rad].
    arm_length, arm_inertia, arm_moment : float
        [m], [kg m^2] about the hub, and first moment [kg m].
    hand_inertia : float
        Of hands and grip about the wrist [kg m^2].

    References
    ----------
    Jorgensen, The Physics of Golf (from memory): a length of 0.616 m and an inertia of about
        1.15 kg m^2 for the arm of a planar model; the other numbers are judgements.
    """

    hub_torque: float
    hub_rise: float
    release: float
    release_length: float
    wrist_torque: float
    cock: float
    range_torque: float
    square: float
    start: float = -2.5
    hub_speed: float = 40.0
    wrist_damping: float = 0.1
    cock_stiffness: float = 200.0
    cock_damping: float = 5.0
    cock_limit: float = 80.0
    arm_length: float = 0.65
    arm_inertia: float = 1.15
    arm_moment: float = 2.3
    hand_inertia: float = 0.008

    def __post_init__(self) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if not isfinite(value) or (field.name in _POSITIVE and value <= 0.0):
                limit = "above 0" if field.name in _POSITIVE else "finite"
                raise InputError(
                    f"{field.name.replace('_', ' ')} is {value:g}: it must be {limit}.",
                    place="player",
                    mend="Give it in SI units.",
                )

    @property
    def numbers(self) -> PlayerNumbers:
        """The same for the compiled loops."""
        return PlayerNumbers(*(float(getattr(self, name)) for name in PlayerNumbers._fields))


_POSITIVE: Final = frozenset(
    (
        *("hub_torque", "hub_rise", "hub_speed", "release_length", "wrist_damping"),
        *("cock_stiffness", "cock_damping", "cock_limit"),
        *("arm_length", "arm_inertia", "arm_moment", "hand_inertia"),
    )
)

QUICK_LATE: Final = Player(
    hub_torque=166.597,
    hub_rise=0.03,
    release=0.155,
    release_length=0.06,
    wrist_torque=33.602,
    cock=-1.85,
    range_torque=5.0,
    square=-0.30225,
)
"""A quick change of direction and a late release, at 51 m/s (judgement)."""

SMOOTH_EARLY: Final = Player(
    hub_torque=276.502,
    hub_rise=0.12,
    release=0.040,
    release_length=0.15,
    wrist_torque=19.751,
    cock=-1.55,
    range_torque=2.0,
    square=-0.34639,
)
"""A smooth change of direction and an early, long release, at 51 m/s (judgement)."""


class Change(StrEnum):
    """How a golfer changes direction at the top."""

    QUICK = "quick"
    SMOOTH = "smooth"


class Release(StrEnum):
    """When a golfer's wrists let the club go."""

    LATE = "late"
    EARLY = "early"


class Loading(StrEnum):
    """How a golfer loads a shaft, from the answers to both questions."""

    QUICK_LATE = "quick_late"
    SMOOTH_EARLY = "smooth_early"


PLAYERS: Final = {Loading.QUICK_LATE: QUICK_LATE, Loading.SMOOTH_EARLY: SMOOTH_EARLY}


def loadings(change: Change, release: Release) -> tuple[Loading, ...]:
    """Return the loading of a golfer; both, where the answers belong to different ones."""
    by_change = Loading.QUICK_LATE if change is Change.QUICK else Loading.SMOOTH_EARLY
    by_release = Loading.QUICK_LATE if release is Release.LATE else Loading.SMOOTH_EARLY
    return (by_change,) if by_change is by_release else (by_change, by_release)


def paced(player: Player, pace: float) -> Player:
    """Return the same swing on a clock that runs `pace` times as fast.

    Parameters
    ----------
    player : Player
    pace : float
        Above 0; rates grow by it, torques by its square.

    Returns
    -------
    Player

    Raises
    ------
    InputError
        If the pace is not above 0.

    Notes
    -----
    Without gravity, a rigid club would pass through the same places at either pace. The shaft's
    own frequencies stay, so a slower player bends it less.
    """
    if not (isfinite(pace) and pace > 0.0):
        raise InputError(
            f"a pace of {pace:g} cannot be: above 0.", place="player", mend="1 leaves it."
        )
    square = pace * pace
    return replace(
        player,
        hub_torque=player.hub_torque * square,
        hub_rise=player.hub_rise / pace,
        hub_speed=player.hub_speed * pace,
        release=player.release / pace,
        release_length=player.release_length / pace,
        wrist_torque=player.wrist_torque * square,
        range_torque=player.range_torque * square,
        wrist_damping=player.wrist_damping * pace,
        cock_stiffness=player.cock_stiffness * square,
        cock_damping=player.cock_damping * pace,
        cock_limit=player.cock_limit * square,
    )

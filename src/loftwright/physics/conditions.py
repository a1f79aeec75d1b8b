"""What a shot is flown in and with: air, wind, ground and ball."""

from dataclasses import dataclass, field
from math import hypot
from typing import Final

from loftwright.constants import MILE_PER_HOUR
from loftwright.errors import InputError
from loftwright.physics.air import Air
from loftwright.physics.motion import Medium, medium_of
from loftwright.physics.turf import GROUNDS, GroundLaw

STRONGEST_WIND: Final = 30.0 * MILE_PER_HOUR
LIFT_SCALE: Final = 1.1
STEEPEST_TILT: Final = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Air, wind, ground and ball.

    Attributes
    ----------
    air : Air
    wind_along, wind_across : float
        At 10 m above the ground; from behind and towards the right positive [m s^-1].
    roughness : float
        Roughness length of the ground [m]; 0 for the same wind at every height.
    ground : GroundLaw
    drag_scale, lift_scale : float
        Of the ball, relative to the published example ball. Balls differ by about a tenth.

    Notes
    -----
    The lift scale of 1.1 stands for a ball of today: US 7,238,121 B2 prints lift coefficients 1.08
    to 1.15 times those of the example ball at driver speed. Nothing else is fitted.
    """

    air: Air
    wind_along: float = 0.0
    wind_across: float = 0.0
    roughness: float = 0.03
    ground: GroundLaw = field(default=GROUNDS["normal"])
    drag_scale: float = 1.0
    lift_scale: float = LIFT_SCALE

    def __post_init__(self) -> None:
        wind = hypot(self.wind_along, self.wind_across)
        if not wind <= STRONGEST_WIND + 1e-9:
            raise InputError(
                f"a wind of {wind / MILE_PER_HOUR:.0f} mph lies outside the flight model",
                place="wind",
                mend="Give the wind at 10 m height, 30 mph at most.",
            )
        _demand("roughness", self.roughness, 0.0, 1.0)
        _demand("drag scale", self.drag_scale, 0.0, 2.0)
        _demand("lift scale", self.lift_scale, 0.0, 2.0)
        _demand("base tilt", self.ground.base_tilt, 0.0, STEEPEST_TILT)

    @property
    def medium(self) -> Medium:
        """The constants of the equations of motion."""
        return medium_of(
            self.air,
            ball=(self.drag_scale, self.lift_scale),
            wind=(self.wind_along, self.wind_across, self.roughness),
        )


def _demand(place: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise InputError(
            f"{value:g} cannot be used", place=place, mend=f"Give {low:g} to {high:g}."
        )

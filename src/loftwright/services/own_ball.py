"""One ball of a fitting in the golfer's own signs, with what its device really measured."""

from dataclasses import dataclass
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.device import Origin
from loftwright.domain.golfer import Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.physics.ball_reading import MEASURED, BallReading
from loftwright.services.fitting_table import MEANS

NEEDED: Final = ("ball_speed", "launch", "direction", "spin", "axis")
"""What a ball must have to be solved backwards."""

COLUMNS: Final = {"loft": "dynamic_loft"}
"""Fields of a ball by the names of the inverse, where the two differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnBall:
    """A ball as the inverse takes it.

    Attributes
    ----------
    reading : BallReading, optional
        None where a launch number is missing or was calculated.
    mark_error : float
        Of its mark [m]; of no meaning without one.
    mark_by_device : bool
        Whether the device saw the strike, and nobody marked it.
    missing, calculated : tuple of str
        Launch numbers that stand in the way, in the words of the column list.
    left_out : tuple of str
        Delivery columns that were read but are not said to be measured.
    """

    reading: BallReading | None
    mark_error: float
    mark_by_device: bool
    missing: tuple[str, ...]
    calculated: tuple[str, ...]
    left_out: tuple[str, ...]


def own_ball(swing: Swing, now: FittingNow, hand: Hand) -> OwnBall:
    """Return a ball in the golfer's own signs.

    Parameters
    ----------
    swing : Swing
    now : FittingNow
    hand : Hand
        A left-hander's direction and axis are mirrored.
    """
    numbers = swing.numbers or ShotNumbers()
    device = now.visits[swing.visit].device
    origins = device.origins
    missing = tuple(MEANS[name] for name in NEEDED if getattr(numbers, name) is None)
    calculated = tuple(
        MEANS[name]
        for name in NEEDED
        if getattr(numbers, name) is not None and origins.get(MEANS[name]) is Origin.CALCULATED
    )
    read = [name for name in MEASURED if getattr(numbers, _field(name)) is not None]
    measured = [name for name in read if origins.get(MEANS[_field(name)]) is Origin.MEASURED]
    mark, error, by_device = _mark(swing, numbers, device.mark_error, origins)
    return OwnBall(
        reading=None
        if missing or calculated
        else _reading(numbers, measured, mark, -1.0 if hand is Hand.LEFT else 1.0),
        mark_error=error,
        mark_by_device=by_device,
        missing=missing,
        calculated=calculated,
        left_out=tuple(MEANS[_field(name)] for name in read if name not in measured),
    )


def _field(name: str) -> str:
    return COLUMNS.get(name, name)


def _mark(
    swing: Swing, numbers: ShotNumbers, device_error: float, origins: dict[str, Origin]
) -> tuple[tuple[float, float] | None, float, bool]:
    """Return a ball's own mark, its error, and whether the device saw it."""
    if swing.mark is not None and swing.mark_set is None:
        return (swing.mark.toe, swing.mark.high), swing.mark.error, False
    toe, high = numbers.strike_toe, numbers.strike_high
    seen = all(
        origins.get(MEANS[name]) is Origin.MEASURED for name in ("strike_toe", "strike_high")
    )
    if swing.mark is None and seen and toe is not None and high is not None:
        return (toe, high), device_error, True
    return None, device_error, False


def _reading(
    numbers: ShotNumbers, measured: list[str], mark: tuple[float, float] | None, side: float
) -> BallReading | None:
    speed, launch, spin = numbers.ball_speed, numbers.launch, numbers.spin
    direction, axis = numbers.direction, numbers.axis
    if speed is None or launch is None or spin is None or direction is None or axis is None:
        return None
    return BallReading(
        ball_speed=speed,
        launch=launch,
        direction=side * direction,
        spin=spin,
        axis=side * axis,
        mark=mark,
        **{name: getattr(numbers, _field(name)) for name in measured},
    )

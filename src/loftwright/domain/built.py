"""A built club against its sheet: what is in, what is out, and which readings contradict."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import hypot
from typing import Final

from loftwright.constants import GRAM
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit, Reading, fit_of, too_tight
from loftwright.physics.build.swingweight import FULCRUM, SwingweightScale, swingweight_error
from loftwright.physics.build.uncertainty import NINETY_FIVE

WEIGHING_ROOM: Final = 1.0 * GRAM
"""What parts and whole may differ by beyond their doubts: glue and tape (common practice)."""


class Checked(StrEnum):
    """What of a finished club is held against its sheet."""

    LENGTH = "length"
    SWINGWEIGHT = "swingweight"
    MASS = "mass"
    BALANCE = "balance"
    INERTIA = "inertia"
    LOFT = "loft"
    LIE = "lie"
    FACE = "face"
    FREQUENCY = "frequency"
    GRIP = "grip"


class Contradiction(StrEnum):
    """Which readings cannot all be right.

    Attributes
    ----------
    SCALE
        Swingweight as read, and as weight and balance point give it.
    PARTS
        Weight of the whole, and the sum of its parts.
    POINT_MASS
        Inertia below that of the same weight in its balance point.
    """

    SCALE = "scale"
    PARTS = "parts"
    POINT_MASS = "point_mass"


TOUCHED: Final = {
    Contradiction.SCALE: frozenset({Checked.SWINGWEIGHT, Checked.MASS, Checked.BALANCE}),
    Contradiction.PARTS: frozenset({Checked.MASS}),
    Contradiction.POINT_MASS: frozenset({Checked.INERTIA, Checked.MASS, Checked.BALANCE}),
}
"""Of which readings nothing can be told until they are measured again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What a club was to be.

    Attributes
    ----------
    targets : mapping of Checked to float
        SI, swingweight in points; only what was asked for.
    predicted : mapping of Checked to Reading
        What the parts come to, with its doubt.
    tolerances : Tolerances
    scale : SwingweightScale
    """

    targets: Mapping[Checked, float]
    predicted: Mapping[Checked, Reading]
    tolerances: Tolerances
    scale: SwingweightScale


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetLine:
    """A reading beside its target.

    Attributes
    ----------
    checked : Checked
    reading : Reading
    target, tolerance : float
    asked : bool
        Whether the target was asked for; else it is what the parts come to.
    fit : Fit
    tight : bool
        Whether the tolerance is tighter than the reading can tell.
    """

    checked: Checked
    reading: Reading
    target: float
    tolerance: float
    asked: bool
    fit: Fit
    tight: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradicted:
    """Readings that cannot all be right.

    Attributes
    ----------
    what : Contradiction
    read, expected : float
        What was read, and what the other readings say of it: points, kilograms or kg m^2.
    allowed : float
        By how much they might differ.
    """

    what: Contradiction
    read: float
    expected: float
    allowed: float


def swingweight_from(mass: Reading, balance: Reading, scale: SwingweightScale) -> Reading:
    """Return the points that weight and balance point give, with their doubt."""
    error = swingweight_error(mass.value, balance.value, mass.half_width, balance.half_width)
    return Reading(value=scale.index(mass.value * (balance.value - FULCRUM)), half_width=error)


def contradictions(readings: Mapping[Checked, Reading], sheet: Sheet) -> tuple[Contradicted, ...]:
    """Return which readings of a club cannot all be right.

    Parameters
    ----------
    readings : mapping of Checked to Reading
        SI, swingweight in points.
    sheet : Sheet
    """
    return tuple(_contradictions(readings, sheet))


def _contradictions(readings: Mapping[Checked, Reading], sheet: Sheet) -> Iterator[Contradicted]:
    mass, balance = readings.get(Checked.MASS), readings.get(Checked.BALANCE)
    read = readings.get(Checked.SWINGWEIGHT)
    if mass is not None and balance is not None and read is not None:
        other = swingweight_from(mass, balance, sheet.scale)
        allowed = hypot(read.half_width, other.half_width)
        if abs(read.value - other.value) > allowed:
            yield Contradicted(
                what=Contradiction.SCALE, read=read.value, expected=other.value, allowed=allowed
            )
    parts = sheet.predicted.get(Checked.MASS)
    if mass is not None and parts is not None:
        allowed = hypot(mass.half_width, parts.half_width) + WEIGHING_ROOM
        if abs(mass.value - parts.value) > allowed:
            yield Contradicted(
                what=Contradiction.PARTS, read=mass.value, expected=parts.value, allowed=allowed
            )
    inertia = readings.get(Checked.INERTIA)
    if mass is not None and balance is not None and inertia is not None:
        least = mass.value * balance.value**2
        by_balance = 2.0 * mass.value * balance.value * balance.half_width
        doubt = hypot(balance.value**2 * mass.half_width, by_balance)
        allowed = hypot(inertia.half_width, doubt)
        if inertia.value < least - allowed:
            yield Contradicted(
                what=Contradiction.POINT_MASS,
                read=inertia.value,
                expected=least,
                allowed=allowed,
            )


def target_lines(readings: Mapping[Checked, Reading], sheet: Sheet) -> tuple[TargetLine, ...]:
    """Return every reading beside its target.

    Parameters
    ----------
    readings : mapping of Checked to Reading
        SI, swingweight in points.
    sheet : Sheet
        What was not asked for is held against what the parts come to.

    Returns
    -------
    tuple of TargetLine
        Readings that contradict others are never told in or out.
    """
    touched = {one for found in contradictions(readings, sheet) for one in TOUCHED[found.what]}
    lines = []
    for checked in Checked:
        reading = readings.get(checked)
        predicted = sheet.predicted.get(checked)
        asked = checked in sheet.targets
        if reading is None or not (asked or predicted is not None):
            continue
        target = sheet.targets[checked] if asked or predicted is None else predicted.value
        tolerance = getattr(sheet.tolerances, checked.value)
        fit = fit_of(reading, target, tolerance)
        lines.append(
            TargetLine(
                checked=checked,
                reading=reading,
                target=target,
                tolerance=tolerance,
                asked=asked,
                fit=Fit.CANNOT_TELL if checked in touched else fit,
                tight=too_tight(reading, tolerance),
            )
        )
    return tuple(lines)


def reading_of(value: float, error: float) -> Reading:
    """Return a figure and its standard error as a reading."""
    return Reading(value=value, half_width=NINETY_FIVE * error)

"""What was probably done wrong where a reading does not fit: unit, digits, span, clamp, station.

Every likely slip is undone on paper, and the mended reading is held against what all the other
readings say of it. The likeliest is named first; nothing is changed by it. A slip that can be
undone in many ways, as one digit can, explains anything, and so counts by the mean of its ways.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise
from math import exp
from operator import mul
from typing import Final

from loftwright.constants import (
    FOOT_POUND,
    GRAM,
    GRAVITY,
    INCH,
    MILLIMETRE,
    OUNCE,
    POUND_FORCE,
)
from loftwright.errors import InputError
from loftwright.physics.bench.fit import Solution
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
)
from loftwright.physics.shaft.beam import TipBody

FITS: Final = 3.5
_UNITS: Final[dict[type, tuple[float, ...]]] = {
    ThreePoint: (INCH / MILLIMETRE,),
    Cantilever: (INCH / MILLIMETRE,),
    Torque: (),
    Mass: (OUNCE / GRAM,),
    Balance: (INCH / MILLIMETRE,),
    Frequency: (),
}
_FORCES: Final = (POUND_FORCE, GRAVITY, GRAM * GRAVITY)
SPANS: Final = (
    200.0 * MILLIMETRE,
    250.0 * MILLIMETRE,
    10.0 * INCH,
    300.0 * MILLIMETRE,
    12.0 * INCH,
    350.0 * MILLIMETRE,
    14.0 * INCH,
    400.0 * MILLIMETRE,
)
"""Between supports, as benches are usually set."""
MOMENTS: Final = (FOOT_POUND, FOOT_POUND / 12.0)
_CLAMP_STEPS: Final = (INCH, 0.5 * INCH, 25.0 * MILLIMETRE, 10.0 * MILLIMETRE)


class Slip(StrEnum):
    """What was probably done wrong."""

    SWAPPED_DIGITS = "swapped digits"
    DECIMAL_POINT = "decimal point"
    UNIT = "unit"
    SPAN = "span"
    CLAMP = "clamp"
    STATION = "station"
    WEIGHT = "weight"
    MISSING = "missing station"
    ONE_DIGIT = "one digit"
    UNKNOWN = "unknown"


# How usual each is beside the others; judgements.
_USUAL: Final = {
    Slip.SWAPPED_DIGITS: 1.0,
    Slip.DECIMAL_POINT: 1.0,
    Slip.UNIT: 1.0,
    Slip.SPAN: 0.7,
    Slip.STATION: 0.7,
    Slip.CLAMP: 0.7,
    Slip.WEIGHT: 0.7,
    Slip.ONE_DIGIT: 0.7,
}
IN_USE: Final = 20.0
AS_ALL: Final = 0.1
"""How much likelier a load or span is that other rows have; how much less so another unit of a
load that stands in other rows as here, or a slipped point where all have as many decimals."""
_ALIKE: Final = 0.03
NEARER: Final = 0.8
"""How usual each next station is beside the one before, from the nearest outwards."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A slip and the reading as it would be without it.

    Attributes
    ----------
    slip : Slip
    reading : Reading, optional
        As it was probably meant; none for an unknown slip.
    off : float
        How far it then lies from what all others say of it, in standard deviations.
    """

    slip: Slip
    reading: Reading | None
    off: float


def likely(reading: Reading, others: Solution) -> tuple[Mend, ...]:
    """Return what was probably done wrong with a reading, the likeliest first.

    Parameters
    ----------
    reading : Reading
        The strange one.
    others : Solution
        Of the other readings alone.

    Returns
    -------
    tuple of Mend
        Slips whose mended reading fits; if there is none, one of an unknown slip.
    """
    best: dict[Slip, Mend] = {}
    fits: dict[Slip, list[float]] = {}
    shares: dict[Slip, list[float]] = {}
    for slip, mended in _candidates(reading, others.readings):
        told, share = fits.setdefault(slip, []), shares.setdefault(slip, [])
        share.append(NEARER ** len(share) if slip is Slip.STATION else 1.0)
        try:
            off = others.of_another(mended)
        except InputError:  # a set-up that this shaft cannot be in is no candidate
            told.append(0.0)
            continue
        told.append(_context(slip, reading, mended, others.readings) * exp(-0.5 * off**2))
        if abs(off) < FITS and (slip not in best or abs(off) < abs(best[slip].off)):
            best[slip] = Mend(slip=slip, reading=mended, off=off)
    if not best:
        return (Mend(slip=Slip.UNKNOWN, reading=None, off=others.of_another(reading)),)
    odds = {
        slip: _USUAL[slip] * sum(map(mul, shares[slip], fits[slip])) / sum(shares[slip])
        for slip in best
    }
    return tuple(sorted(best.values(), key=lambda mend: -odds[mend.slip]))


def _context(slip: Slip, reading: Reading, mended: Reading, others: Sequence[Reading]) -> float:
    """Return how much likelier a slip is from what other rows of its kind have."""
    alike = [one for one in others if type(one) is type(reading)]
    if slip is Slip.DECIMAL_POINT:
        places = {_decimals(one.typed) for one in alike if one.typed}
        return AS_ALL if places == {_decimals(reading.typed)} else 1.0
    for name in ("force", "moment", "span"):
        typed, meant = getattr(reading, name, None), getattr(mended, name, None)
        if typed is None or meant is None or typed == meant:
            continue
        used = [getattr(one, name) for one in alike]
        if name != "span" and any(abs(one / typed - 1.0) < _ALIKE for one in used):
            return AS_ALL
        if any(abs(one / meant - 1.0) < _ALIKE for one in used):
            return IN_USE
    return 1.0


def _candidates(reading: Reading, others: Sequence[Reading]) -> Iterator[tuple[Slip, Reading]]:
    for factor in (10.0, 0.1, 100.0, 0.01):
        yield from _valued(Slip.DECIMAL_POINT, reading, reading.value * factor)
    for unit in _UNITS[type(reading)]:
        for factor in (unit, 1.0 / unit):
            yield from _valued(Slip.UNIT, reading, reading.value * factor)
    for digits in _swapped(reading.typed):
        yield from _typed(Slip.SWAPPED_DIGITS, reading, digits)
    for digits in _one_other(reading.typed):
        yield from _typed(Slip.ONE_DIGIT, reading, digits)
    match reading:
        case ThreePoint():
            yield from _loads(reading, reading.force, "force", _FORCES)
            yield from _supports(reading, others)
        case Cantilever():
            yield from _loads(reading, reading.force, "force", _FORCES)
            yield from _clamps(reading, others)
        case Frequency():
            yield from _clamps(reading, others)
        case Torque():
            yield from _loads(reading, reading.moment, "moment", MOMENTS)
            for clamp in _clamp_depths(reading.clamp, others):
                yield from _built(Slip.CLAMP, reading, clamp=clamp)


def _loads(
    reading: Reading, load: float, name: str, units: Sequence[float]
) -> Iterator[tuple[Slip, Reading]]:
    for unit in units:
        for factor in (unit, 1.0 / unit):
            yield from _built(Slip.UNIT, reading, **{name: load * factor})


def _supports(reading: ThreePoint, others: Sequence[Reading]) -> Iterator[tuple[Slip, Reading]]:
    spans = {one.span for one in others if isinstance(one, ThreePoint)}
    for span in sorted(spans | set(SPANS)):
        if abs(span / reading.span - 1.0) > 1e-6:
            yield from _built(Slip.SPAN, reading, span=span)
    stations = sorted({one.station for one in others if isinstance(one, ThreePoint)})
    near = sorted([*stations, *_beyond(stations)], key=lambda one: abs(one - reading.station))
    for station in near:
        if abs(station - reading.station) > MILLIMETRE:
            yield from _built(Slip.STATION, reading, station=station)


def _beyond(stations: Sequence[float]) -> tuple[float, ...]:
    """Return where the next station at either end would be."""
    if len(stations) < 2:
        return ()
    return 2.0 * stations[0] - stations[1], 2.0 * stations[-1] - stations[-2]


def _clamps(
    reading: Cantilever | Frequency, others: Sequence[Reading]
) -> Iterator[tuple[Slip, Reading]]:
    mount = reading.mount
    for clamp in _clamp_depths(mount.clamp, others):
        yield from _built(Slip.CLAMP, reading, mount=replace(mount, clamp=clamp))
    if isinstance(reading, Frequency):
        weights = {one.weight.mass for one in others if isinstance(one, Frequency)}
        for mass in sorted(weights - {reading.weight.mass}):
            weight = TipBody(mass=mass, inertia=reading.weight.inertia, reach=reading.weight.reach)
            yield from _built(Slip.WEIGHT, reading, weight=weight)


def _clamp_depths(clamp: float, others: Sequence[Reading]) -> list[float]:
    """Return other depths to which a clamp may have been set: those in use, and steps off."""
    used = {one.mount.clamp for one in others if isinstance(one, Cantilever | Frequency)}
    used |= {one.clamp for one in others if isinstance(one, Torque)}
    off = {clamp + sign * step for step in _CLAMP_STEPS for sign in (-1.0, 1.0)}
    return sorted(one for one in used | off if one >= 0.0 and abs(one - clamp) > MILLIMETRE)


def _swapped(typed: str) -> Iterator[str]:
    """Yield the text with two neighbouring digits changed about, over a decimal point too."""
    places = [place for place, letter in enumerate(typed) if letter.isdigit()]
    for first, second in pairwise(places):
        letters = list(typed)
        letters[first], letters[second] = letters[second], letters[first]
        if letters[first] != letters[second]:
            yield "".join(letters)


def _one_other(typed: str) -> Iterator[str]:
    """Yield the text with one digit another."""
    for place, letter in enumerate(typed):
        if letter.isdigit():
            for other in "0123456789".replace(letter, ""):
                yield typed[:place] + other + typed[place + 1 :]


def _typed(slip: Slip, reading: Reading, digits: str) -> Iterator[tuple[Slip, Reading]]:
    """Yield a reading whose text was meant otherwise."""
    before, after = _number(reading.typed), _number(digits)
    if before > 0.0 and after > 0.0:
        yield from _valued(slip, reading, reading.value * after / before)


def _decimals(digits: str) -> int:
    """Return how many digits stand behind the decimal point."""
    return len(digits.replace(",", ".").partition(".")[2])


def _number(digits: str) -> float:
    try:
        return float(digits.replace(",", "."))
    except ValueError:
        return 0.0


def _valued(slip: Slip, reading: Reading, value: float) -> Iterator[tuple[Slip, Reading]]:
    yield from _built(slip, reading, value=value, typed="")


def _built(slip: Slip, reading: Reading, **changed: object) -> Iterator[tuple[Slip, Reading]]:
    """Yield a changed reading, unless no bench reads it so."""
    try:
        mended: Reading = replace(reading, **changed)  # type: ignore[arg-type]
    except InputError:
        return
    yield slip, mended

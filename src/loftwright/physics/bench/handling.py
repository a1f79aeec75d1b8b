"""What usual handling does to a kept shaft's weight, balance and frequency, one by one."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final, TypeAlias

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.physics.bench.readings import Balance, Frequency, Mass
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Dressing
from loftwright.physics.shaft.profile import Profile, trimmed

USUAL_GRIP: Final = 270.0 * MILLIMETRE
USUAL_SLEEVE: Final = 35.0 * MILLIMETRE

QuickReading: TypeAlias = Mass | Balance | Frequency


class Cause(StrEnum):
    """Why today's figures may differ from the kept ones."""

    TRIMMED_TIP = "tip trimmed"
    TRIMMED_BUTT = "butt cut"
    GRIP_ON = "grip on it"
    GRIP_OFF = "grip not on it"
    SLEEVE_ON = "sleeve on it"
    SLEEVE_OFF = "sleeve not on it"
    CLAMP = "clamp depth"
    WEIGHT = "weight on the end"
    LABELS = "labels mixed up"
    ANOTHER_PIECE = "another piece"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A shaft and the set-ups in which it is read.

    Attributes
    ----------
    profile : Profile
        Of the bare shaft.
    readings : tuple of Mass, Balance or Frequency
        Their values do not count.
    """

    profile: Profile
    readings: tuple[QuickReading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling:
    """A cause, how large it can be, and what it does.

    Attributes
    ----------
    cause : Cause
    sizes : tuple of float
        From the least to the most [m or kg]; twice one where there is no size to find.
    done : callable
        The bench as it would be after a size of it; an InputError if it cannot be.
    """

    cause: Cause
    sizes: tuple[float, float]
    done: Callable[[float], Bench]


def predicted(profile: Profile, reading: QuickReading) -> float:
    """Return what would be read of a shaft, in the unit of the reading.

    Parameters
    ----------
    profile : Profile
        Of the bare shaft.
    reading : Mass, Balance or Frequency
        Its value does not count.

    Raises
    ------
    InputError
        If the set-up does not suit the shaft.
    """
    match reading:
        case Frequency(mount=mount, weight=weight):
            return frequency(profile, mount, weight)
        case Mass(dressing=on_it):
            return profile.mass + on_it.grip_mass + on_it.sleeve_mass
        case Balance(dressing=on_it):
            mass = profile.mass + on_it.grip_mass + on_it.sleeve_mass
            moment = profile.mass * profile.balance
            moment += on_it.grip_mass * 0.5 * on_it.grip_length
            moment += on_it.sleeve_mass * (profile.length - on_it.sleeve_balance)
            return moment / mass


def handlings(bench: Bench) -> Iterator[Handling]:
    """Yield all usual handling that may have changed the figures of one piece.

    Parameters
    ----------
    bench : Bench
        The kept shaft, in the set-ups that were stated.

    Notes
    -----
    Sizes are judgements: up to 120 mm cut, a grip of 20 to 90 g and 270 mm, a sleeve of 3 to 15 g
    and 35 mm, a clamp up to 60 mm and an end weight up to 60 g from what was stated.
    """
    profile, readings = bench.profile, bench.readings
    on_it = _dressing(readings)
    yield _cut(bench, Cause.TRIMMED_TIP)
    yield _cut(bench, Cause.TRIMMED_BUTT)
    if on_it.grip_mass == 0.0:
        yield _dressed(bench, Cause.GRIP_ON, (20.0 * GRAM, 90.0 * GRAM))
    else:
        yield _dressed(bench, Cause.GRIP_OFF, (0.0, 0.0))
    if on_it.sleeve_mass == 0.0:
        yield _dressed(bench, Cause.SLEEVE_ON, (3.0 * GRAM, 15.0 * GRAM))
    else:
        yield _dressed(bench, Cause.SLEEVE_OFF, (0.0, 0.0))
    swung = [one for one in readings if isinstance(one, Frequency)]
    if swung:
        least = min(one.mount.clamp for one in swung)
        lightest = min(one.weight.mass for one in swung)
        most = 60.0 * MILLIMETRE
        yield Handling(
            cause=Cause.CLAMP,
            sizes=(-min(most, least), most),
            done=lambda size: _each(profile, readings, lambda one: _deeper(one, size)),
        )
        heavy = 60.0 * GRAM
        yield Handling(
            cause=Cause.WEIGHT,
            sizes=(-min(heavy, lightest), heavy),
            done=lambda size: _each(profile, readings, lambda one: _heavier(one, size)),
        )


def _dressing(readings: Sequence[QuickReading]) -> Dressing:
    first = readings[0]
    return first.mount.dressing if isinstance(first, Frequency) else first.dressing


def _cut(bench: Bench, cause: Cause) -> Handling:
    def done(size: float) -> Bench:
        tip, butt = (size, 0.0) if cause is Cause.TRIMMED_TIP else (0.0, size)
        return replace(bench, profile=trimmed(bench.profile, tip=tip, butt=butt))

    return Handling(cause=cause, sizes=(0.0, 120.0 * MILLIMETRE), done=done)


def _dressed(bench: Bench, cause: Cause, sizes: tuple[float, float]) -> Handling:
    """Return a grip or sleeve put on what was stated bare, or stated and not on it."""

    def dressing(on_it: Dressing, size: float) -> Dressing:
        if cause in {Cause.GRIP_ON, Cause.GRIP_OFF}:
            length = USUAL_GRIP if cause is Cause.GRIP_ON else 0.0
            return replace(on_it, grip_mass=size, grip_length=length)
        length = USUAL_SLEEVE if cause is Cause.SLEEVE_ON else 0.0
        return replace(on_it, sleeve_mass=size, sleeve_length=length, sleeve_balance=0.5 * length)

    def changed(one: QuickReading, size: float) -> QuickReading:
        if isinstance(one, Frequency):
            mount = replace(one.mount, dressing=dressing(one.mount.dressing, size))
            return replace(one, mount=mount)
        return replace(one, dressing=dressing(one.dressing, size))

    def done(size: float) -> Bench:
        return _each(bench.profile, bench.readings, lambda one: changed(one, size))

    return Handling(cause=cause, sizes=sizes, done=done)


def _each(
    profile: Profile,
    readings: Sequence[QuickReading],
    change: Callable[[QuickReading], QuickReading],
) -> Bench:
    return Bench(profile=profile, readings=tuple(change(one) for one in readings))


def _deeper(one: QuickReading, size: float) -> QuickReading:
    if not isinstance(one, Frequency):
        return one
    return replace(one, mount=replace(one.mount, clamp=one.mount.clamp + size))


def _heavier(one: QuickReading, size: float) -> QuickReading:
    if not isinstance(one, Frequency):
        return one
    weight = one.weight
    changed = TipBody(mass=weight.mass + size, inertia=weight.inertia, reach=weight.reach)
    return replace(one, weight=changed)

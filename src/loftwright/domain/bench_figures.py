"""What a bench would read of a measured shaft under a set-up, each figure with its noise."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray
from loftwright.constants import FOOT_POUND, GRAM, INCH
from loftwright.domain.profile import SEEN, MeasuredProfile
from loftwright.domain.sections import BOUNDS, Section, extent
from loftwright.domain.shaft_shape import TWIST, WEIGHT, WEIGHT_ALONG, shape_of
from loftwright.physics.bench.beliefs import Beliefs
from loftwright.physics.bench.piece import Estimate
from loftwright.physics.bench.readings import MOMENT
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.deflection import twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.limits import (
    BENDING,
    END_WEIGHT,
    LINE_DENSITY,
    TORSION,
    Limit,
    not_negative,
    within,
)
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft.profile import Profile

SECTIONS: Final = tuple(Section)
_STEP: Final = 0.001


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """What a frequency and a torque mean nothing without.

    Attributes
    ----------
    clamp : float
        How much of the butt is held [m].
    weight : float
        On the tip end for the frequency [kg].
    moment : float
        About the shaft for the torque [N m].
    reach : float
        Of that moment from the tip end; the gauge length runs from the clamp to it [m].
    """

    clamp: float = 5.0 * INCH
    weight: float = 205.0 * GRAM
    moment: float = FOOT_POUND
    reach: float = 1.0 * INCH

    def __post_init__(self) -> None:
        not_negative(self.clamp, "clamp")
        not_negative(self.reach, "reach")
        within(self.weight, END_WEIGHT)
        within(self.moment, MOMENT)

    def free_length(self, length: float) -> float:
        """Return how much of a shaft of some length swings [m]."""
        return length - self.clamp

    def gauge_length(self, length: float) -> float:
        """Return over how much of a shaft of some length the moment twists it [m]."""
        return length - self.clamp - self.reach


USUAL: Final = SetUp()


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchFigures:
    """What a bench would read of a shaft; None where it was not measured.

    Attributes
    ----------
    length : float
        [m]
    bending : dict of Section to Estimate
        Geometric mean of EI over each section that was mostly seen [N m^2].
    frequency : Estimate, optional
        [s^-1]
    torque : Estimate, optional
        [rad]
    mass : Estimate, optional
        [kg]
    balance : Estimate, optional
        From the butt end [m].
    """

    length: float
    bending: dict[Section, Estimate]
    frequency: Estimate | None
    torque: Estimate | None
    mass: Estimate | None
    balance: Estimate | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KnownShaft:
    """A measured shaft, and every independent way in which it may be otherwise.

    Attributes
    ----------
    profile : Profile
    share : FloatArray
        Standard error of EI at the stations, as a share.
    others : tuple of Profile
        The shaft with one error of the bench each: EI of one section, GJ of one section, the
        scale that all stiffness shares, the weight, and where the weight sits.
    weighed, balanced : float
        What scales told over what the line density adds up to, and the balance point beyond it.
    assumed : tuple of str
        As in `ShaftShape`.
    """

    profile: Profile
    share: FloatArray
    others: tuple[Profile, ...]
    weighed: float
    balanced: float
    assumed: tuple[str, ...]


def known_shaft(measured: MeasuredProfile) -> KnownShaft:
    """Return a measured shaft with what its errors allow.

    Raises
    ------
    InputError
        If weight and balance point leave no weight at one end.
    """
    shape = shape_of(measured)
    profile = _parted(shape.profile)
    bent, turned = (
        np.interp(profile.stations, measured.station, _share(measured, name))
        for name in ("bending", "twisting")
    )
    return KnownShaft(
        profile=profile,
        share=bent,
        others=tuple(_others(measured, profile, shape.assumed, (bent, turned))),
        weighed=1.0 if measured.mass is None else measured.mass / profile.mass,
        balanced=0.0 if measured.balance is None else measured.balance - profile.balance,
        assumed=shape.assumed,
    )


def bench_figures(measured: MeasuredProfile, set_up: SetUp = USUAL) -> BenchFigures:
    """Return what a bench would read of a measured shaft.

    Parameters
    ----------
    measured : MeasuredProfile
    set_up : SetUp

    Raises
    ------
    InputError
        If the set-up does not suit the shaft.

    Notes
    -----
    Errors of stiffness within a section are taken as fully correlated, as for what plays like
    what, those of two sections as independent, and the scale of the bench as one for all.
    """
    known = known_shaft(measured)
    found = read_off(known, known.profile, set_up)
    spreads = spread_of(read_off(known, one, set_up) - found for one in known.others)
    return told(known, known.profile, known.share, found, spreads)


def read_off(known: KnownShaft, profile: Profile, set_up: SetUp) -> FloatArray:
    """Return frequency, torque, mass, balance and the mean of EI in each section, in SI.

    Parameters
    ----------
    known : KnownShaft
    profile : Profile
        Its own, or one that errors or trims made of it.
    set_up : SetUp
    """
    length = profile.length
    held = Mount(clamp=set_up.clamp)
    swing = frequency(profile, held, TipBody(mass=set_up.weight))
    turn = twist(profile, set_up.clamp, length - set_up.reach, set_up.moment)
    sections = [_mean(profile.stations, np.log(profile.bending), one) for one in SECTIONS]
    return np.array(
        [
            *(swing, turn, profile.mass * known.weighed, profile.balance + known.balanced),
            *np.exp(sections),
        ]
    )


def spread_of(apart: Iterable[FloatArray]) -> FloatArray:
    """Return the root of the sum of squares of what independent errors do."""
    found: FloatArray = np.sqrt(sum(one**2 for one in apart))
    return found


def told(
    known: KnownShaft,
    profile: Profile,
    share: FloatArray,
    values: FloatArray,
    spreads: FloatArray,
) -> BenchFigures:
    """Return figures of a shaft without those that nobody measured.

    Parameters
    ----------
    known : KnownShaft
    profile : Profile
        The shaft that the figures are of.
    share : FloatArray
        Standard error of EI at its stations, as a share.
    values, spreads : FloatArray
        As `read_off` orders them.
    """
    pairs = [Estimate(float(one), float(by)) for one, by in zip(values, spreads, strict=True)]
    swing, turn, mass, balance, *bending = pairs
    no_weight, no_twist = WEIGHT in known.assumed, TWIST in known.assumed
    where = zip(SECTIONS, bending, strict=True)
    return BenchFigures(
        length=profile.length,
        bending={one: told for one, told in where if _seen(profile.stations, share, one)},
        frequency=None if no_weight else swing,
        torque=None if no_twist else turn,
        mass=None if no_weight else mass,
        balance=None if no_weight or WEIGHT_ALONG in known.assumed else balance,
    )


def _parted(profile: Profile) -> Profile:
    """Return the same shaft with stations on both sides of where sections meet."""
    ends = np.array([low for low, _ in BOUNDS.values() if 0.0 < low < profile.length])
    stations = np.union1d(profile.stations, [*(ends - _STEP), *ends])
    return Profile(
        stations=stations,
        bending=np.interp(stations, profile.stations, profile.bending),
        torsion=np.interp(stations, profile.stations, profile.torsion),
        line_density=np.interp(stations, profile.stations, profile.line_density),
    )


def _share(measured: MeasuredProfile, name: str) -> FloatArray:
    """Return the standard error of a stiffness as a share, nothing where it was not measured."""
    values, errors = getattr(measured, name), getattr(measured, f"{name}_error")
    found: FloatArray = np.zeros_like(measured.station) if values is None else errors / values
    return found


def _others(
    measured: MeasuredProfile,
    profile: Profile,
    assumed: tuple[str, ...],
    shares: tuple[FloatArray, FloatArray],
) -> Iterable[Profile]:
    bent, turned = shares
    for section in SECTIONS:
        inside = _inside(profile.stations, section)
        if inside.any():
            yield _moved(profile, bending=bent * inside)
            yield _moved(profile, torsion=turned * inside)
    even = np.full_like(bent, measured.scale_error)
    yield _moved(profile, bending=even, torsion=even)
    yield _moved(profile, density=_weight_error(measured, profile))
    yield _moved(profile, density=_lean_error(measured, profile, assumed))


def _inside(stations: FloatArray, section: Section) -> BoolArray:
    low, high = BOUNDS[section]
    inside: BoolArray = (low <= stations) & (stations < (np.inf if high is None else high))
    return inside


def _weight_error(measured: MeasuredProfile, profile: Profile) -> FloatArray:
    """Return what an error of the weight adds to the line density everywhere [kg m^-1]."""
    if measured.mass is not None and measured.mass_error is not None:
        return profile.line_density * (measured.mass_error / measured.mass)
    if measured.density_error is not None:
        error: FloatArray = np.interp(profile.stations, measured.station, measured.density_error)
        return error
    return np.full_like(profile.line_density, Beliefs().line_density)


def _lean_error(
    measured: MeasuredProfile, profile: Profile, assumed: tuple[str, ...]
) -> FloatArray:
    """Return what an error of the balance point shifts from one end to the other [kg m^-1]."""
    along = profile.stations / profile.length - 0.5
    if measured.balance_error is not None and measured.mass is not None:
        slope = 12.0 * measured.balance_error / profile.length * profile.mass / profile.length
    elif assumed:
        slope = Beliefs().density_slope
    else:
        slope = 0.0
    return slope * along


def _moved(
    profile: Profile,
    bending: FloatArray | float = 0.0,
    torsion: FloatArray | float = 0.0,
    density: FloatArray | float = 0.0,
) -> Profile:
    return Profile(
        stations=profile.stations,
        bending=_kept(profile.bending * np.exp(bending), BENDING),
        torsion=_kept(profile.torsion * np.exp(torsion), TORSION),
        line_density=_kept(profile.line_density + density, LINE_DENSITY),
    )


def _kept(values: FloatArray, limit: Limit) -> FloatArray:
    """Return figures within what shafts have: no error reaches beyond."""
    return np.clip(values, limit.low, limit.high)


def _mean(stations: FloatArray, values: FloatArray, section: Section) -> float:
    lies = extent(section, float(stations[-1]))
    if lies is None:
        return float("nan")
    return float(np.mean(np.interp(_places(*lies), stations, values)))


def _seen(stations: FloatArray, share: FloatArray, section: Section) -> bool:
    lies = extent(section, float(stations[-1]))
    if lies is None:
        return False
    return bool(np.mean(np.interp(_places(*lies), stations, share) <= SEEN) >= 0.5)


def _places(low: float, high: float) -> FloatArray:
    return np.linspace(low, high, 1 + max(1, round((high - low) / _STEP)))

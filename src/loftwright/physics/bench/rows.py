"""What each reading would be for a given shaft, and how it moves with each unknown.

Sensitivities are analytic: a deflection's from its integral, a frequency's by Rayleigh,
d ln f / d ln EI at a knot = 1/2 of the share of bending energy under that knot's hat, so that they
sum to one half over the shaft. Differences of frequencies would drown in the eigen-solver's noise.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import log, pi
from typing import Final, NamedTuple, Protocol

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.bench.beliefs import Unknowns, hats
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Frequency,
    Mass,
    Reading,
    ThreePoint,
    Torque,
)
from loftwright.physics.shaft.beam import (
    WEIGHTS,
    Beam,
    assembled,
    at_gauss_points,
    curvatures,
    joined,
    mass_elements,
    stiffness_elements,
)
from loftwright.physics.shaft.bending_work import (
    Work,
    cantilever_work,
    three_point_work,
    twist_work,
)
from loftwright.physics.shaft.mount import grip_density, hung, placed, within_sleeve

NEAREST_BALANCE: Final = 0.3


class Said(NamedTuple):
    """The logarithm of what a reading would be, and its slopes with the unknowns."""

    value: float
    slopes: FloatArray


class Row(Protocol):
    """One reading as a function of the unknowns."""

    @property
    def reach(self) -> tuple[float, float]:
        """Return between which stations it works on the shaft; twice one if on none [m]."""
        ...

    def says(self, unknown: FloatArray) -> Said:
        """Return what would be read."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Compliance:
    """A deflection or twist: weights over a stiffness whose logarithm is linear between knots."""

    weights: FloatArray
    hats: FloatArray
    part: slice
    scale: int
    reach: tuple[float, float]

    def says(self, unknown: FloatArray) -> Said:
        shares = self.weights * np.exp(-(self.hats @ unknown[self.part]))
        total = float(shares.sum())
        slopes = np.zeros_like(unknown)
        slopes[self.part] = -(shares @ self.hats) / total
        slopes[self.scale] = 1.0
        return Said(log(total) + float(unknown[self.scale]), slopes)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Swing:
    """A frequency: the mass matrix is linear in line density and its change."""

    nodes: FloatArray
    hats: FloatArray
    fixed: FloatArray
    by_density: tuple[FloatArray, FloatArray]
    part: slice
    density: slice
    scale: int
    reach: tuple[float, float]

    def says(self, unknown: FloatArray) -> Said:
        from scipy.linalg import LinAlgError, eigh  # noqa: PLC0415 - scipy is slow to import

        level, change = unknown[self.density]
        mass = self.fixed + level * self.by_density[0] + change * self.by_density[1]
        bending = np.exp(self.hats @ unknown[self.part])
        beam = Beam(nodes=self.nodes, bending=bending, line_density=np.zeros_like(bending))
        stiffness = assembled(stiffness_elements(beam))
        last = len(mass) - 1
        try:
            values, vectors = eigh(mass, stiffness, subset_by_index=(last, last))
        except LinAlgError as error:
            raise InputError(
                "these readings lead to a shaft that nothing holds",
                place="readings",
                mend="Look for a reading of another shaft, or in another unit.",
            ) from error
        squared, shape = 1.0 / float(values[0]), vectors[:, 0]
        bend = at_gauss_points(beam, shape, curvatures(beam.steps))
        energy = bending * bend**2 * WEIGHTS * beam.steps[:, None]
        slopes = np.zeros_like(unknown)
        slopes[self.part] = 0.5 * np.einsum("eg,egk->k", energy, self.hats) / energy.sum()
        moving = float(shape @ mass @ shape)
        slopes[self.density] = [-0.5 * (shape @ one @ shape) / moving for one in self.by_density]
        slopes[self.scale] = 1.0
        return Said(0.5 * log(squared) - log(2.0 * pi) + float(unknown[self.scale]), slopes)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Weighed:
    """A mass: what is on the shaft, and its line density times its length."""

    on_it: float
    length: float
    density: slice
    reach: tuple[float, float] = (0.0, 0.0)

    def says(self, unknown: FloatArray) -> Said:
        mass = self.on_it + self.length * float(unknown[self.density][0])
        slopes = np.zeros_like(unknown)
        slopes[self.density] = (self.length / mass, 0.0)
        return Said(log(mass), slopes)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Balanced:
    """A balance point: first moment over mass, with what is on the shaft."""

    on_it: float
    moment_on_it: float
    length: float
    density: slice
    reach: tuple[float, float] = (0.0, 0.0)

    def says(self, unknown: FloatArray) -> Said:
        level, change = unknown[self.density]
        square = self.length**2
        mass = self.on_it + self.length * float(level)
        moment = self.moment_on_it + square * (0.5 * float(level) + float(change) / 12.0)
        slopes = np.zeros_like(unknown)
        slopes[self.density] = (
            0.5 * square / moment - self.length / mass,
            square / 12.0 / moment,
        )
        return Said(log(moment) - log(mass), slopes)


def row_of(reading: Reading, layout: Unknowns) -> Row:
    """Return a reading as a function of the unknowns.

    Parameters
    ----------
    reading : Reading
    layout : Unknowns

    Raises
    ------
    InputError
        If its set-up does not suit the shaft.
    """
    match reading:
        case ThreePoint(station=station, span=span, force=force):
            at = _three_point(station, span, layout.length, layout.knots.tobytes())
            return _compliance(at, force, layout, layout.bending, "three_point")
        case Cantilever(mount=mount, force=force, force_at=force_at, read_at=read_at):
            work = cantilever_work(_breaks(layout.knots, layout.length), mount, force_at, read_at)
            return _compliance(
                _under(work, layout.knots), force, layout, layout.bending, "cantilever"
            )
        case Torque(clamp=clamp, load_at=load_at, moment=moment):
            work = twist_work(_breaks(layout.knots, layout.length), clamp, load_at)
            return _compliance(
                _under(work, layout.knots), moment, layout, layout.torsion, "torque"
            )
        case Frequency():
            return _swing(reading, layout)
        case Mass(dressing=on_it):
            return _Weighed(
                on_it=on_it.grip_mass + on_it.sleeve_mass,
                length=layout.length,
                density=layout.density,
            )
        case Balance(value=value, dressing=on_it):
            _check_balance(value, layout.length)
            sleeve_at = layout.length - on_it.sleeve_balance
            return _Balanced(
                on_it=on_it.grip_mass + on_it.sleeve_mass,
                moment_on_it=on_it.grip_mass * 0.5 * on_it.grip_length
                + on_it.sleeve_mass * sleeve_at,
                length=layout.length,
                density=layout.density,
            )


def _check_balance(value: float, length: float) -> None:
    if not NEAREST_BALANCE <= value / length <= 1.0 - NEAREST_BALANCE:
        raise InputError(
            f"a shaft of {length / MILLIMETRE:g} mm does not balance "
            f"{value / MILLIMETRE:g} mm from its butt",
            place="balance point",
            mend="Measure it from the butt end; check length and unit.",
        )


class _Under(NamedTuple):
    """What a unit load finds under it: weights, each knot's share of them, and its reach."""

    weights: FloatArray
    hats: FloatArray
    reach: tuple[float, float]


@lru_cache(maxsize=2048)
def _three_point(station: float, span: float, length: float, knots: bytes) -> _Under:
    """Return what a station of a table finds, which every fit of the table asks for again."""
    at = np.frombuffer(knots)
    return _under(three_point_work(_breaks(at, length), station, span), at)


def _breaks(knots: FloatArray, length: float) -> FloatArray:
    found: FloatArray = np.unique(np.append(knots[knots < length], length))
    return found


def _under(work: Work, knots: FloatArray) -> _Under:
    return _Under(
        weights=frozen_array(work.weights),
        hats=frozen_array(hats(work.points, knots)),
        reach=(float(work.points.min()), float(work.points.max())),
    )


def _compliance(
    under: _Under, load: float, layout: Unknowns, part: slice, kind: str
) -> _Compliance:
    return _Compliance(
        weights=load * under.weights,
        hats=under.hats,
        part=part,
        scale=layout.scale(kind),
        reach=under.reach,
    )


def _swing(reading: Frequency, layout: Unknowns) -> _Swing:
    mount = reading.mount
    where = placed(layout.length, mount)
    lean = where.along / layout.length - 0.5
    ends = np.array([0.0, layout.length])
    by_density = tuple(
        assembled(_mass(where.nodes, density), within_sleeve(where, mount, ends, at_ends).matrix)
        for density, at_ends in (
            (np.ones_like(lean), np.array([1.0, 1.0])),
            (lean, np.array([-0.5, 0.5])),
        )
    )
    body = joined(*hung(where, mount, reading.weight))
    return _Swing(
        nodes=where.nodes,
        hats=hats(where.along, layout.knots),
        fixed=assembled(_mass(where.nodes, grip_density(mount, where.along)), body.matrix),
        by_density=(by_density[0], by_density[1]),
        part=layout.bending,
        density=layout.density,
        scale=layout.scale("frequency"),
        reach=(float(where.along.min()), float(where.along.max())),
    )


def _mass(nodes: FloatArray, density: FloatArray) -> FloatArray:
    return mass_elements(Beam(nodes=nodes, bending=np.zeros_like(density), line_density=density))

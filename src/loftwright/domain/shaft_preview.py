"""What a trim, build-up or a larger butt would do to a measured shaft, before anything is cut."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.domain.bench_figures import (
    SECTIONS,
    USUAL,
    BenchFigures,
    KnownShaft,
    SetUp,
    known_shaft,
    read_off,
    spread_of,
    told,
)
from loftwright.domain.profile import MeasuredProfile
from loftwright.errors import InputError
from loftwright.physics.shaft.limits import Limit, not_negative, within
from loftwright.physics.shaft.profile import Profile, trimmed
from loftwright.physics.shaft.tube import diameter_over_tape, second_moment

MOST_WRAPS: Final = 12
TAPE: Final = Limit(
    "tape thickness", 0.02 * MILLIMETRE, 0.5 * MILLIMETRE, "mm", MILLIMETRE, "inches instead of mm"
)
BUTT: Final = Limit(
    *("butt diameter", 12.0 * MILLIMETRE, 18.0 * MILLIMETRE),
    *("mm", MILLIMETRE, "inches instead of mm"),
)
LARGE_TO: Final = 300.0 * MILLIMETRE
FADED_AT: Final = 400.0 * MILLIMETRE
"""A larger butt is larger as far as the first, and no larger from the second on (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trims:
    """What might be done to a shaft.

    Attributes
    ----------
    tip, butt : float
        Lengths cut off [m].
    wraps : int
        Of tape under the grip.
    tape : float
        Thickness of that tape [m].
    butt_diameter : float, optional
        Outside, of a shaft like this one with another butt [m].
    wall : float, optional
        Of this shaft's tube at the butt, which the other keeps [m].

    Raises
    ------
    InputError
        If one of them cannot be, or two go together and one is missing.
    """

    tip: float = 0.0
    butt: float = 0.0
    wraps: int = 0
    tape: float = 0.0
    butt_diameter: float | None = None
    wall: float | None = None

    def __post_init__(self) -> None:
        not_negative(self.tip, "tip")
        not_negative(self.butt, "butt")
        not_negative(self.tape, "tape")
        if not 0 <= self.wraps <= MOST_WRAPS:
            raise InputError(
                f"{self.wraps} wraps cannot be",
                place="wraps",
                mend=f"Give 0 to {MOST_WRAPS} wraps of tape.",
            )
        if (self.wraps > 0) != (self.tape > 0.0):
            lost = "tape" if self.wraps > 0 else "wraps"
            raise InputError(
                "wraps and the thickness of their tape go together",
                place=lost,
                mend="Give both: a wrap of unknown thickness has no size.",
            )
        if self.tape > 0.0:
            within(self.tape, TAPE, "tape")
        if (self.butt_diameter is None) != (self.wall is None):
            lost = "wall" if self.wall is None else "butt_diameter"
            raise InputError(
                "another butt diameter and the wall of the tube go together",
                place=lost,
                mend="Give both; the wall is measured at the butt end with a calliper.",
            )
        if self.butt_diameter is not None and self.wall is not None:
            within(self.butt_diameter, BUTT, "butt_diameter")
            second_moment(self.butt_diameter, self.wall)


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """A shaft before and after.

    Attributes
    ----------
    before, after : BenchFigures
    change : BenchFigures
        After less before; its noise is that of the difference, in which most of the bench's
        error drops out. EI of a section that only one of them has is missing.
    hand, hand_after : float, optional
        Outside diameter at the butt end, over the tape; None where nobody measured it [m].
    added : float
        What the tape adds to that diameter [m].
    wider : bool
        Whether it is that of another butt.
    set_up : SetUp
        Of the frequencies and torques.
    assumed : tuple of str
        What of the shaft was not measured, as in `ShaftShape`.
    """

    before: BenchFigures
    after: BenchFigures
    change: BenchFigures
    hand: float | None
    hand_after: float | None
    added: float
    wider: bool
    set_up: SetUp
    assumed: tuple[str, ...]


def preview(measured: MeasuredProfile, trims: Trims, set_up: SetUp = USUAL) -> Preview:
    """Return what trims and builds would do to a measured shaft.

    Parameters
    ----------
    measured : MeasuredProfile
    trims : Trims
    set_up : SetUp
        The same before and after; the clamp holds the new butt end.

    Returns
    -------
    Preview

    Raises
    ------
    InputError
        If too little of the shaft is left, or what a build needs was not measured; its place is
        the name of the trim.

    Notes
    -----
    Tape copies a size in the hand and no stiffness. A larger butt at equal wall changes EI and GJ
    as the second moment of the tube and the line density as its area, as far as `LARGE_TO`, fading
    to nothing at `FADED_AT`; material and lay-up stay as they are. Sections count from the new
    butt end.
    """
    known = known_shaft(measured)
    before = read_off(known, known.profile, set_up)
    cut = _done(known.profile, measured, trims)
    after = read_off(known, cut, set_up)
    apart = [
        (
            read_off(known, one, set_up) - before,
            read_off(known, _done(one, measured, trims), set_up) - after,
        )
        for one in known.others
    ]
    share = np.interp(cut.stations + trims.butt, known.profile.stations, known.share)
    was = told(known, known.profile, known.share, before, spread_of(one for one, _ in apart))
    becomes = told(known, cut, share, after, spread_of(other for _, other in apart))
    return Preview(
        before=was,
        after=becomes,
        change=_change(
            known, cut, (was, becomes), after - before, spread_of(b - a for a, b in apart)
        ),
        hand=measured.butt_diameter,
        hand_after=_hand(measured, trims),
        added=diameter_over_tape(0.0, trims.tape, trims.wraps),
        wider=trims.butt_diameter is not None,
        set_up=set_up,
        assumed=known.assumed,
    )


def _done(profile: Profile, measured: MeasuredProfile, trims: Trims) -> Profile:
    """Return a shaft after all that is to be done to it."""
    wide = profile
    if trims.butt_diameter is not None and trims.wall is not None:
        wide = _wider(profile, _butt_of(measured), trims.butt_diameter, trims.wall)
    return trimmed(wide, tip=trims.tip, butt=trims.butt)


def _wider(profile: Profile, diameter: float, other: float, wall: float) -> Profile:
    stations = np.union1d(profile.stations, [LARGE_TO, FADED_AT])
    fade = np.interp(stations, [LARGE_TO, FADED_AT], [1.0, 0.0])
    stiffer = 1.0 + fade * (second_moment(other, wall) / second_moment(diameter, wall) - 1.0)
    heavier = 1.0 + fade * ((other - wall) / (diameter - wall) - 1.0)

    def along(values: FloatArray) -> FloatArray:
        found: FloatArray = np.interp(stations, profile.stations, values)
        return found

    return Profile(
        stations=stations,
        bending=along(profile.bending) * stiffer,
        torsion=along(profile.torsion) * stiffer,
        line_density=along(profile.line_density) * heavier,
    )


def _butt_of(measured: MeasuredProfile) -> float:
    if measured.butt_diameter is None:
        raise InputError(
            "the butt diameter of this shaft was not measured",
            place="butt_diameter",
            mend="Read it on the bench, a diameter at the butt end, and keep the profile again.",
        )
    return measured.butt_diameter


def _hand(measured: MeasuredProfile, trims: Trims) -> float | None:
    """Return the diameter in the hand; what a cut of the butt lays bare was not measured."""
    bare = measured.butt_diameter if trims.butt_diameter is None else trims.butt_diameter
    if bare is None or trims.butt > 0.0:
        return None
    return diameter_over_tape(bare, trims.tape, trims.wraps)


def _change(
    known: KnownShaft,
    cut: Profile,
    both: tuple[BenchFigures, BenchFigures],
    values: FloatArray,
    spreads: FloatArray,
) -> BenchFigures:
    share = np.zeros_like(cut.stations)
    found = told(known, cut, share, values, spreads)
    was, becomes = both
    return BenchFigures(
        length=becomes.length - was.length,
        bending={
            one: found.bending[one]
            for one in SECTIONS
            if one in was.bending and one in becomes.bending
        },
        frequency=found.frequency,
        torque=found.torque,
        mass=found.mass,
        balance=found.balance,
    )

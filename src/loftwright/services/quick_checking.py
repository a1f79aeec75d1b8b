"""Is a shaft still the one whose profile is kept: weight, balance and one frequency of today."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.sections import Section, extent
from loftwright.domain.shaft_shape import shape_of
from loftwright.errors import InputError
from loftwright.physics.bench.handling import QuickReading
from loftwright.physics.bench.quick_check import Kept, QuickCheck, quick_check
from loftwright.physics.bench.readings import Frequency
from loftwright.physics.shaft.frequency import frequency
from loftwright.services.measuring import measured
from loftwright.services.studio import Studio

USUAL_BALANCE_ERROR: Final = 0.01
"""Of a balance point that was not measured, as a share; a judgement."""

USUAL_MASS_ERROR: Final = 0.05
"""Of a weight that was not measured, as a share; a judgement."""

_STEP: Final = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A quick check, and what of the kept shaft was never measured.

    Attributes
    ----------
    assumed : tuple of str
        Of `loftwright.domain.shaft_shape`.
    """

    check: QuickCheck
    assumed: tuple[str, ...]


def check_quickly(
    studio: Studio, piece: str, readings: tuple[QuickReading, ...], length: float | None
) -> Checked:
    """Return whether today's figures are those of a shaft's kept profile.

    Parameters
    ----------
    studio : Studio
    piece : str
    readings : tuple of Mass, Balance or Frequency
        Today's, each with its set-up.
    length : float, optional
        Of the bare shaft today [m].

    Raises
    ------
    InputError
        If no profile of it stands, or a set-up does not suit it.
    """
    profiles = measured(studio)
    mine = profiles.get(piece)
    if mine is None:
        raise InputError(
            "no profile of this shaft stands",
            place="piece",
            mend="Measure it on the bench first; a quick check only compares.",
        )
    swung = next((one for one in readings if isinstance(one, Frequency)), None)
    others = {name: kept_of(profile, swung) for name, profile in profiles.items() if name != piece}
    return Checked(
        check=quick_check(kept_of(mine, swung), readings, length=length, others=others),
        assumed=shape_of(mine).assumed,
    )


def kept_of(measured_shaft: MeasuredProfile, swung: Frequency | None) -> Kept:
    """Return a kept shaft with how well it foretells weight, balance and a frequency.

    Notes
    -----
    The errors of a section's stiffness are taken to go together, those of two sections not; the
    bench's scale error goes through all.
    """
    shape = shape_of(measured_shaft)
    mass, balance = shape.profile.mass, shape.profile.balance
    return Kept(
        profile=shape.profile,
        mass_error=USUAL_MASS_ERROR
        if measured_shaft.mass_error is None
        else measured_shaft.mass_error / mass,
        balance_error=USUAL_BALANCE_ERROR
        if measured_shaft.balance_error is None
        else measured_shaft.balance_error / balance,
        frequency_error=0.0 if swung is None else _frequency_error(measured_shaft, swung),
    )


def _frequency_error(measured_shaft: MeasuredProfile, swung: Frequency) -> float:
    profile = shape_of(measured_shaft).profile
    try:
        foretold = frequency(profile, swung.mount, swung.weight)
    except InputError:
        return 0.0  # the comparison itself says what does not suit this shaft
    variance = (0.5 * measured_shaft.scale_error) ** 2
    share = measured_shaft.bending_error / measured_shaft.bending
    for section in Section:
        lies = extent(section, measured_shaft.length)
        if lies is None:
            continue
        within = (measured_shaft.station >= lies[0]) & (measured_shaft.station <= lies[1])
        if not within.any():
            continue
        stiffer = replace(profile, bending=profile.bending * np.where(within, 1.0 + _STEP, 1.0))
        slope = (frequency(stiffer, swung.mount, swung.weight) / foretold - 1.0) / _STEP
        variance += (slope * float(share[within].mean())) ** 2
    return float(np.sqrt(variance))

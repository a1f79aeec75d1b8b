"""A measured shaft with a piece cut off an end, so that shafts are compared as they are played."""

from dataclasses import replace
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.shaft_shape import WEIGHT, shape_of
from loftwright.physics.shaft.profile import trimmed


def cut(measured: MeasuredProfile, *, tip: float = 0.0, butt: float = 0.0) -> MeasuredProfile:
    """Return a measured shaft without a piece of its tip, of its butt or of both.

    Parameters
    ----------
    measured : MeasuredProfile
    tip, butt : float
        Lengths cut off [m].

    Returns
    -------
    MeasuredProfile
        Stations count from the new butt end; errors are those of the places that are left. Weight
        and balance point follow from the weight along the shaft, where it was weighed.

    Raises
    ------
    InputError
        If a trim is negative or what is left is no shaft.
    """
    if tip == 0.0 and butt == 0.0:
        return measured
    shape = shape_of(measured)
    left = trimmed(shape.profile, tip=tip, butt=butt)
    places = left.stations + butt

    def at(values: FloatArray | None) -> FloatArray | None:
        return None if values is None else np.interp(places, measured.station, values)

    figures: dict[str, Any] = {
        f"{name}{end}": at(getattr(measured, f"{name}{end}"))
        for name in ("bending", "twisting", "density")
        for end in ("", "_error")
    }
    weighed = WEIGHT not in shape.assumed
    return replace(
        measured,
        station=left.stations,
        mass=left.mass if weighed else None,
        mass_error=measured.mass_error if weighed else None,
        balance=left.balance if weighed and measured.balance is not None else None,
        balance_error=measured.balance_error if weighed else None,
        butt_diameter=measured.butt_diameter if butt == 0.0 else None,
        tip_diameter=measured.tip_diameter if tip == 0.0 else None,
        **figures,
    )

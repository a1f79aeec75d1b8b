"""What a sheet's cuts do to the frequency, from the tested sample's own profile on the bench."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.domain.build_sheet import Mind, SolvedBuild
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.shaft_shape import shape_of
from loftwright.errors import InputError
from loftwright.physics.build.club import Cuts
from loftwright.physics.build.forecast import Forecast, forecast
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Mount
from loftwright.services.build import SAME_MASS
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.studio import Studio

SAME_LENGTH: Final = 5.0 * MILLIMETRE
"""By how much a raw shaft and the sample's profile may differ to be told of each other."""

_KEPT: KeptByStudio[Forecast | None] = KeptByStudio()


def with_forecast(
    studio: Studio, shaft_piece: str, draft: Mapping[str, str], solved: SolvedBuild
) -> SolvedBuild:
    """Return a solved sheet with its frequency, where the bench knows the tested shaft.

    Parameters
    ----------
    studio : Studio
    shaft_piece : str
        Id of the tested sample.
    draft : mapping of str to str
        The sheet; without clamp and weight no frequency means anything.
    solved : SolvedBuild

    Notes
    -----
    Of a shaft of another length than its profile nothing is told; of another weight it is told
    with its warning. Errors of the profile's places are taken as independent of one another, the
    bench's scale as common to all.
    """
    clamp, weight = draft.get("target.clamp_mm", ""), draft.get("target.tip_mass_g", "")
    cuts = solved.answer.cuts
    known = [one for one in studio.store.profiles().get(shaft_piece, ()) if not one.set_aside]
    if not (clamp and weight and known and cuts and solved.answer.feasible):
        return solved
    profile = known[-1]
    if abs(profile.length - cuts.raw) > SAME_LENGTH:
        return solved
    held, hung = float(clamp) * MILLIMETRE, float(weight) * GRAM
    key = (profile.id, held, hung, cuts.tip_trim, cuts.butt_cut)
    found = _KEPT.of(studio, key, lambda: _forecast(profile, cuts, held, hung))
    if found is None:
        return solved
    raw = solved.sheet.parts.shaft.rod.whole.mass
    other = profile.mass is not None and abs(profile.mass - raw) > SAME_MASS
    return replace(
        solved,
        frequency=found,
        clamp=held,
        tip_mass=hung,
        minds=solved.minds | ({Mind.OTHER_SHAFT} if other else set()),
    )


def _forecast(
    profile: MeasuredProfile, cuts: Cuts, clamp: float, weight: float
) -> Forecast | None:
    """Return the forecast; None where clamp or weight are outside what a bench holds."""
    share = profile.bending_error / profile.bending
    covariance = np.diag(share**2) + profile.scale_error**2
    try:
        return forecast(
            shape_of(profile).profile,
            Mount(clamp=clamp),
            TipBody(mass=weight),
            tip_trim=cuts.tip_trim,
            butt_cut=cuts.butt_cut,
            covariance=covariance,
        )
    except InputError:
        return None

"""An invented rack with everything in it: generations, measured samples, looks and a recall."""

from collections.abc import Callable

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.inspection import Finding
from loftwright.domain.rack import Assembly, HeadModel, Piece, ShaftModel
from loftwright.services.measuring import keep_profile
from loftwright.services.studio import Studio
from loftwright.services.wear import inspect
from shafts import a_profile

FAMILY = "Heron"
_TIPS = {"heron-60-1": (1.0, 1.01, 0.99), "heron-60-2": (0.9, 0.91), "heron-70-1": (1.2, 1.21)}


def a_measured_rack(studio: Studio) -> None:
    """Fill a studio's rack; shaft `heron-60-1-a` is measured, `heron-60-2-b` cracked."""
    store = studio.store
    head = HeadModel(
        id="harrow", maker="Quillon (invented)", name="Harrow 460", loft=10.5 * DEGREE, stock=2
    )
    store.put_together([(head, None), (Piece(id="harrow-1", model="harrow", label="H1"), None)])
    for weight, generation in ((60, 1), (70, 1), (60, 2), (70, 2), (60, 3)):
        before = f"heron-{weight}-{generation - 1}" if generation > 1 else None
        model = ShaftModel(
            id=f"heron-{weight}-{generation}",
            maker="Nullmoor (invented)",
            name="Heron",
            paper_mass=weight * GRAM,
            paper_label="firm",
            family=FAMILY,
            generation=f"generation {generation}",
            replaces=before,
            stock=3,
            price=18900,
        )
        store.put(model, version=None)
    for model_id, tips in _TIPS.items():
        for mark, tip in zip("abc", tips, strict=False):
            piece = Piece(
                id=f"{model_id}-{mark}", model=model_id, label=f"{mark.upper()}", place="Bay 1"
            )
            store.put(piece, version=None)
            profile = a_profile(_tip(tip), piece=piece.id, noise=0.006, blind_from=1.1)
            keep_profile(studio, profile)
    club = Assembly(id="club-1", head="harrow-1", shaft="heron-60-1-a", length=45.25 * INCH)
    store.put(club, version=None)
    inspect(studio, "heron-60-1-a", Finding.WORN, words="paint at the hosel", by="Ann")
    inspect(studio, "heron-60-2-b", Finding.CRACKED, words="hairline at the tip", by="Ann")


def _tip(factor: float) -> Callable[[FloatArray], FloatArray | float]:
    """Return what makes a shaft softer or stiffer towards the tip."""

    def shape(place: FloatArray) -> FloatArray:
        return np.where(place > 0.85, factor, 1.0 + 0.1 * (factor - 1.0))

    return shape

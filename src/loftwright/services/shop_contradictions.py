"""Where a studio's record says otherwise than its shafts' labels, bench or sisters."""

import numpy as np

from loftwright.services.belongings import belongs_of
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.contradictions import Claims, Contradiction, contradictions
from loftwright.shop.learned import ShopLearned
from loftwright.shop.physics import physics_at
from loftwright.shop.physics_start import USUAL_DELIVERY
from loftwright.shop.read_back import shifts_in


def contradictions_of(studio: Studio, learned: ShopLearned) -> tuple[Contradiction, ...]:
    """Return where what a studio learned contradicts what is said of its rack's shafts.

    Parameters
    ----------
    studio : Studio
    learned : ShopLearned

    Notes
    -----
    What the bench expects of the delivery is turned into launch at a usual golfer's swing.
    """
    rack = studio.store.rack()
    shafts = [
        belongs_of(rack, "", piece.id)
        for piece in rack.pieces.values()
        if piece.model in rack.shafts
    ]
    usual = physics_at(USUAL_DELIVERY)
    parts = np.asarray(usual.at.parts)
    return contradictions(
        learned,
        shafts,
        learned.launch.slopes + learned.physics,
        Claims(
            labels={one.id: one.paper_label for one in rack.shafts.values()},
            bench={
                model: parts @ shift for model, shift in shifts_in(record_folder(studio)).items()
            },
        ),
    )

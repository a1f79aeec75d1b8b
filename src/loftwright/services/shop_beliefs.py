"""What the shop had learned when a fitting's newest visit opened, read once and kept."""

from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.domain.golfer import Golfer, Hand
from loftwright.errors import StoreError
from loftwright.services.belongings import golfer_kind, speed_word
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.pinned import PHYSICS_ALONE, Pinned
from loftwright.services.shop_learning import learned_versions, read_learned
from loftwright.services.studio import Studio
from loftwright.shop.learned import ShopLearned

_kept: Final[KeptByStudio[ShopLearned]] = KeptByStudio()


def newest_version(studio: Studio, *, invented: bool = False) -> int:
    """Return the version that a visit is pinned to when it opens; 0 for physics alone.

    Parameters
    ----------
    studio : Studio
    invented : bool
        Whether its balls are invented: a shop's real fittings tell nothing of those.
    """
    return 0 if invented else max(learned_versions(studio), default=0)


def fitting_beliefs(studio: Studio, golfer: Golfer, now: FittingNow) -> Pinned:
    """Return what a fitting believes by the version pinned when its newest visit opened.

    Parameters
    ----------
    studio : Studio
    golfer : Golfer
    now : FittingNow

    Returns
    -------
    Pinned
        Physics alone before anything was learned. A version that cannot be read is said to be
        lost, so that nobody takes physics for what the shop has learned.

    Notes
    -----
    Nothing of it follows from a ball of the fitting: the golfer's kind is by the stated head
    speed. A version never changes, so that a ball costs no reading of it.
    """
    version = now.learned
    if version == 0:
        return PHYSICS_ALONE
    return Pinned(
        version=version,
        learned=_learned(studio, version),
        rack=studio.store.rack(),
        kind=golfer_kind(golfer, speed_word(golfer.head_speed)),
        left_handed=golfer.hand is Hand.LEFT,
        pieces=tuple((one.card.head_piece, one.card.shaft_piece) for one in now.clubs),
    )


def _learned(studio: Studio, version: int) -> ShopLearned | None:
    try:
        return _kept.of(studio, version, lambda: read_learned(studio, version))
    except StoreError:
        # Said on every page and in every record of the fitting; it may come back.
        return None

"""What a shop learned, read once a version, or why it cannot be read."""

from dataclasses import dataclass
from typing import Final

from loftwright.errors import StoreError
from loftwright.services import shop_learning
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.studio import Studio
from loftwright.shop.learned import ShopLearned


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What was learned.

    Attributes
    ----------
    learned : ShopLearned, optional
        None before anything was learned, and where it cannot be read.
    why_not : str
        Why it cannot be read and what to do; empty if it can, or nothing was learned.
    """

    learned: ShopLearned | None = None
    why_not: str = ""


NOTHING: Final = Learned()
_READ: Final = KeptByStudio[ShopLearned]()


def newest(studio: Studio) -> Learned:
    """Return what a studio learned last, or why it cannot be read."""
    versions = shop_learning.learned_versions(studio)
    if not versions:
        return NOTHING
    return of_version(studio, versions[-1])


def of_version(studio: Studio, version: int) -> Learned:
    """Return what a studio learned at one time, or why it cannot be read.

    Parameters
    ----------
    studio : Studio
    version : int
        0 for physics alone.
    """
    if not version:
        return NOTHING
    try:
        read = _READ.of(studio, version, lambda: shop_learning.read_learned(studio, version))
    except StoreError as error:
        return Learned(why_not=f"Version {version} cannot be used: {error.message}. {error.mend}")
    return Learned(learned=read)

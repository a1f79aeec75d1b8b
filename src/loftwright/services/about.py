"""What this installation is: its version, its store's schema, its folder."""

from dataclasses import dataclass
from pathlib import Path

from loftwright import __version__
from loftwright.services.studio import Studio
from loftwright.store.schema import HEAD


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What this installation is.

    Attributes
    ----------
    schema : str
        Of the store's tables; an opened store always stands at the newest.
    """

    version: str
    schema: str
    folder: Path


def about(studio: Studio) -> About:
    """Return what this installation is."""
    return About(version=__version__, schema=HEAD, folder=studio.folder)

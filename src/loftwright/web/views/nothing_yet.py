"""Why nothing can be said yet: too few balls, or balls without the columns it takes."""

from typing import Final

from loftwright.bay.outside import none_compared
from loftwright.services.bay_now import BayNow

NO_COLUMNS: Final = "Nothing can be compared: these balls have neither launch and spin nor carry."
ONE_MORE_COLUMN: Final = (
    "One more column would do: carry compares clubs as the device shows it, launch and spin fly "
    "every ball again at home."
)


NO_DRIVERS: Final = (
    "Nothing is compared: no ball was hit with a driver, and where balls of other clubs go at "
    "home was not checked."
)
AS_READ: Final = "What the device showed of them is listed as read."


def without_drivers(bay: BayNow) -> bool:
    """Return whether balls were hit, none of them with a driver."""
    return bay.evidence.decision is None and none_compared(bay.now)


def without_columns(bay: BayNow) -> bool:
    """Return whether balls are there that no comparison can use."""
    found = bay.evidence
    return found.decision is None and bool(found.table.table.shots)


def nothing_yet(bay: BayNow, usual: str) -> str:
    """Return the sentence of a page without a comparison.

    Parameters
    ----------
    bay : BayNow
    usual : str
        What the page says while there are too few balls.
    """
    if without_drivers(bay):
        return NO_DRIVERS
    return NO_COLUMNS if without_columns(bay) else usual

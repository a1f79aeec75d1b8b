"""Why nothing can be said yet: too few balls, or balls without the columns it takes."""

from typing import Final

from loftwright.services.bay_now import BayNow

NO_COLUMNS: Final = "Nothing can be compared: these balls have neither launch and spin nor carry."
ONE_MORE_COLUMN: Final = (
    "One more column would do: carry compares clubs as the device shows it, launch and spin fly "
    "every ball again at home."
)


def without_columns(bay: BayNow) -> bool:
    """Return whether balls are there that no comparison can use."""
    return bay.evidence.decision is None and bool(bay.evidence.table.table.shots)


def nothing_yet(bay: BayNow, usual: str) -> str:
    """Return the sentence of a page without a comparison.

    Parameters
    ----------
    bay : BayNow
    usual : str
        What the page says while there are too few balls.
    """
    return NO_COLUMNS if without_columns(bay) else usual

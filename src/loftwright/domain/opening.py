"""That somebody opened a golfer's record."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """One opening of a golfer's record.

    Attributes
    ----------
    fitting : str, optional
        The fitting through which it was opened.
    device : str
        Id of the device; empty for this machine.
    by : str
        The fitter whose name the device bears; empty where none is known.
    page : str
        Address of the page.
    """

    golfer: str
    device: str
    page: str
    at: datetime
    fitting: str | None = None
    by: str = ""

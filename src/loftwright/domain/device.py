"""Where a column's numbers come from."""

from dataclasses import dataclass
from enum import StrEnum


class Origin(StrEnum):
    """How a device came by a column."""

    MEASURED = "measured"
    CALCULATED = "calculated"
    ABSENT = "absent"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a device's table.

    Attributes
    ----------
    column : str
        The heading as the file has it; empty for an absent column.
    means : str
        The quantity in the words of the column list (`ball speed`, `strike toe`, ...).
    unit : str
        The unit the file uses; empty where there is none.
    origin : Origin
        Whether the device measured it.
    source : str
        What settled the meaning, unit and origin: the heading, the values, a remembered
        mapping or the user.
    """

    column: str
    means: str
    unit: str
    origin: Origin
    source: str

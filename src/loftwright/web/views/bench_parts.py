"""What stands on the bench page: cells, rows, series, and what is said of them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.web.views.rack_rows import Choice

WORDS: Final = {
    "length": "Length of the bare shaft",
    "bench": "Bench",
    "grip_mass": "Grip weighs",
    "grip_length": "and reaches down",
    "sleeve_mass": "Sleeve weighs",
    "sleeve_length": "is long",
    "sleeve_balance": "and balances from its tip end at",
    "station": "Station",
    "span": "Span",
    "load": "Load",
    "deflection": "Deflection",
    "clamp": "In the clamp",
    "tip_mass": "On the end",
    "frequency": "Frequency",
    "moment": "Moment",
    "twist": "Twist",
    "mass": "Weight",
    "balance": "Balance point",
    "diameter": "Diameter",
}
"""What the cells of a sheet are called."""


NOTES: Final = {
    "three_point": "The load hangs in the middle of the span, at the station.",
    "cantilever": "The gauge stands where the load hangs; what the load adds is the reading.",
    "tip_clamped": "Turned round, the tip in the clamp: nothing else sees the tip.",
    "tip_swung": "Turned round, the tip in the clamp, the weight on the butt.",
    "frequency": "A frequency says nothing without its clamp and the weight on the end.",
    "torque": "The moment is applied at the station, the butt held.",
    "mass": "With what is on it, as said above.",
    "balance": "From the butt, with what is on it, as said above.",
    "diameter": "Outside; kept with the shaft.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CellView:
    """One cell of a sheet.

    Attributes
    ----------
    name : str
        Of the field.
    words, unit : str
    value : str
        As it was typed.
    fault : str
        Empty if it is right.
    reading : bool
        Whether it is the reading itself.
    """

    name: str
    words: str
    unit: str
    value: str
    fault: str = ""
    reading: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What is said of a row, beside it.

    Attributes
    ----------
    key : str
        Names the row in forms, such as s0r5.
    off : str
        How far it lies from the shaft that the rows make, in its own errors.
    doubt : str
        Empty if it is not doubted.
    ways : tuple of Choice
        Slips that explain it: what the button sends, and its words.
    taken : str
        What stood there before, and why it was changed.
    faults : tuple of str
    """

    key: str
    name: str
    off: str = ""
    doubt: str = ""
    ways: tuple[Choice, ...] = ()
    taken: str = ""
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One row of a sheet."""

    key: str
    name: str
    cells: tuple[CellView, ...]
    verdict: Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesView:
    """Readings of one kind."""

    at: int
    letter: str
    title: str
    note: str
    set_up: tuple[CellView, ...]
    rows: tuple[RowView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """The bench page of a shaft.

    Attributes
    ----------
    state : str
        One line that stays in sight: rows read, doubts.
    doubts : int
        How many rows are doubted; a slip of many at once counts as one.
    many : tuple of Choice
        Slips of many rows at once: what the button sends, and the words.
    taken_together : int
        How many rows stand as they were changed with others.
    faults : tuple of str
        Of the sheet as a whole.
    dressed : bool
        Whether a grip or a sleeve is on.
    """

    name: str
    sentence: str
    lead: str
    picture: str
    state: str
    head: Mapping[str, CellView]
    series: tuple[SeriesView, ...]
    doubts: int
    many: tuple[Choice, ...]
    taken_together: int
    faults: tuple[str, ...]
    dressed: bool

"""What can happen to parts: they arrive, are measured, and stand, are mended or go back."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from loftwright.domain.measured_card import PartFigures


class Part(StrEnum):
    """What is checked in."""

    HEAD = "head"
    SHAFT = "shaft"
    GRIP = "grip"
    SLEEVE = "sleeve"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartCame:
    """A part arrived and was measured; a second one of its kind takes the place of the first.

    Attributes
    ----------
    serial : str
        What is written on it.
    """

    part: Part
    figures: PartFigures
    serial: str = ""
    note: str = ""


class Settled(StrEnum):
    """What is done about a part that differs from the tested one."""

    KEEP = "keep"
    TURN_SLEEVE = "turn_sleeve"
    HEAD_WEIGHT = "head_weight"
    SEND_BACK = "send_back"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSettled:
    """It was decided what happens to a part that differs.

    Attributes
    ----------
    setting : str
        Of the sleeve, where that is turned.
    mass : float
        To add to the head, where that is what is done [kg].
    """

    part: Part
    settled: Settled
    setting: str = ""
    mass: float = 0.0
    why: str = ""


PartsAct: TypeAlias = PartCame | PartSettled

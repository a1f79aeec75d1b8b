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
    named : str
        What it is, where it is not what was ordered; else empty.
    other_hand : bool
        Whether it is a head for the other hand.
    """

    part: Part
    figures: PartFigures
    serial: str = ""
    note: str = ""
    named: str = ""
    other_hand: bool = False


class Settled(StrEnum):
    """What is done about a part that differs from the tested one."""

    KEEP = "keep"
    TURN_SLEEVE = "turn_sleeve"
    HEAD_WEIGHT = "head_weight"
    SEND_BACK = "send_back"


class Matter(StrEnum):
    """What of a part was settled: of a head its weight and its angles apart."""

    WHOLE = "whole"
    MASS = "mass"
    ANGLES = "angles"


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
    matter: Matter = Matter.WHOLE


PartsAct: TypeAlias = PartCame | PartSettled

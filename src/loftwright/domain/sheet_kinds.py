"""What a field of a build sheet is: its block, what it holds, and how it is asked for."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final


class Block(StrEnum):
    """A block of the sheet, in order."""

    WHO = "who"
    METHODS = "methods"
    TARGETS = "targets"
    HEAD = "head"
    DRY_FIT = "dry_fit"
    SLEEVE = "sleeve"
    SHAFT = "shaft"
    BOND = "bond"
    GRIP = "grip"
    WEIGHTS = "weights"
    TOLERANCES = "tolerances"
    DOUBTS = "doubts"
    SCALE = "scale"


class Holds(StrEnum):
    """What a field holds, and so the unit that it is kept in.

    Attributes
    ----------
    MASS, LENGTH, SMALL, INERTIA, ANGLE, CYCLES, POINTS, NUMBER
        g, in, mm, kg cm2, deg, cycles a minute, a swingweight in letters, and a bare number.
    LIST
        Words with commas between.
    """

    TEXT = "text"
    MASS = "mass"
    LENGTH = "length"
    SMALL = "small"
    INERTIA = "inertia"
    ANGLE = "angle"
    CYCLES = "cycles"
    POINTS = "points"
    NUMBER = "number"
    TICK = "tick"
    PICK = "pick"
    LIST = "list"


FIGURES: Final = frozenset(
    {Holds.MASS, Holds.LENGTH, Holds.SMALL, Holds.INERTIA, Holds.ANGLE, Holds.CYCLES, Holds.NUMBER}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetField:
    """One field of a build sheet.

    Attributes
    ----------
    name : str
        Key of a build file with its table, or the field's own name.
    words : str
        What a workshop calls it.
    hint : str
        What is meant, in a line.
    choices : tuple of (str, str)
        Of a pick: value and words, the usual one first.
    needed : str
        What is missing without it, in words; empty where it may stay empty.
    """

    name: str
    words: str
    block: Block
    kind: Holds = Holds.TEXT
    hint: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    needed: str = ""

    @property
    def is_key(self) -> bool:
        """Whether a build file has it."""
        return "." in self.name


SMALL_PARTS: Final = ("sleeve", "screw", "ferrule", "glue", "plug")
"""Parts at the tip that a sheet has a row for; a build file names them so."""

_PLACES: Final = {
    "sleeve": "SLEEVE",
    "screw": "SLEEVE",
    "ferrule": "BOND",
    "glue": "BOND",
    "plug": "WEIGHTS",
}


def rows(block: Block, *told: tuple[str, str, Holds, str, str]) -> tuple[SheetField, ...]:
    """Return fields of a block: name, words, what they hold, hint, what is missing without."""
    return tuple(
        SheetField(name=name, words=words, block=block, kind=kind, hint=hint, needed=needed)
        for name, words, kind, hint, needed in told
    )


def small_part(name: str) -> tuple[SheetField, ...]:
    """Return the two fields of a part at the tip: its weight and its place."""
    block = Block[_PLACES[name]]
    words = "Plug or tip weight" if name == "plug" else name.capitalize()
    return rows(
        block,
        (f"parts.{name}.mass_g", f"{words}, weighed", Holds.MASS, "", ""),
        (
            f"parts.{name}.from_tip_inch",
            f"{words}, beyond the seated tip",
            Holds.LENGTH,
            "Of its middle; towards the grip with a minus.",
            "",
        ),
    )


def pick(
    name: str, words: str, block: Block, *choices: tuple[str, str], hint: str = ""
) -> SheetField:
    """Return a field with a few choices, the usual one first."""
    return SheetField(
        name=name, words=words, block=block, kind=Holds.PICK, choices=choices, hint=hint
    )

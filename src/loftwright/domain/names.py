"""What the clubs of a fitting are called: no letters, which would collide with flex marks."""

from typing import Final

OWN: Final = "Own"
"""The golfer's own club."""

TREES: Final = (
    "Ash",
    "Birch",
    "Cedar",
    "Elm",
    "Fir",
    "Hazel",
    "Larch",
    "Maple",
    "Oak",
    "Pine",
    "Rowan",
    "Willow",
)
"""The others, in the order in which they join."""

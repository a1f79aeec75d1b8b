"""Colours of the printed page: every one literal, for paper knows no variables."""

from typing import Final

INK: Final = "#182024"
INK_2: Final = "#4a565b"
EDGE: Final = "#78848a"
HAIR: Final = "#cdd4d1"
FAIRWAY: Final = "#f2f4f1"
ACCENT: Final = "#2e3a8c"
SHEET: Final = "#ffffff"
WASH: Final = "#e3e7f6"
CAUTION: Final = "#fff0c2"
ON_CAUTION: Final = "#5a3b00"

CLUB_COLOURS: Final = (
    "#0072b2",
    "#d55e00",
    "#009e73",
    "#cc79a7",
    "#e69f00",
    "#56b4e9",
    "#f0e442",
)
"""Okabe and Ito's palette for colour-blind readers, without its black (values from memory)."""

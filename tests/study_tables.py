"""What the studies share."""

from collections.abc import Callable

ABILITIES = ("tour", "low", "mid", "high", "senior")

Say = Callable[[str], None]
"""Adds a line to the figures printed at the end of the run."""

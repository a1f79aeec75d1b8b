"""What a caller settles about a table before it is read."""

from dataclasses import dataclass
from pathlib import Path
from typing import Literal, TypeAlias

Handedness: TypeAlias = Literal["right", "left"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadOptions:
    """What is settled about a table of shots.

    Attributes
    ----------
    columns : tuple of str
        Meanings of columns, such as ``Col A=ball speed[mph]`` or ``Path=path[deg, right +]``.
    club_column : str, optional
        Heading of the column that names the club.
    only : tuple of str
        Rows to keep, such as ``Golfer=Ann``; all must hold.
    not_ours : tuple of int
        Lines of the file that are no balls of this golfer.
    hand : {"right", "left"}
        The golfer's hand; it decides what "right +" means for face and path.
    mappings_path : Path, optional
        File in which settled columns are remembered; None remembers nothing.
    """

    columns: tuple[str, ...] = ()
    club_column: str | None = None
    only: tuple[str, ...] = ()
    not_ours: tuple[int, ...] = ()
    hand: Handedness = "right"
    mappings_path: Path | None = None

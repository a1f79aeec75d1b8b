"""The typefaces that the paper carries, found inside their packages."""

from functools import cache
from importlib.resources import files
from pathlib import Path

SANS = "Source Sans 3"
SERIF = "Source Serif 4"

REGULAR = "style=\"font-variation-settings:'wght' 400\""
"""Attribute of letters in an SVG that are neither light nor bold.

Of a variable font an SVG renderer may take weight 400 for the file's default, which is the
lightest here; regular letters therefore name their place on the weight axis.
"""

_PACKAGES = ("fontpkg_source_sans_3", "fontpkg_source_serif_4")


@cache
def font_folders() -> tuple[Path, ...]:
    """Return the folders that hold the font files.

    Returns
    -------
    tuple of Path
        One folder for each family, both installed with the program.

    Raises
    ------
    FileNotFoundError
        When a package holds no font file, which is a broken installation.
    """
    folders = []
    for package in _PACKAGES:
        folder = Path(str(files(package))) / "files"
        if not any(folder.glob("*.ttf")):
            raise FileNotFoundError(f"no font files in {folder}")
        folders.append(folder)
    return tuple(folders)

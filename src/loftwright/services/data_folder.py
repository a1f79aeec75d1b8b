"""Where Loftwright keeps what it remembers."""

import os
import sys
from collections.abc import Mapping
from pathlib import Path

MAPPINGS = "mappings.toml"


def data_folder(environment: Mapping[str, str] | None = None, platform: str | None = None) -> Path:
    """Return the data folder: `LOFTWRIGHT_DATA`, else the platform's place; it need not exist.

    Parameters
    ----------
    environment : mapping of str to str, optional
        That of the process without it.
    platform : str, optional
        As `sys.platform` names it.

    Returns
    -------
    Path
    """
    variables = os.environ if environment is None else environment
    system = sys.platform if platform is None else platform
    chosen = variables.get("LOFTWRIGHT_DATA")
    if chosen:
        return Path(chosen).expanduser()
    home = Path(variables.get("HOME") or Path.home())
    if system == "darwin":
        return home / "Library" / "Application Support" / "Loftwright"
    if system == "win32":
        return Path(variables.get("LOCALAPPDATA") or home / "AppData" / "Local") / "Loftwright"
    return Path(variables.get("XDG_DATA_HOME") or home / ".local" / "share") / "loftwright"


def mappings_file() -> Path:
    """Return the file of settled columns."""
    return data_folder() / MAPPINGS

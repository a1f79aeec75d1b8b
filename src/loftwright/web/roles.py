"""Which pages a paired device may see by its role."""

from typing import Final

OPEN: Final = ("/static", "/pair", "/theme")
"""Pages that need no key."""

ROLE_NAMES: Final = {"fitter": "fitter", "workshop": "workshop", "screen": "golfer’s screen"}
FIRST_PAGES: Final = {"fitter": "/", "workshop": "/rack", "screen": "/screen"}
_OWN_PATHS: Final = {"workshop": ("/rack", "/bench", "/build"), "screen": ("/screen",)}


def is_open(path: str) -> bool:
    """Return whether a page needs no key."""
    return _is_below(path, OPEN)


def may_see(role: str, path: str) -> bool:
    """Return whether devices of a role may see a page.

    The fitter sees everything, the workshop no golfer, a golfer's screen only its own page.
    """
    if role == "fitter":
        return True
    return _is_below(path, _OWN_PATHS.get(role, ())) or is_open(path)


def _is_below(path: str, folders: tuple[str, ...]) -> bool:
    return any(path == folder or path.startswith(f"{folder}/") for folder in folders)
